// What the sheet says of test burns, and that it never says more than the test did.
#include <string>

#include <doctest/doctest.h>

#include "emit/markdown.hpp"
#include "emit_sample.hpp"

using namespace waxwright;

namespace {

std::string sheet_with(std::optional<TestPlan> test, bool us = false) {
    Plan plan = sample::tide_line();
    plan.recipes.front().test = std::move(test);
    return markdown_sheet(plan, {.us_units = us});
}

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

TestPlan spring() {
    TestPlan test;
    test.name = "spring";
    test.on = Date{2026, 4, 18, 9, 30, true};
    test.verdict = Choice::pass;
    test.samples = 3;
    test.make = "1 rush in tumbler";
    test.flame_mm = 25.4;
    test.glass_c = 60;
    test.pool_mm = 68;
    test.pool_minutes = 240;
    test.wall_mm = 3;
    test.left_mm = 10;
    test.to_end = true;
    test.stop_mm = 12;
    test.cracked = Choice::no;
    test.relit = Choice::no;
    test.soot = Choice::none;
    return test;
}

} // namespace

TEST_CASE("no test burn so far") {
    CHECK(has(sheet_with(std::nullopt), "- Test burns so far: **none**. Burn some to the end"));
}

TEST_CASE("the latest test burn, as it was written down") {
    const std::string sheet = sheet_with(spring());
    CHECK(has(sheet, "- Latest test burn spring: the verdict was pass, on 2026-04-18, with "
                     "3 candles: 1 rush in tumbler\n"
                     "- In that test: tallest flame 25.4 mm, outside 60 °C (140 °F), 10 mm of wax "
                     "left, no crack, did not light again, no soot\n"
                     "- Melt pool 68 mm after 4 h: 3 mm of wax left all round at the wall\n"));
    CHECK_FALSE(has(sheet, "Still missing"));
    CHECK_FALSE(has(sheet, "safe"));
    CHECK(has(sheet_with(spring(), true), "tallest flame 1 in, outside 140 °F (60 °C)"));
}

TEST_CASE("what went wrong stands out, and what is missing is named") {
    TestPlan test = spring();
    test.verdict = Choice::unsaid;
    test.cracked = test.relit = Choice::yes;
    test.soot = Choice::heavy;
    test.wall_mm = 0;
    test.to_end = false;
    test.other = {"wick", "lot of soy"};
    test.assumed = {"wax"};
    test.missing = {"flame"};
    test.notes = "Went out *twice*.";
    const std::string sheet = sheet_with(test);
    CHECK(has(sheet, "- Latest test burn spring: it has no verdict, on 2026-04-18"));
    CHECK(has(sheet, "**the vessel cracked**, **it lit again by itself**, heavy soot\n"));
    CHECK(has(sheet, "- Melt pool 68 mm after 4 h: it reached the wall\n"));
    CHECK(has(sheet, "- **Other than today's candle:** wick, lot of soy\n"
                     "- Not written down in that test, and taken to be as today: wax\n"
                     "- Not looked at in that test: flame\n"
                     "- **Still missing:** a test of today's candle that burned down to 12 mm of "
                     "wax\n"
                     "- Noted then: Went out \\*twice\\*.\n"));
}

TEST_CASE("a test to the end, but of another candle") {
    TestPlan test = spring();
    test.other = {"wick"};
    CHECK(has(sheet_with(test), "- **Still missing:** a test of today's candle"));
}
