#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "compare/compare.hpp"
#include "emit/comparison.hpp"
#include "emit_sample.hpp"

using namespace waxwright;

namespace {

Version version(const std::vector<Plan>& plans, std::vector<FoundWords> found = {}) {
    Version made;
    made.name = "tide.candle";
    for (const Plan& plan : plans)
        made.sheets.push_back(facts_of(plan, plan.us_units));
    made.found = std::move(found);
    return made;
}

/// What Markdown says of two versions, without its title.
std::string told(const Version& before, const Version& after) {
    const std::string text = comparison_markdown(compare(before, after));
    return text.empty() ? text : text.substr(text.find('\n') + 1);
}
std::string told(const Plan& before, const Plan& after) {
    return told(version({before}), version({after}));
}

std::vector<StepPlan> steps(const std::vector<Verb>& verbs) {
    std::vector<StepPlan> made;
    for (const Verb verb : verbs)
        made.push_back(sample::step(verb, "."));
    return made;
}

/// "new 2, moved 3 to 1": fates and places.
std::string steps_told(const std::vector<Verb>& before, const std::vector<Verb>& after) {
    std::string text;
    for (const StepChange& change : compare_steps(steps(before), steps(after), false)) {
        text += (text.empty() ? "" : ", ") + std::string(word(change.fate)) + " " +
                std::to_string(change.place_before) + " " + std::to_string(change.place_after);
    }
    return text;
}

FoundWords found(std::string message, std::string whom, Rule rule = Rule::no_stir) {
    return {rule, Severity::warning, std::move(message), std::nullopt, std::move(whom)};
}

Plan named(Plan plan, const std::string& name, const std::string& title) {
    plan.name = plan.recipes[0].name = name;
    plan.title = plan.recipes[0].title = title;
    return plan;
}

} // namespace

TEST_CASE("two versions that are alike have nothing to tell") {
    const Version same = version({sample::tide_line(), sample::market_batch()});
    const Comparison comparison = compare(same, same);
    CHECK(comparison.same());
    CHECK(comparison_markdown(comparison).empty());
    CHECK(comparison_json(comparison).find("\"same\":true") != std::string::npos);
}

TEST_CASE("one figure is told alone, as the sheet shows it") {
    Plan after = sample::tide_line();
    after.recipes[0].first_pour_g = 263.18; // its scale reads 0.1 g
    CHECK(told(sample::tide_line(), after) ==
          "\n## Tide Line\n\n- First pour into each vessel: 262.0 g → 263.1 g, 1.1 g more\n"
          "- Second pour into each vessel, at most: 8.0 g → 6.9 g, 1.1 g less\n");
    after = sample::tide_line();
    after.steps[4].at_c = 72;
    CHECK(told(sample::tide_line(), after) ==
          "\n## Tide Line\n\n- Step 5, add scent: 70 °C (158 °F) → 72 °C (162 °F), 2 C° (3.6 F°) "
          "hotter\n");
    after = sample::tide_line();
    after.steps[5].minutes = 1.5;
    CHECK(told(sample::tide_line(), after) ==
          "\n## Tide Line\n\n- Step 6, stir: time 2 min → 90 s, 30 s shorter\n");
}

TEST_CASE("what a sheet shows alike is no difference") {
    Plan after = sample::tide_line();
    after.recipes[0].first_pour_g = 262.06;
    after.steps[4].at_c = 70.2;
    after.recipes[0].load_of_wax = 0.080001;
    CHECK(told(sample::tide_line(), after).empty());
}

TEST_CASE("in US units lengths are inches and degrees are Fahrenheit first") {
    Plan before = sample::tide_line();
    before.us_units = true;
    before.steps[8].length_mm = 6.35;
    Plan after = before;
    after.steps[8].length_mm = 9.525;
    after.recipes[0].ceiling_c = 85;
    CHECK(told(before, after) == "\n## Tide Line\n\n"
                                 "- Never over: 194 °F (90 °C) → 185 °F (85 °C), 9 F° (5 C°) "
                                 "cooler\n"
                                 "- Step 9, trim wick: length 1/4 in → 3/8 in, 1/8 in more\n");
}

TEST_CASE("what is known of one version only is told as none in the other") {
    Plan after = sample::tide_line();
    after.recipes[0].wick = std::nullopt;
    after.recipes[0].spare = 0.02;
    CHECK(told(sample::tide_line(), after) ==
          "\n## Tide Line\n\n- Wick in each vessel: 1 cotton-braid-medium → none\n"
          "- Spare: none → 2 %\n");
}

TEST_CASE("weights are compared filling by filling, and only where both have that filling") {
    Plan after = sample::tide_line();
    after.pots[0].lines[0].grams = 795;
    CHECK(
        told(sample::tide_line(), after) ==
        "\n## Tide Line\n\n- Weigh soy for pour-can (4 vessels): 800.0 g → 795.0 g, 5.0 g less\n");
    after.pots[0].pots = 2;
    after.pots[0].vessels = 6;
    CHECK(told(sample::tide_line(), after) ==
          "\n## Tide Line\n\n- Fillings of pour-can (6 vessels): none → 2\n"
          "- Fillings of pour-can (4 vessels): 3 → none\n");
}

