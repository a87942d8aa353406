// What goes on a label and how large, what a small jar may do without, and IFRA's limits.
#include "hazard_candle.hpp"

#include <doctest/doctest.h>

#include "reckon/compare.hpp"
#include "reckon/label/ifra.hpp"
#include "reckon/label/label_elements.hpp"
#include "reckon/label/small_package.hpp"
#include "reckon/loads.hpp"

using namespace waxwright;
using namespace waxwright::tests;
using doctest::Approx;

namespace {

template <class Value>
std::string all_codes(const std::vector<Value>& ones) {
    std::string result;
    for (const Value one : ones)
        result += (result.empty() ? "" : " ") + std::string(code(one));
    return result;
}

const Ingredient sensitiser = of("A", 1.2, {C::skin_sens_1b});
const Ingredient toxic_to_fish = of("B", 2.5, {C::aquatic_chronic_1});   // H411
const Ingredient harmful_to_fish = of("D", 2.5, {C::aquatic_chronic_2}); // H412

std::vector<int> pictograms(std::vector<HazardClass> classes) {
    return pictograms_for(classes);
}

} // namespace

TEST_CASE("a jar of at most 125 ml") {
    // CLP Annex I 1.5.2.1.1 and 1.5.2.1.2.
    const Classification fish = classified({toxic_to_fish});
    const LabelTexts none = label_texts(fish, 120);
    CHECK(all_codes(none.statements) == "");
    CHECK(all_codes(none.precautions) == "");
    CHECK(all_codes(none.statements_left_off) == "H411");
    CHECK(all_codes(none.precautions_left_off) == "P102 P273 P391 P501");
    CHECK(fish.pictograms == std::vector{9}); // stays

    const Classification skin = classified({sensitiser});
    const LabelTexts all = label_texts(skin, 120);
    CHECK(all_codes(all.statements) == "H317");
    CHECK(all.precautions == skin.precautions);
    CHECK(all.statements_left_off.empty());
    CHECK(all.precautions_left_off.empty());

    const LabelTexts statement = label_texts(classified({harmful_to_fish}), 120);
    CHECK(all_codes(statement.statements) == "H412");
    CHECK(all_codes(statement.precautions) == "");

    // Of two, what belongs to the one may go.
    const LabelTexts both = label_texts(classified({sensitiser, toxic_to_fish}), 120);
    CHECK(all_codes(both.statements) == "H317");
    CHECK(all_codes(both.statements_left_off) == "H411");
    CHECK(all_codes(both.precautions) == "P102 P261 P280 P302+P352 P333+P313 P501");
    CHECK(all_codes(both.precautions_left_off) == ""); // there is no room for it

    // 125 ml is still small, 125.1 ml isn't.
    CHECK(all_codes(label_texts(fish, 125).statements) == "");
    CHECK(all_codes(label_texts(fish, 125.1).statements) == "H411");
    CHECK(label_texts(fish, 125.1).precautions == fish.precautions);
}

TEST_CASE("a small jar has first what has to stay on it") {
    // Six at most, from memory of CLP Article 28(3). In a large jar nothing may go, and the first
    // of each class comes before the second of any.
    const Classification all = classified({sensitiser, toxic_to_fish});
    CHECK(all_codes(label_texts(all, 300).precautions) ==
          "P102 P273 P302+P352 P333+P313 P391 P501");
    CHECK(all_codes(all.precautions) == "P102 P273 P302+P352 P333+P313 P391 P501");
    const LabelTexts small = label_texts(all, 120);
    CHECK(all_codes(small.precautions) == "P102 P261 P280 P302+P352 P333+P313 P501");
    CHECK(all_codes(precautions_cut(all.classes, small)) == "P273 P391");
    // Room that is over goes to what may be left off: in turn H315 and H411.
    const Classification few = classified(
        {of("E", 25, {C::acute_tox_4_oral}), of("F", 10, {C::skin_irrit_2}), toxic_to_fish});
    const LabelTexts some = label_texts(few, 120);
    CHECK(all_codes(some.precautions) == "P102 P264 P270 P301+P312 P501");
    CHECK(all_codes(some.precautions_left_off) == "P302+P352");
    CHECK(all_codes(some.statements) == "H302");
    CHECK(all_codes(some.statements_left_off) == "H315 H411");
    for (const Classification& each : {all, few})
        for (const double ml : {120.0, 300.0}) {
            const LabelTexts texts = label_texts(each, ml);
            CHECK(texts.precautions.size() + texts.precautions_left_off.size() <= most_precautions);
        }
}

TEST_CASE("which classes a small jar may be silent about") {
    // CLP Annex I 1.5.2.1.1 and 1.5.2.1.2; Acute Tox. 4 and STOT only if not for the public.
    for (int i = 0; i <= static_cast<int>(C::ozone_1); ++i) {
        const auto hazard = static_cast<HazardClass>(i);
        CAPTURE(word(hazard));
        SmallPackage expected = SmallPackage::none;
        for (const C both : {C::flam_liq_2, C::flam_liq_3, C::skin_irrit_2, C::eye_irrit_2,
                             C::aquatic_acute_1, C::aquatic_chronic_1, C::aquatic_chronic_2})
            if (hazard == both) expected = SmallPackage::both;
        if (hazard == C::aquatic_chronic_3 || hazard == C::aquatic_chronic_4)
            expected = SmallPackage::precautions;
        CHECK(facts(hazard).small == expected);
    }
}

