// Steps and dangers as people read them, from the text of a recipe file to the Markdown.
#include <doctest/doctest.h>

#include "day_run.hpp"
#include "emit/markdown.hpp"
#include "emit/markdown_money.hpp"
#include "emit/toml.hpp"

using namespace waxwright;

namespace {

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

/// A recipe of the bench with other steps, and whatever else stands behind them.
std::string recipe_of(std::string_view steps, std::string_view more = "") {
    return "recipe own like light {\n  makes: 2 tumbler\n  pot: can\n  steps {\n" +
           std::string(steps) + "  }\n}\n" + std::string(more);
}

Plan plan_of_last(const DayRun& run) {
    return plan_of(*run.workshop, run.workshop->recipes.back());
}

constexpr std::string_view held = R"(
    melt to 75 °C
    hold 5 min
    off heat
    add scent at 70 °C, stir 2 min
    warm vessels to 40 °C
    hold 10 min
    pour at 60 °C
)";

} // namespace

TEST_CASE("hold is on low heat, and off the heat it stands covered and cools") {
    const DayRun run(recipe_of(held));
    const std::string sheet = markdown_sheet(plan_of_last(run), {});
    CHECK(has(sheet, "- [ ] Turn the heat low and hold it there for 5 min.\n"));
    CHECK(has(sheet, "- [ ] Lid on, off the heat: let it stand for 10 min. It cools meanwhile."));
    const Reckoning own = reckoning_of(*run.workshop, run.workshop->recipes.back());
    const HeatProfile profile = heat_profile_of(own, own.pots.at(0), std::nullopt, true);
    int held_stages = 0;
    for (const Stage& stage : profile.stages) {
        if (own.in.steps[stage.step].verb != Verb::hold) continue;
        const bool cools = ++held_stages == 2;
        CHECK(stage.on_heat == !cools);
        CHECK((*stage.to < *stage.from) == cools);
    }
    CHECK(held_stages == 2);
}

TEST_CASE("with scent in it the pot comes off the heat for a hold, by the day too") {
    const DayRun run(recipe_of(R"(
    melt to 75 °C
    add scent at 75 °C, stir 2 min
    hold 10 min
    pour at 60 °C
)",
                               "batch two {\n  pour 4 own\n  pour 4 light\n}\n"));
    const std::string sheet =
        markdown_sheet(plan_of(*run.workshop, run.workshop->batches[0].batch), {});
    CHECK(has(sheet, "Lid on, off the heat: let it stand 10 min"));
    CHECK_FALSE(has(sheet, "eat low"));
    CHECK_FALSE(has(sheet, "on the heat: stay by it"));
}

TEST_CASE("vessels are warmed at the melt, wherever that is written") {
    const DayRun run(recipe_of(held));
    const Plan plan = plan_of_last(run);
    const std::string sheet = markdown_sheet(plan, {});
    CHECK(sheet.find("Warm its vessels") < sheet.find("Turn the heat low"));
    CHECK(sheet.find("Melt in it to") < sheet.find("Warm its vessels"));
    const std::string toml = toml_sheet(plan);
    CHECK(toml.find("\"stir\"") < toml.find("\"warm-vessels\""));
}

TEST_CASE("the step that the pot is too hot for is named") {
    const DayRun run(recipe_of(R"(
    melt to 75 °C
    add scent at 65 °C, stir 2 min
    pour at 60 °C
)"));
    const std::string sheet = markdown_sheet(plan_of_last(run), {});
    CHECK(has(sheet, "“add scent” wants the pot at 65 °C"));
    CHECK(has(sheet, "take it off first."));
}

TEST_CASE("a danger that begins with its recipe's name has it once") {
    const DayRun run("batch two {\n  pour 4 light\n  pour 4 dark\n}\n"
                     "recipe dark like light {\n  title: \"Deep water\"\n}\n");
    const std::string sheet =
        markdown_sheet(plan_of(*run.workshop, run.workshop->batches[0].batch), {});
    CHECK(has(sheet, "- light has no test burn"));
    CHECK(has(sheet, "- Deep water has no test burn"));
}

TEST_CASE("a wax of unknown weight is no danger, and told in plain words") {
    const DayRun run("wax reed {\n  density: 0.90 g/ml\n  melts: 54 °C\n  max-load: 10% of wax\n}\n"
                     "recipe own like light {\n  wax: reed\n}\n");
    const std::string sheet = markdown_sheet(plan_of_last(run), {});
    CHECK(has(sheet, "- How heavy melted reed is isn't known: pour to the line, not to a weight."));
    CHECK_FALSE(has(sheet, "liquid-density"));
}

TEST_CASE(
    "where the day has no times, none stands in the record with a sign that nothing explains") {
    Plan plan;
    plan.is_batch = true;
    plan.starts =
        Date{.year = 2026, .month = 12, .day = 5, .hour = 9, .minute = 0, .has_time = true};
    plan.recipes.resize(1);
    plan.recipes[0].title = "Reed";
    StepPlan leave;
    leave.verb = Verb::leave;
    leave.minutes = 240;
    leave.begins_min = 30;
    leave.at_least = true;
    plan.steps = {leave};
    plan.day.timed = true;
    plan.day.at_least = true;
    CHECK(has(markdown_sheet(plan, {}), "4 h (till 13:30+)"));
    plan.day.no_times = true;
    CHECK_FALSE(has(markdown_sheet(plan, {}), "13:30"));
}

TEST_CASE("what costs less than the smallest coin isn't free") {
    const DayRun run("additive dye {\n  density: 1 g/ml\n  sold: 1 kg for 5.00 CHF\n}\n"
                     "recipe own like plain {\n  makes: 1 tumbler\n  additives: 0.1% dye\n}\n");
    const Plan plan = plan_of(*run.workshop, run.workshop->recipes.back(), WithMoney::yes);
    CHECK(has(markdown_buy(plan), "| under 0.01 CHF |"));
    CHECK_FALSE(has(markdown_buy(plan), "| 0.00 CHF"));
}
