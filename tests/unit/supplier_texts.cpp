// The texts of a supplier's label: what each is, and what the arithmetic has that they don't say.
#include "hazard_candle.hpp"

#include <doctest/doctest.h>

#include "reckon/label/supplier_texts.hpp"

using namespace waxwright;
using namespace waxwright::tests;

namespace {

SupplierTexts read(std::vector<std::string_view> texts) {
    return read_supplier(texts);
}

/// "H317 EUH208": what the sums say, and the texts don't.
std::string lacks(const Classification& sums, std::vector<std::string_view> texts) {
    std::string result;
    for (const std::string_view one : not_said(sums, read(std::move(texts))))
        result += (result.empty() ? "" : " ") + std::string(one);
    return result;
}

const Ingredient sensitiser = of("A", 1, {C::skin_sens_1b});

} // namespace

TEST_SUITE("a supplier's texts") {
    TEST_CASE("each text goes where it belongs") {
        const SupplierTexts said =
            read({"GHS09", "GHS07", "Warning", "H317 May cause an allergic skin reaction.",
                  "Contains linalool.", "P302+P352 IF ON SKIN: Wash with plenty of water.",
                  "EUH208 Contains citral."});
        CHECK(said.pictograms == std::vector{7, 9});
        CHECK(said.signal == "WARNING");
        CHECK_FALSE(said.none);
        CHECK(said.faults.empty());
        REQUIRE(said.hazards.size() == 3);
        CHECK(said.hazards[0].code == "H317");
        CHECK(said.hazards[0].text == "May cause an allergic skin reaction.");
        CHECK(said.hazards[1].code.empty());
        CHECK(said.hazards[1].text == "Contains linalool.");
        CHECK(said.hazards[2].code == "EUH208");
        REQUIRE(said.precautions.size() == 1);
        CHECK(said.precautions[0].code == "P302+P352");
        // A code alone, and words that only begin like one.
        CHECK(read({"H412"}).hazards[0].text.empty());
        CHECK(read({"Harmful"}).hazards[0].code.empty());
        CHECK(read({"Please burn it to the end"}).precautions.empty());
    }

    TEST_CASE("none, and none beside others") {
        CHECK(read({"none"}).none);
        CHECK(read({"NONE"}).none);
        const SupplierTexts mixed = read({"none", "H317"});
        CHECK_FALSE(mixed.none);
        REQUIRE(mixed.faults.size() == 1);
        CHECK(mixed.hazards.size() == 1);
        CHECK_FALSE(read({}).none);
    }

    TEST_CASE("what can't be on a label is left out and told") {
        CHECK(read({"GHS01"}).pictograms == std::vector{1});
        for (const std::string_view wrong : {"GHS00", "GHS10", "GHS7", "GHS99", "GHS009"}) {
            CAPTURE(wrong);
            const SupplierTexts said = read({wrong});
            CHECK(said.pictograms.empty());
            CHECK(said.faults.size() == 1);
        }
        CHECK(read({""}).faults.size() == 1);
        CHECK(read({" \n"}).faults.size() == 1);
        const SupplierTexts two = read({"warning", "Danger"});
        CHECK(two.signal == "DANGER");
        CHECK(two.faults.size() == 1);
        CHECK(read({"Danger", "warning"}).signal == "DANGER");
        CHECK(read({"Warning", "WARNING"}).faults.empty());
    }

    TEST_CASE("what the sums give is said by its code, or in words") {
        const Classification skin = classified({sensitiser});
        CHECK(lacks(skin, {"H317 May cause an allergic skin reaction."}) == "");
        CHECK(lacks(skin, {"may cause an allergic skin reaction"}) == "");
        CHECK(lacks(skin, {"H317"}) == "");
        CHECK(lacks(skin, {"H412"}) == "H317");
        CHECK(lacks(skin, {"none"}) == "H317");
        // A letter behind the code, or several codes on one line.
        const Classification unborn = classified({of("A", 3, {C::repr_2})});
        CHECK(lacks(unborn, {"H361d Suspected of damaging the unborn child."}) == "");
        const Classification two = classified(
            {of("A", 25, {C::acute_tox_4_oral}), of("B", 30, {C::acute_tox_4_inhalation})});
        CHECK(lacks(two, {"H302+H332 Harmful if swallowed or if inhaled."}) == "");
    }

    TEST_CASE("a graver thing of the same kind says it too, and a milder one doesn't") {
        const Classification fish = classified({of("A", 2.5, {C::aquatic_chronic_1})}); // H411
        CHECK(lacks(fish, {"H410"}) == "");
        CHECK(lacks(fish, {"H412"}) == "H411");
        const Classification eyes = classified({of("A", 10, {C::eye_irrit_2})}); // H319
        CHECK(lacks(eyes, {"H318"}) == "");
        CHECK(lacks(eyes, {"H315"}) == "H319");
    }

    TEST_CASE("STOT SE 3: either sentence says what may be either") {
        const auto of_class = [](HazardClass hazard) {
            return classified({of("A", 20, {hazard})});
        };
        CHECK(lacks(of_class(C::stot_se_3), {"H335"}) == "");
        CHECK(lacks(of_class(C::stot_se_3), {"H336"}) == "");
        CHECK(lacks(of_class(C::stot_se_3_h335), {"H336"}) == "H335");
        CHECK(lacks(of_class(C::stot_se_3_h336), {"H336 May cause drowsiness or dizziness."}) ==
              "");
    }

    TEST_CASE("who is sensitised already is warned by EUH208, H317 or H334") {
        const Classification named = classified({of("A", 0.5, {C::skin_sens_1b})});
        CHECK(lacks(named, {"H412"}) == "EUH208");
        CHECK(lacks(named, {"EUH208 Contains A. May produce an allergic reaction."}) == "");
        CHECK(lacks(named, {"Contains A. May produce an allergic reaction."}) == "");
        CHECK(lacks(named, {"H317"}) == "");
        CHECK(lacks(named, {"H334"}) == "");
    }

    TEST_CASE("a class of health has a UFI") {
        // From memory of CLP Article 45 and Annex VIII.
        CHECK(is_for_health(read({"H317"})));
        CHECK(is_for_health(read({"H226"})));
        CHECK(is_for_health(read({"May cause an allergic skin reaction."})));
        CHECK_FALSE(is_for_health(read({"H412"})));
        CHECK_FALSE(is_for_health(read({"EUH208 Contains A."})));
        CHECK_FALSE(is_for_health(read({"none"})));
    }
}
