// The label as a value: what its hazard block says, gathered from a file, by the whole way.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "label_bench.hpp"

using namespace waxwright;
using namespace waxwright::label_bench;
using doctest::Approx;

TEST_CASE("without a maker there is a label for each market, and what is missing is told") {
    const auto all = labels(known);
    REQUIRE(all.size() == 3);
    CHECK(all[0].market == Market::us);
    CHECK(all[1].market == Market::eu);
    CHECK(all[2].market == Market::gb);
    CHECK(all[0].maker.size() == 2);
    CHECK(all[1].maker.size() == 3);
    CHECK(std::ranges::all_of(all[1].maker, [](const auto& line) { return line.empty(); }));
    CHECK(all[1].missing.size() == 5); // lot, name, address, telephone, UFI
    CHECK(all[1].not_burned);
    CHECK(all_text(all[1]).starts_with("NOT TEST BURNED\n"));
    CHECK(labels(std::string(known) + "maker us { title: \"A\", address: \"B\", phone: \"C\", "
                                      "sells-in: gb }\n")
              .size() == 1);
}

TEST_CASE("the hazard block by what the oil contains") {
    // By hand: 5 % x 30 % = 1.5 % of a 1B, over 1 %: H317. 5 % x 6 % x M 10 = 3: x 10 = 30, over
    // 25: H411, which has GHS09 and no signal word.
    const Label label = labels(known)[1];
    const LabelHazards& block = label.hazards;
    CHECK(block.source == HazardSource::worked_out);
    REQUIRE(block.hazards.size() == 2);
    CHECK(block.hazards[0].code == "H317");
    CHECK(block.hazards[1].code == "H411");
    CHECK(block.signal == "WARNING");
    CHECK(block.pictograms == std::vector<int>{7, 9});
    CHECK(block.named == std::vector<std::string>{"wrack"});
    CHECK(block.euh208.empty());
    CHECK_FALSE(block.none);
    // What has to stay on a small jar has the room; what had none is told.
    std::string precautions;
    for (const LabelSentence& one : block.precautions) {
        precautions += one.code + " ";
        CHECK_FALSE(one.may_go);
    }
    CHECK(precautions == "P102 P261 P280 P302+P352 P333+P313 P501 ");
    CHECK(std::ranges::any_of(label.notes, [](const std::string& note) {
        return note.find("go with its classes too: P273, P391.") != std::string::npos;
    }));
    // 120 ml: what belongs to H411 alone may go, and nothing of H317.
    CHECK_FALSE(block.hazards[0].may_go);
    CHECK(block.hazards[1].may_go);
    CHECK(label.sizes.contents_ml == Approx(120));
    CHECK(label.sizes.pictogram_mm == 10);
    CHECK(label.sizes.x_height_mm == Approx(1.2));
}

TEST_CASE("a limit of one's own counts, and names from a tenth of it") {
    // 5 % x 0.1 % = 0.005 % of a 1A with a limit of 0.02 %: no class, but over 0.002 %: named.
    const Label label = labels("oil oil-of-it { density: 0.89 g/ml, contains: 0.1% holly + 99.9% "
                               "rest-of-it }\n")[1];
    CHECK(label.hazards.hazards.empty());
    CHECK(label.hazards.precautions.empty());
    CHECK(label.hazards.euh208 == "Contains holly. May produce an allergic reaction.");
    CHECK_FALSE(label.hazards.none);
}

TEST_CASE("what isn't known is not worked out, and not taken for harmless") {
    for (const std::string_view oil :
         {"oil oil-of-it { density: 0.89 g/ml }\n",
          "oil oil-of-it { density: 0.89 g/ml, contains: 99% rest-of-it }\n",
          "substance silent { }\noil oil-of-it { density: 0.89 g/ml, contains: 1% silent + 99% "
          "rest-of-it }\n"}) {
        CAPTURE(oil);
        const Label label = labels(oil)[1];
        CHECK(label.hazards.source == HazardSource::not_worked_out);
        CHECK(label.hazards.instead == "not worked out: ask the supplier for the label at 5 % of "
                                       "total");
        CHECK_FALSE(label.hazards.none);
        place(all_text(label), "not worked out");
    }
    const Label none =
        labels("oil oil-of-it { density: 0.89 g/ml, contains: 100% rest-of-it }\n")[1];
    CHECK(none.hazards.source == HazardSource::worked_out);
    CHECK(none.hazards.none);
}

TEST_CASE("the supplier's label counts up to its load, and no further") {
    const auto with = [](std::string_view load) {
        return labels(
            "oil oil-of-it { density: 0.89 g/ml\n  supplier-label: \"GHS07\", "
            "\"Warning\", \"H317 May cause an allergic skin reaction.\", \"P501 Dispose of "
            "it by local rules.\", \"Contains wrack.\"\n  supplier-label-load: " +
            std::string(load) + "\n}\n")[1];
    };
    const Label label = with("5% of total"); // equality passes
    CHECK(label.hazards.source == HazardSource::supplier);
    CHECK(label.hazards.pictograms == std::vector<int>{7});
    CHECK(label.hazards.signal == "WARNING");
    REQUIRE(label.hazards.hazards.size() == 2);
    CHECK(label.hazards.hazards[0].code == "H317");
    CHECK(label.hazards.hazards[0].text == "May cause an allergic skin reaction.");
    CHECK_FALSE(label.hazards.hazards[0].may_go);
    CHECK(label.hazards.hazards[1].code.empty());
    REQUIRE(label.hazards.precautions.size() == 1);
    CHECK(label.hazards.precautions[0].code == "P501");
    // 5 % of the total is 5.263 % of the wax.
    CHECK(with("5.27% of wax").hazards.source == HazardSource::supplier);
    CHECK(with("5.26% of wax").hazards.source == HazardSource::not_worked_out);
    CHECK(with("4.99% of total").hazards.source == HazardSource::not_worked_out);
}

TEST_CASE("a supplier's label of none is none, and not unknown") {
    const Label label = labels("oil oil-of-it { density: 0.89 g/ml, supplier-label: \"none\", "
                               "supplier-label-load: 6% of total }\n")[1];
    CHECK(label.hazards.source == HazardSource::supplier);
    CHECK(label.hazards.none);
    CHECK(label.hazards.hazards.empty());
}

TEST_CASE("what a supplier's texts lack is told, and not put in") {
    const Label label = labels("oil oil-of-it { density: 0.89 g/ml\n  contains: 1% eelgrass + 99% "
                               "rest-of-it\n  supplier-label: \"H317 May cause an allergic skin "
                               "reaction.\"\n  supplier-label-load: 6% of total\n}\n")[1];
    CHECK(label.hazards.pictograms.empty());
    CHECK(label.hazards.signal.empty());
    const auto told = [&](std::string_view what) {
        return std::ranges::any_of(label.notes, [&](const std::string& note) {
            return note.find(what) != std::string::npos;
        });
    };
    CHECK(told("With H317 goes GHS07 and WARNING as a rule"));
    // 5 % x 1 % x M 10 = 0.5 %, x 100 = 50 %, over 25 %: H412, of which the supplier says nothing.
    CHECK(told("would have H412"));
}
