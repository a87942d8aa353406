#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "emit/markdown.hpp"
#include "emit_sample.hpp"
#include "plan/wording.hpp"

using namespace waxwright;

namespace {

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

std::string titled(std::string title) {
    Plan plan = sample::tide_line();
    plan.title = std::move(title);
    const std::string sheet = markdown_sheet(plan, {});
    return sheet.substr(2, sheet.find('\n') - 2);
}

std::string noted(std::string notes) {
    Plan plan = sample::market_batch();
    plan.notes = std::move(notes);
    const std::string sheet = markdown_sheet(plan, {});
    const std::size_t begin = sheet.find("\nNotes:") + 1;
    return sheet.substr(begin, sheet.find("\n\n", begin) - begin);
}

} // namespace

TEST_CASE("the sheet has its nine parts in order") {
    const std::string sheet = markdown_sheet(sample::tide_line(), {});
    const std::vector<std::string_view> parts = {
        "# Tide Line\n",      "\n## Dangers of this batch\n",
        "\n## Cautions\n",    "\n## Weigh out\n",
        "\n## Steps\n",       "\n## Before you light anything\n",
        "\n## At a glance\n", "\n## Leave, cure, ready\n",
        "\n## Record\n"};
    std::size_t before = 0;
    for (const std::string_view part : parts) {
        CAPTURE(part);
        const std::size_t at = sheet.find(part);
        REQUIRE(at != std::string::npos);
        CHECK(at >= before);
        before = at;
    }
    CHECK_FALSE(has(sheet, "\n\n\n"));
    CHECK_FALSE(has(sheet, " \n"));
    CHECK(sheet.ends_with("\n"));
}

TEST_CASE("what is at a glance") {
    const std::string sheet = markdown_sheet(sample::tide_line(), {});
    CHECK(has(sheet, "| Vessels | 12 dune-tumbler, 300 ml to the line |\n"));
    CHECK(has(sheet, "| Pots | 3 fillings of pour-can (2 of them) |\n"));
    CHECK(has(sheet, "| Into each vessel | **262.0 g** at the first pour |\n"));
    CHECK(has(sheet, "| Keep back for the second pour | up to 8.0 g a vessel |\n"));
    CHECK(
        has(sheet,
            "| Scent load | 8 % of the wax, 7.41 % of all; this wax holds 10 % of its weight |\n"));
    CHECK(has(sheet, "| Ceiling | never over **90 °C (194 °F)** |\n"));
    CHECK(has(sheet,
              "| Scent goes in at | **70 °C (158 °F)**; soy: 65 to 75 °C (149 to 167 °F) |\n"));
    CHECK(has(sheet, "| Pour at | **60 °C (140 °F)** |\n"));
    CHECK(has(sheet, "- A rule of thumb was used.\n"));
}

TEST_CASE("what is weighed, with the decimals of the scale") {
    const std::string sheet = markdown_sheet(sample::tide_line(), {});
    CHECK(has(sheet, "### Scent: blend it once for all its pots\n\n"
                     "| weigh | oil | supplier's lot | tick |\n|---:|---|---|---|\n"
                     "| **120.0 g** | lavender | | ☐ |\n"));
    CHECK(has(sheet, "### 3 fillings of pour-can, for 4 vessels each: 1223 ml in the pot when hot; "
                     "keep back what is left, up to 8.0 g a vessel\n\n"
                     "| weigh | material | supplier's lot | tick |\n|---:|---|---|---|\n"
                     "| **800.0 g** | soy | | ☐☐☐ |\n"));
    CHECK(has(sheet, "| 1080.0 g | in all | | |\n"));
}

