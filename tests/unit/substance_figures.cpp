// What a substance says beside its classes: whether its effect adds up, limits of its own,
// M-factors. From the text to the arithmetic.
#include <doctest/doctest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "emit/material_units.hpp"
#include "pipeline/pipeline.hpp"
#include "reckon/label/classify.hpp"
#include "reckon/label/contents.hpp"
#include "tidy/tidy.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

constexpr std::string_view bench = R"(language 1
wax dune {
  density: 0.90 g/ml at 20 °C
  melts: 48 to 54 °C
  max-load: 60% of wax
  ceiling: 90 °C
}
substance rest-of-it { hazards: none }
vessel jar { fill: 120 ml, bore: 58 mm, of: glass, made-for: candles }
wick braid { suits: 50 to 64 mm, core: cotton }
maker me { title: "A", address: "B", phone: "C", sells-in: eu }
recipe candle {
  makes: 6 jar
  wax: dune
  load: 20% of total
  scent: oil-of-it
  wick: braid
  steps {
    melt to 75 °C
    off heat
    add scent at 68 °C, stir 2 min
    pour at 60 °C
  }
}
)";

/// `wrack { … }`, so much of the oil, and an oil that has nothing else with a class.
Workshop with_wrack(std::string_view says,
                    std::string_view contains = "20% wrack + 80% rest-of-it") {
    Sources sources;
    sources.add("a.candle",
                fmt::format("{}substance wrack {{ {} }}\noil oil-of-it {{ density: 0.89 g/ml, "
                            "flash-point: 90 °C closed cup, contains: {} }}\n",
                            bench, says, contains));
    Workshop shop = open_workshop(std::move(sources),
                                  [](const std::string&) { return std::optional<std::string>(); });
    work(shop);
    return shop;
}

BlockId find(const Model& model, std::string_view name) {
    for (BlockId id = 0; id < model.blocks.size(); ++id)
        if (model.name(id) == name) return id;
    FAIL("there is no block of that name");
    return no_block;
}

Label eu_label(const Workshop& shop) {
    return labels_of(shop, find(shop.model, "candle"))[0];
}

/// "H315 H319", of the label for the European Union.
std::string codes(const Label& label) {
    std::string result;
    for (const LabelSentence& one : label.hazards.hazards)
        result += (result.empty() ? "" : " ") + one.code;
    return result;
}

std::string codes(std::string_view says, std::string_view contains = "20% wrack + 80% rest-of-it") {
    return codes(eu_label(with_wrack(says, contains)));
}

/// The finding whose message has these words; fails where there is none.
const Finding& told(const Workshop& shop, std::string_view words) {
    for (const Finding& one : shop.findings.all())
        if (one.message.find(words) != std::string::npos) return one;
    std::string all;
    for (const Finding& one : shop.findings.all())
        all += one.message + "\n";
    CAPTURE(all);
    CAPTURE(words);
    FAIL("nothing says so");
    return shop.findings.all().front();
}

bool has_note(const Label& label, std::string_view words) {
    return std::ranges::any_of(label.notes, [&](const std::string& note) {
        return note.find(words) != std::string::npos;
    });
}

bool has_line(const Label& label, std::string_view title, std::string_view words) {
    return std::ranges::any_of(label.worked, [&](const LabelWorking& one) {
        return one.title == title && std::ranges::count(one.lines, words) != 0;
    });
}

} // namespace