TEST_CASE("how large everything is") {
    // CLP Annex I Table 1.3; x-heights by summaries of Regulation (EU) 2024/2865.
    const Date before{2027, 12, 31}, after{2028, 1, 1};
    const LabelSizes jar = label_sizes(0.3, before);
    CHECK(jar.label_mm[0] == 52);
    CHECK(jar.label_mm[1] == 74);
    CHECK(jar.pictogram_mm == 10);
    CHECK(jar.better_pictogram_mm == 16);
    CHECK(jar.x_height_mm == 0);
    CHECK(label_sizes(0.3, after).x_height_mm == 1.2);
    CHECK(label_sizes(0.5, after).x_height_mm == 1.2);
    CHECK(label_sizes(0.6, after).x_height_mm == 1.4);
    CHECK(label_sizes(3, after).pictogram_mm == 10);
    CHECK(label_sizes(3.1, after).pictogram_mm == 23);
    CHECK(label_sizes(50, after).x_height_mm == 1.8);
    CHECK(label_sizes(51, after).x_height_mm == 2.0);
    CHECK(label_sizes(501, after).label_mm[1] == 210);
}

TEST_CASE("which pictogram yields to which") {
    // From memory of CLP Article 26(1).
    CHECK(pictograms({C::acute_tox_3_oral, C::skin_sens_1}) == std::vector{6});
    CHECK(pictograms({C::skin_irrit_2, C::eye_dam_1}) == std::vector{5});
    CHECK(pictograms({C::eye_dam_1, C::skin_sens_1}) == std::vector{5, 7});
    CHECK(pictograms({C::resp_sens_1, C::skin_sens_1, C::eye_irrit_2}) == std::vector{8});
    CHECK(pictograms({C::acute_tox_4_oral, C::resp_sens_1}) == std::vector{7, 8});
    CHECK(pictograms({C::skin_sens_1, C::aquatic_chronic_2}) == std::vector{7, 9});
    CHECK(pictograms({C::lact, C::aquatic_chronic_3}).empty());
}

TEST_CASE("six precautions at most, and what they are") {
    // The family of H317: CLP Annex I Table 3.4.7.
    const std::vector<HazardClass> skin{C::skin_sens_1};
    CHECK(all_codes(precautions_for(skin)) == "P102 P261 P280 P302+P352 P333+P313 P501");
    const std::vector<HazardClass> fish{C::aquatic_chronic_3};
    CHECK(all_codes(precautions_for(fish)) == "P102 P273 P501");
    const std::vector<HazardClass> many{C::acute_tox_4_oral, C::skin_irrit_2, C::eye_irrit_2,
                                        C::skin_sens_1, C::aquatic_chronic_2};
    const auto chosen = precautions_for(many);
    CHECK(chosen.size() == most_precautions);
    CHECK(all_codes(chosen) == "P102 P273 P301+P312 P302+P352 P305+P351+P338 P501");
    CHECK(signal_for(many) == Signal::warning);
    // What says the same and less is left off: from memory of CLP Annex IV.
    const std::vector<HazardClass> three{C::skin_irrit_2, C::eye_irrit_2, C::skin_sens_1};
    CHECK(all_codes(precautions_for(three)) ==
          "P102 P302+P352 P305+P351+P338 P333+P313 P337+P313 P501");
    const LabelTexts texts{{}, {}, precautions_for(three), {}};
    CHECK(all_codes(precautions_cut(three, texts)) == "P261 P264 P280");
    const std::vector<HazardClass> irritant{C::skin_irrit_2};
    CHECK(all_codes(precautions_for(irritant)) == "P102 P264 P280 P302+P352 P332+P313 P501");
    // All of one before any of the others, where that is asked for.
    CHECK(all_codes(precautions_for(many, skin)) == "P102 P261 P280 P302+P352 P333+P313 P501");
    CHECK(text(Precaution::P102) == "Keep out of reach of children.");
    CHECK(text(Statement::H317) == "May cause an allergic skin reaction.");
    // A class has no more than can be chosen, and every one is in the table.
    for (int i = 0; i <= static_cast<int>(C::ozone_1); ++i) {
        const auto hazard = static_cast<HazardClass>(i);
        if (facts(hazard).part != HazardPart::physical)
            CHECK_FALSE(facts(hazard).precautions.empty());
    }
}

TEST_CASE("what IFRA's limits allow of a blend") {
    // Limits are percent of the finished product (IFRA Standards library).
    const double planned = load_of_total(0.08, 0); // 8 % of wax, 7.4074 % of total
    const std::vector<OilInBlend> alone{{"lavender", 1, 0.05, {}}};
    CHECK(blend_limit(alone).load == 0.05);
    CHECK(over(planned, *blend_limit(alone).load));
    const std::vector<OilInBlend> free_of_it{{"lavender", 1, 1.0, {}}};
    CHECK_FALSE(blend_limit(free_of_it).load);

    const std::vector<OilInBlend> two{{"lavender", 0.75, 0.06, {}}, {"clove", 0.25, 0.01, {}}};
    const BlendLimit limit = blend_limit(two);
    CHECK(*limit.load == Approx(0.04)); // min(8, 4)
    CHECK(limit.by == "clove");
    CHECK(limit.unchecked.empty());
    CHECK(limit.not_known.empty());

    const std::vector<OilInBlend> shared{{"lavender", 0.75, 0.06, {"linalool", "coumarin"}},
                                         {"clove", 0.25, std::nullopt, {"eugenol", "coumarin"}}};
    CHECK(joined(blend_limit(shared).unchecked) == "coumarin");
    CHECK(joined(blend_limit(shared).not_known) == "clove");
    CHECK(*blend_limit(shared).load == Approx(0.08));
}