TEST_CASE("steps are tasks with both scales and room for what was read") {
    const std::string sheet = markdown_sheet(sample::tide_line(), {});
    CHECK(has(sheet, "- [ ] Melt to **75 °C (167 °F)**. Never over 90 °C (194 °F).\\\n  "
                     "1:\u00A0_____\u00A0at\u00A0_____ · "
                     "2:\u00A0_____\u00A0at\u00A0_____ · 3:\u00A0_____\u00A0at\u00A0_____\n"));
    Plan once = sample::tide_line();
    once.pots[0].pots = 1;
    CHECK(has(markdown_sheet(once, {}), "- [ ] Melt to **75 °C (167 °F)**. Never over 90 °C (194 "
                                        "°F).\\\n  Thermometer: ________ clock: ________\n"));
    CHECK(has(sheet, "- [ ] Add the scent at **70 °C (158 °F)**. Why: it binds best there\\\n"));
    CHECK(has(sheet, "- [ ] Pour at **60 °C (140 °F)**: 262.0 g into each vessel.\\\n"));
    CHECK(has(sheet, "- [ ] Stir for 2 min.\n- [ ] Pour"));
    CHECK(has(sheet, "- [ ] Leave for 4 h.\\\n  From: ________ to: ________\n"));
    CHECK(has(sheet, "- [ ] Trim the wicks to **6 mm**.\n"));
}

TEST_CASE("US units come first where they are asked for or written") {
    const auto check_us = [](const std::string& sheet) {
        CHECK(has(sheet, "- [ ] Melt to **167 °F (75 °C)**. Never over 194 °F (90 °C).\\\n"));
        CHECK(has(sheet, "; soy: 149 to 167 °F (65 to 75 °C) |"));
        CHECK(has(sheet, "wrong by 5.4 F° (3 C°)\n"));
        CHECK(has(sheet, "12 dune-tumbler, 10.2 fl oz to the line |\n"));
        CHECK(has(sheet, "- [ ] Trim the wicks to **0.24 in**.\n"));
        CHECK(has(sheet, "| **800.0 g** | soy |"));
    };
    Plan plan = sample::tide_line();
    check_us(markdown_sheet(plan, {.us_units = true}));
    plan.us_units = true;
    check_us(markdown_sheet(plan, {}));
    CHECK(markdown_sheet(plan, {.metric_units = true}) == markdown_sheet(sample::tide_line(), {}));
}

TEST_CASE("the dangers of the batch") {
    const std::string sheet = markdown_sheet(sample::market_batch(), {});
    CHECK(has(sheet, "- **Vapour can light.** Tide Line: scent in at 70 °C (158 °F), and can light "
                     "from 38 °C (100 °F). All heat off"));
    CHECK(has(sheet,
              "- **Allowed:** Tide Line: 8 % of the wax is near the limit; allowed because “burned "
              "three to the end, all clean”\n"));
    // No danger: the step and the weights say what to do.
    CHECK_FALSE(has(sheet, "soy has no liquid density"));
    CHECK_FALSE(has(sheet, "scent-over-flash"));
    Plan plan = sample::tide_line();
    plan.cautions.clear();
    CHECK(has(markdown_sheet(plan, {}), "\n## Dangers of this batch\n\nNone found beyond the"));
}

TEST_CASE("three dangers at most stand first, fire before glass before the rest") {
    Plan plan = sample::tide_line();
    const auto line = [](Rule rule, std::string text) {
        return CautionLine{rule, Severity::warning, std::move(text), "", {}, {}};
    };
    plan.cautions = {line(Rule::load_near_limit, "load"), line(Rule::wick_missing, "wick"),
                     line(Rule::vessel_not_rated, "glass"), line(Rule::near_ceiling, "heat")};
    const std::string sheet = markdown_sheet(plan, {});
    CHECK(has(sheet, "## Dangers of this batch\n\n- Heat\n- Glass\n- Load\n\nRead before you "
                     "begin: 1 more under “More to mind”, after the steps.\n"));
    CHECK(has(sheet, "\n## More to mind\n\n- Wick\n"));
    plan.cautions.pop_back();
    CHECK_FALSE(has(markdown_sheet(plan, {}), "More to mind"));
}

TEST_CASE("a batch: its lot, its date, and each recipe's own parts") {
    const std::string sheet = markdown_sheet(sample::market_batch(), {});
    CHECK(has(sheet, "\n**18** vessels in all\n"));
    CHECK(has(sheet, "1. **Tide Line**: 12 × dune-tumbler, 3 fillings of pour-can\n"
                     "2. **plain-marsh**: 6 × tin-small\n"));
    CHECK(has(sheet, "\nLot: SM-1205 · Date: 2026-12-05 09:00 · Made by: ______________\n"));
    CHECK(has(
        sheet,
        "- [ ] Vessels counted, clean and dry, well away from any heat: 12 "
        "dune-tumbler, 6 tin-small; three of each recipe's weighed empty, the weight on them\n"));
    CHECK(has(sheet, "- [ ] Pots clean and bone dry: 2 pour-can; those of a name marked 1, 2 and "
                     "so on, and one that holds well over 610 ml\n"));
    CHECK(has(sheet, "| Into each vessel | **262.0 g** at the first pour | **pour to the line, not "
                     "to a weight** |\n"));
    CHECK(has(sheet, "## plain-marsh: 6 × tin-small\n\nSpare is in these weights: 2 %.\n\n"
                     "### The pot, for 6 vessels: 610 ml in the pot when hot\n"));
    CHECK(has(sheet, "| 2026-12-19 | |\n"));
    CHECK(has(sheet, "| plain-marsh | 6 | | | | to the line | | | |\n"));
}