TEST_SUITE("what a substance says") {
    TEST_CASE("one that does not add up decides alone") {
        // 20 % of 20 % is 4 %: under 10 % in the sums, over 3 % alone (from memory of CLP Annex I
        // Tables 3.2.4 and 3.3.4).
        constexpr std::string_view irritant = "hazards: skin-irrit-2, eye-irrit-2";
        CHECK(codes(irritant) == "");
        CHECK(codes(std::string(irritant) + ", adds-up: yes") == "");
        const Label alone = eu_label(with_wrack(std::string(irritant) + ", adds-up: no"));
        CHECK(codes(alone) == "H315 H319");
        // Line by line.
        CHECK(has_line(alone, "What is in the candle",
                       "wrack: 4 %, Skin Irrit. 2, Eye Irrit. 2; does not add up"));
        CHECK(has_line(alone, "Skin Irrit. 2", "one Skin Irrit. 2 whose effect does not add up"));
        CHECK(has_line(alone, "Skin Irrit. 2", "wrack: 4 %, at least 3 %"));
        CHECK(has_line(alone, "Eye Irrit. 2", "wrack: 4 %, at least 3 %"));
        CHECK(has_line(alone, "Eye Irrit. 2", "from memory of CLP Annex I Table 3.3.4"));
        // Who doesn't say is asked; who does, isn't.
        CHECK(has_note(eu_label(with_wrack(irritant)), "for skin or eyes: wrack"));
        CHECK_FALSE(has_note(eu_label(with_wrack(std::string(irritant) + ", adds-up: yes")),
                             "for skin or eyes"));
    }

    TEST_CASE("limits with their classes") {
        const Workshop shop = with_wrack("hazards: skin-sens-1a, eye-irrit-2, specific-limit: "
                                         "0.01% skin-sens-1a, 4% eye-irrit-2");
        CHECK_FALSE(shop.findings.has_errors());
        const auto limits = shop.model.class_limits_of(find(shop.model, "wrack"));
        REQUIRE(limits.size() == 2);
        CHECK(limits[0].hazard == HazardClass::skin_sens_1a);
        CHECK(limits[0].from == Approx(0.0001));
        CHECK(limits[1].hazard == HazardClass::eye_irrit_2);
        CHECK(limits[1].from == Approx(0.04));
        CHECK(said_again(shop.model,
                         *shop.model.entry(find(shop.model, "wrack"), Key::specific_limit)) ==
              "Skin Sens. 1A from 0.01%, Eye Irrit. 2 from 4%");
        CHECK(codes(eu_label(shop)) == "H317 H319"); // 4 % weighs as much as 10 %
        CHECK(codes("hazards: eye-irrit-2, specific-limit: 4.1% eye-irrit-2") == "");
        CHECK(codes("hazards: eye-irrit-2") == "");
        // Of a corrosive: the limits of what it leads to, which it isn't itself.
        CHECK(codes("hazards: skin-corr-1b, specific-limit: 5% skin-corr-1b, 1% skin-irrit-2, 5% "
                    "eye-dam-1, 1% eye-irrit-2") == "H315 H319");
        // One alone without a class is that of skin sensitisation, as ever.
        CHECK(codes("hazards: skin-sens-1, specific-limit: 4%") == "H317");
        CHECK(codes("hazards: skin-sens-1, specific-limit: 4.1%") == "");
    }

    TEST_CASE("what is wrong with a limit") {
        const auto finding = [](std::string_view limit, std::string_view words) {
            const Workshop shop = with_wrack(
                fmt::format("hazards: skin-sens-1, eye-irrit-2, specific-limit: {}", limit));
            return told(shop, words);
        };
        CHECK(finding("0.1%, 4% eye-irrit-2", "0.1% doesn't say for which class").rule ==
              Rule::syntax);
        CHECK(finding("4% eye-irritant-2", "is no hazard class").hint ==
              "did you mean `eye-irrit-2`?");
        const Finding bare = finding("4 eye-irrit-2", "is no percent");
        CHECK(bare.rule == Rule::missing_unit);
        REQUIRE(bare.fixes.size() == 1);
        CHECK(bare.fixes[0].edits[0].text == "4% eye-irrit-2");
        CHECK(finding("4% of eye-irrit-2", "does not belong behind a limit").rule == Rule::syntax);
        CHECK(finding("eye-irrit-2", "has no percent before it").rule == Rule::syntax);
        CHECK(finding("4% eye-irrit-2, 3% eye-irrit-2", "two limits").rule == Rule::defined_twice);
        CHECK(finding("101% eye-irrit-2", "surely not meant").rule == Rule::out_of_range);
        CHECK(finding("0% eye-irrit-2", "can't be 0").rule == Rule::out_of_range);
        CHECK(finding("4 g eye-irrit-2", "is wanted here").rule == Rule::unit_mismatch);
        // A limit that no sum reads.
        CHECK(finding("4% skin-irrit-2", "counts for nothing").severity == Severity::warning);
        CHECK(finding("4% aquatic-chronic-2", "for water there are M-factors").severity ==
              Severity::warning);
    }

    TEST_CASE("M-factors for each hazard of water") {
        const auto factors = [](std::string_view says) {
            const Workshop shop = with_wrack(
                fmt::format("hazards: aquatic-acute-1, aquatic-chronic-1, m-factor: {}", says));
            CHECK_FALSE(shop.findings.has_errors());
            const auto contents = contents_of(shop.model, reckoning_of(shop, shop.recipes[0]));
            REQUIRE(contents);
            return *std::ranges::find(contents->candle, "wrack", &Ingredient::name);
        };
        CHECK(factors("10").m_acute == 10);
        CHECK(factors("10").m_chronic == 10);
        CHECK(factors("10 acute, 1 chronic").m_acute == 10);
        CHECK(factors("10 acute, 1 chronic").m_chronic == 1);
        CHECK(factors("1 chronic, 100 acute").m_acute == 100);
        CHECK_FALSE(factors("10 acute").m_chronic); // taken as 1, and told
        // 4 % × 10 = 40, over 25: H400. By a 1 for chronic: 4, then 40: H411.
        CHECK(codes("hazards: aquatic-acute-1, aquatic-chronic-1, m-factor: 10 acute, 1 chronic") ==
              "H400 H411");
        CHECK(codes("hazards: aquatic-acute-1, aquatic-chronic-1, m-factor: 10") == "H410");
    }

    TEST_CASE("what is wrong with an M-factor") {
        const auto finding = [](std::string_view factor, std::string_view words) {
            const Workshop shop = with_wrack(
                fmt::format("hazards: aquatic-acute-1, aquatic-chronic-1, m-factor: {}", factor));
            return told(shop, words);
        };
        CHECK(finding("5 acute, 1 chronic", "5 is no `m-factor`").rule == Rule::out_of_range);
        CHECK(finding("10 acute, 1", "1 doesn't say for which hazard").rule == Rule::syntax);
        CHECK(finding("acute", "`acute` has no number").rule == Rule::syntax);
        CHECK(finding("10 acute 1 chronic", "no comma").rule == Rule::syntax);
        CHECK(finding("10 accute", "acute or chronic, not `accute`").rule == Rule::unknown_name);
        CHECK(finding("10 acute, 1 acute", "acute already").rule == Rule::defined_twice);
        const Workshop idle = with_wrack("hazards: aquatic-acute-1, m-factor: 10 acute, 1 chronic");
        CHECK(told(idle, "no aquatic-chronic-1").severity == Severity::warning);
        const Workshop dry = with_wrack("hazards: skin-sens-1, adds-up: no");
        CHECK(told(dry, "`adds-up` of `wrack` counts for nothing").severity == Severity::warning);
    }

    TEST_CASE("STOT SE 3 is one sentence or the other, and never both for one") {
        constexpr std::string_view all_of_it = "100% wrack";
        CHECK(codes("hazards: stot-se-3-h335", all_of_it) == "H335");
        CHECK(codes("hazards: stot-se-3-h336", all_of_it) == "H336");
        const Workshop plain = with_wrack("hazards: stot-se-3", all_of_it);
        const Label asked = eu_label(plain);
        CHECK(codes(asked) == "H335 or H336");
        CHECK(asked.ask_supplier);
        CHECK(has_note(asked, "nobody says whether that is H335"));
        CHECK(told(plain, "nobody says whether that is H335 or H336").severity ==
              Severity::warning);
        const Workshop said = with_wrack("hazards: stot-se-3-h335", all_of_it);
        CHECK_FALSE(eu_label(said).ask_supplier);
        for (const Finding& one : said.findings.all())
            CHECK(one.message.find("nobody says whether") == std::string::npos);
        // Under 20 % nothing has to be asked.
        CHECK_FALSE(eu_label(with_wrack("hazards: stot-se-3")).ask_supplier);
    }

    TEST_CASE("what a sheet was rounded by is not unknown") {
        // Up to 0.05 % of the oil: common practice.
        const auto source = [](std::string_view rest) {
            return eu_label(with_wrack("hazards: eye-irrit-2", fmt::format("20% wrack + {} "
                                                                           "rest-of-it",
                                                                           rest)))
                .hazards.source;
        };
        CHECK(source("80%") == HazardSource::worked_out);
        CHECK(source("79.99%") == HazardSource::worked_out);
        CHECK(source("79.95%") == HazardSource::worked_out);
        CHECK(source("79.94%") == HazardSource::not_worked_out);
        const Label label =
            eu_label(with_wrack("hazards: eye-irrit-2", "20% wrack + 79.95% rest-of-it"));
        CHECK(has_line(label, "What is in the candle",
                       "what oil-of-it was rounded by: 0.01 %, no class"));
    }

    TEST_CASE("what is unknown is told with where it comes from") {
        const Label label = eu_label(with_wrack("cas: \"78-70-6\"", "20% wrack + 70% rest-of-it"));
        CHECK(has_note(label, "6 % of the candle is unknown: 2 % that oil-of-it doesn't tell, 4 % "
                              "wrack in oil-of-it, whose classes nobody says."));
    }

    TEST_CASE("high ends that come to more than all of it") {
        const Workshop shop = with_wrack("hazards: eye-irrit-2", "30% wrack + 75% rest-of-it");
        const Finding& finding = told(shop, "come to 105 %");
        CHECK(finding.rule == Rule::blend_sum);
        CHECK(finding.hint.find("write 5 % less of what has none: `rest-of-it`") !=
              std::string::npos);
        const Workshop no_room = with_wrack("hazards: eye-irrit-2", "110% wrack");
        CHECK(told(no_room, "come to 110 %").hint.find("ask the supplier") != std::string::npos);
    }

    TEST_CASE("tidying keeps them") {
        constexpr std::string_view text = R"(language 1

substance wrack {
  hazards:        skin-sens-1a, eye-irrit-2, aquatic-acute-1, aquatic-chronic-1
  m-factor:       10 acute, 1 chronic
  adds-up:        no
  specific-limit: 0.01% skin-sens-1a, 5% eye-irrit-2
}
)";
        Sources sources;
        const FileId file = sources.add("a.candle", std::string(text));
        Findings findings;
        const auto done = tidied(file, sources[file], findings);
        REQUIRE(done);
        CHECK(done->text == text);
    }
}