TEST_CASE("a step is new, gone or elsewhere") {
    const Verb melt = Verb::melt, stir = Verb::stir, pour = Verb::pour, lid = Verb::lid;
    CHECK(steps_told({melt, stir, pour}, {melt, stir, pour}).empty());
    CHECK(steps_told({melt, pour}, {melt, stir, pour}) == "new 0 2");
    CHECK(steps_told({melt, stir, pour}, {melt, pour}) == "gone 2 0");
    CHECK(steps_told({melt, lid, stir, pour}, {melt, stir, pour, lid}) == "moved 2 4");
    CHECK(steps_told({stir, stir, stir}, {stir}) == "gone 2 0, gone 3 0");
    CHECK(steps_told({}, {melt}) == "new 0 1");
    // Past the cells that are looked at, what both begin and end with is still paired.
    std::vector<Verb> many(5000, stir), more(5001, stir);
    CHECK(steps_told(many, more) == "new 0 5001");
}

TEST_CASE("a recipe under another name is renamed if all else is the same, or its title is") {
    const Plan before = sample::tide_line();
    CHECK(
        told(before, named(before, "ebb-line", "Ebb Line")) ==
        "\n## Ebb Line: renamed\n\n- Name: tide-line → ebb-line\n- Title: Tide Line → Ebb Line\n");
    Plan after = named(before, "ebb-line", "Tide Line");
    after.recipes[0].spare = 0.02;
    CHECK(told(before, after) == "\n## Tide Line: renamed\n\n- Name: tide-line → ebb-line\n"
                                 "- Spare: none → 2 %\n");
    after = named(after, "ebb-line", "Ebb Line");
    const Comparison other = compare(version({before}), version({after}));
    REQUIRE(other.sheets.size() == 2);
    CHECK(other.sheets[0].fate == Fate::added);
    CHECK(other.sheets[1].fate == Fate::gone);
    CHECK(told(before, named(before, "tide-line", "Ebb")) ==
          "\n## Ebb\n\n- Title: Tide Line → Ebb\n");
}

TEST_CASE("a batch tells what its recipes' own sheets don't") {
    Plan recipe = sample::tide_line();
    Plan batch = sample::market_batch();
    const Version before = version({recipe, batch});
    recipe.recipes[0].ceiling_c = batch.recipes[0].ceiling_c = 88;
    batch.recipes[0].ready_on = Date{2026, 12, 20};
    CHECK(told(before, version({recipe, batch})) ==
          "\n## Tide Line\n\n- Never over: 90 °C (194 °F) → 88 °C (190 °F), 2 C° (3.6 F°) cooler\n"
          "\n## Batch december-market\n\n### Tide Line\n\n- Ready: 2026-12-19 → 2026-12-20\n");
    batch.lot = "SM-1206";
    batch.count = 12;
    batch.recipes.pop_back();
    batch.pots.pop_back();
    batch.steps.pop_back();
    batch.recipes[0].ready_on = Date{2026, 12, 19};
    CHECK(told(before, version({recipe, batch})) ==
          "\n## Tide Line\n\n- Never over: 90 °C (194 °F) → 88 °C (190 °F), 2 C° (3.6 F°) cooler\n"
          "\n## Batch december-market\n\n- Lot: SM-1205 → SM-1206\n- Makes: 18 → 12, 6 fewer\n"
          "\n### plain-marsh: gone\n\n- Makes: 6\n");
}

TEST_CASE("findings are told by their words, once for all whom they are about") {
    const Plan plan = sample::tide_line();
    const auto changes = [&](std::vector<FoundWords> before, std::vector<FoundWords> after) {
        return told(version({plan}, std::move(before)), version({plan}, std::move(after)));
    };
    const std::string head = "\n## What the check finds\n\n";
    CHECK(changes({found("`a` is odd", "a")}, {found("`a` is odd", "a")}).empty());
    CHECK(changes({}, {found("odd", "a"), found("odd", "b"), found("odd", "a in fair")}) ==
          head + "- New warning: odd (a, b)\n");
    CHECK(changes({found("odd", "")}, {}) == head + "- Gone: warning: odd\n");
    CHECK(changes({found("8 % is much", "a")}, {found("9 % is much", "a")}) ==
          head + "- Changed warning: 8 % is much → 9 % is much (a)\n");
    FoundWords milder = found("odd", "a");
    milder.severity = Severity::note;
    milder.because = "we know";
    CHECK(changes({found("odd", "a")}, {milder}) ==
          head + "- Changed warning: odd → note: odd (allowed because we know) (a)\n");
    CHECK(changes({found("odd", "a"), found("odd", "a")}, {found("odd", "a")}) ==
          head + "- Gone: warning: odd (a)\n");
}

TEST_CASE("a finding of a recipe that was renamed is the same finding") {
    const std::vector<FoundWords> before = {found("`a` is odd, `b` too", "a"),
                                            found("odd", "a in fair")};
    const std::vector<FoundWords> after = {found("`c` is odd, `b` too", "c"),
                                           found("odd", "c in fair")};
    CHECK(compare_found(before, after, {{"a", "c"}}).empty());
    CHECK(compare_found(before, after, {}).size() == 4);
}

TEST_CASE("a version with errors has no sheets, and is never the same") {
    Version wrong = version({});
    wrong.has_errors = true;
    const Comparison comparison = compare(wrong, wrong);
    CHECK(!comparison.same());
    CHECK(!comparison.no_sheets);
    CHECK(told(wrong, version({sample::tide_line()})).starts_with("\nThe old version has errors"));
}

TEST_CASE("a maker's words are no markup") {
    Plan before = sample::tide_line();
    before.title = before.recipes[0].title = "*Tide* <b>";
    Plan after = before;
    after.recipes[0].notes = "a | b\n# c";
    CHECK(told(before, after) == "\n## \\*Tide\\* \\<b>\n\n- Notes: none → a \\| b \\# c\n");
    const std::string json = comparison_json(compare(version({before}), version({after})));
    CHECK(json.find("\"new\":\"a | b\\n# c\"") != std::string::npos);
}