TEST_CASE("many fillings, and no scale") {
    // No scale, and a pot filled thirty times.
    Plan plan = sample::tide_line();
    plan.recipes[0].scale = {};
    plan.pots[0].pots = 30;
    const std::string sheet = markdown_sheet(plan, {});
    CHECK(has(sheet, "| **800.0 g** | soy | | ____ of 30 |\n"));
    CHECK(has(sheet, "| Into each vessel | **262 g** at the first pour |\n"));
    CHECK(has(sheet, "- [ ] Scale level and zeroed\n"));
}

TEST_CASE("what the user wrote is text, whatever it looks like") {
    CHECK(titled("a|b *c* _d_ `e` <f> [g](h) # &amp; !i \\ ~~j~~ $k$") ==
          R"(a\|b \*c\* \_d\_ \`e\` \<f> \[g](h) \# \&amp; \!i \\ \~\~j\~\~ \$k\$)");
    CHECK(titled("one\r\ntwo\tthree") == "one  two three");
    CHECK(titled("a\x1b[2J\x7f\u009B") == "a\uFFFD\\[2J\uFFFD\uFFFD");
    CHECK(titled("Lumière \U0001F56F") == "Lumière \U0001F56F");

    CHECK(noted("one") == "Notes: one");
    CHECK(noted("one\n\n- two\n  > three\n12. four\n===\n12 five") ==
          "Notes: one\\\n\\- two\\\n\\> three\\\n12\\. four\\\n\\===\\\n12 five");
}

TEST_CASE("what a finding quotes is said without its backticks, and stays text") {
    const auto said = [](std::string text) {
        Plan plan = sample::tide_line();
        plan.cautions = {{Rule::load_near_limit, Severity::warning, std::move(text), "", {}, {}}};
        const std::string sheet = markdown_sheet(plan, {});
        const std::size_t begin = sheet.find("batch\n\n- ") + 9;
        return sheet.substr(begin, sheet.find("\n\n## Cautions") - begin);
    };
    CHECK(said("`house-wax` has no `<b>` *at all*") == R"(house-wax has no \<b> \*at all\*)");
    CHECK(said("one ` alone <b>") == R"(One  alone \<b>)");
    CHECK(said("70 °C +- 5 C°") == "70 °C ± 5 C°");
    CHECK(said("`a\nb\x1b`") == "a b\uFFFD");
}

TEST_CASE("weights as a scale shows them") {
    CHECK(show_weight(18, 0.1, no_unit) == "18.0 g");
    CHECK(show_weight(18, 1, no_unit) == "18 g");
    CHECK(show_weight(12500, 5, find_unit("g")) == "12\u202F500 g");
    CHECK(show_weight(28.349523125 * 2.35, 28.349523125 * 0.05, find_unit("oz")) == "2.35 oz");
    CHECK(show_weight(453.59237, 453.59237 / 8, find_unit("lb")) == "1.000 lb");
    const ScalePlan none;
    CHECK(show_pour(19.94, none) == "19.9 g");
    CHECK(show_pour(262.04, none) == "262 g");
    CHECK(show_pour(262.04, {"s", find_unit("g"), 0.5}) == "262.0 g");
}

TEST_CASE("times as they are said") {
    CHECK(show_duration(90) == "90 s");
    CHECK(show_duration(120) == "2 min");
    CHECK(show_duration(5400) == "1 h 30 min");
    CHECK(show_duration(4 * 3600) == "4 h");
    CHECK(show_duration(24 * 3600) == "24 h");
    CHECK(show_duration(14 * 86400) == "14 days");
}
