// Plans made by hand, with figures that are easy to check: twelve candles of 270 g at 8 % of the
// wax (250 g of wax and 20 g of scent each), four to a pot.
#pragma once

#include <string>

#include "plan/plan.hpp"

namespace waxwright::sample {

inline StepPlan step(Verb verb, std::string text) {
    StepPlan step;
    step.verb = verb;
    step.text = std::move(text);
    return step;
}

/// A step that says `shown` for a temperature.
inline StepPlan heated(Verb verb, std::string text, double celsius, const std::string& shown) {
    StepPlan made = step(verb, std::move(text));
    const auto begin = static_cast<std::uint32_t>(made.text.find(shown));
    made.at_c = celsius;
    made.temperature = {begin, begin + static_cast<std::uint32_t>(shown.size())};
    return made;
}

inline StepPlan timed(Verb verb, std::string text, double minutes) {
    StepPlan made = step(verb, std::move(text));
    made.minutes = minutes;
    return made;
}

inline RecipePlan tide_line_recipe() {
    RecipePlan recipe;
    recipe.name = "tide-line";
    recipe.title = "Tide Line";
    recipe.count = 12;
    recipe.vessel = "dune-tumbler";
    recipe.fill_ml = 300.5;
    recipe.mass_g = 270;
    recipe.first_pour_g = 262.04;
    recipe.second_pour_g = 7.96;
    recipe.drop_mm = 2.13;
    recipe.load_of_wax = 0.08;
    recipe.load_of_total = 0.08 / 1.08;
    recipe.limit_of_wax = 0.1;
    recipe.ceiling_c = 90;
    recipe.flash_c = 38;
    recipe.burn_h = 45;
    recipe.scent_c = 70;
    recipe.pour_c = 60;
    recipe.scent_at = TemperatureRange{65, 75};
    recipe.main_wax = "soy";
    recipe.wax_g = 3000;
    recipe.scent_g = 240;
    recipe.exact = {{PlanKind::wax, "soy", 2400, 0.8},
                    {PlanKind::wax, "coconut", 600, 0.2},
                    {PlanKind::oil, "lavender", 120, 0.5},
                    {PlanKind::oil, "rosemary", 80, 1 / 3.0},
                    {PlanKind::oil, "cedarwood-virginia", 40, 1 / 6.0}};
    recipe.premix = {{PlanKind::oil, "lavender", 120},
                     {PlanKind::oil, "rosemary", 80},
                     {PlanKind::oil, "cedarwood-virginia", 40}};
    recipe.premix_division_g = 0.1;
    recipe.scale = {"bench-scale", find_unit("g"), 0.1};
    recipe.pots_at_once = 2;
    recipe.wick = Item{1, "cotton-braid-medium"};
    recipe.extras = {{12, "cork-lid"}};
    recipe.remarks = {"A rule of thumb was used."};
    recipe.cure_minutes = 14 * 24 * 60;
    return recipe;
}

inline std::vector<StepPlan> tide_line_steps() {
    std::vector<StepPlan> steps = {
        step(Verb::wipe_vessels, "Wipe out the vessels."),
        step(Verb::set_wick, "Set 1 cotton-braid-medium in each vessel, upright and centred."),
        heated(Verb::melt, "Melt to 75 °C.", 75, "75 °C"),
        step(Verb::off_heat, "Take the pot off the heat."),
        heated(Verb::add, "Add the scent at 70 °C.", 70, "70 °C"),
        timed(Verb::stir, "Stir for 2 min.", 2),
        heated(Verb::pour, "Pour at 60 °C: 262.0 g into each vessel.", 60, "60 °C"),
        timed(Verb::leave, "Leave for 4 h.", 240),
        step(Verb::trim_wick, "Trim the wicks to 6 mm."),
        timed(Verb::cure, "Cure for 14 days.", 14 * 24 * 60),
    };
    steps[4].of = "scent";
    steps[4].because = "it binds best there";
    steps[8].length_mm = 6;
    steps[8].length = {18, 22};
    return steps;
}

inline PotPlan tide_line_pot() {
    PotPlan pot;
    pot.name = "pour-can";
    pot.pots = 3;
    pot.vessels = 4;
    pot.mass_g = 1080;
    pot.weighed_g = 1080;
    pot.volume_ml = 1223.4;
    pot.division_g = 0.1;
    pot.lines = {{PlanKind::wax, "soy", 800},
                 {PlanKind::wax, "coconut", 200},
                 {PlanKind::scent, "scent", 80}};
    return pot;
}

inline Plan tide_line() {
    Plan plan;
    plan.name = "tide-line";
    plan.title = "Tide Line";
    plan.count = 12;
    plan.recipes = {tide_line_recipe()};
    plan.pots = {tide_line_pot()};
    plan.steps = tide_line_steps();
    plan.cautions = {
        {Rule::scent_over_flash,
         Severity::note,
         "the scent can light at 70 °C",
         "flame out,\nair the room",
         std::nullopt,
         {}},
        {Rule::load_near_limit,
         Severity::warning,
         "8 % of the wax is near the limit",
         "",
         "burned three to the end, all clean",
         {}},
    };
    return plan;
}

/// A recipe with neither scent nor scale nor pot, whose wax has no liquid density.
inline RecipePlan plain_recipe() {
    RecipePlan recipe;
    recipe.name = "plain-marsh";
    recipe.title = "plain-marsh";
    recipe.count = 6;
    recipe.vessel = "tin-small";
    recipe.fill_ml = 95;
    recipe.mass_g = 87.4;
    recipe.first_pour_g = 87.4;
    recipe.to_the_line = true;
    recipe.wax_g = 524;
    recipe.additive_g = 0.4;
    recipe.exact = {{PlanKind::wax, "soy", 524, 1}, {PlanKind::additive, "dye-blue", 0.4, 1}};
    recipe.spare = 0.02;
    return recipe;
}

/// A batch of both, with a lot and a start.
inline Plan market_batch() {
    Plan plan = tide_line();
    plan.name = plan.title = "december-market";
    plan.is_batch = true;
    plan.lot = "SM-1205";
    plan.starts = Date{2026, 12, 5, 9, 0, true};
    plan.notes = "bring the small tins\nand twine";
    plan.count = 18;
    plan.recipes[0].ready_on = Date{2026, 12, 19};
    plan.recipes.push_back(plain_recipe());
    PotPlan pot;
    pot.recipe = 1;
    pot.pots = 1;
    pot.vessels = 6;
    pot.mass_g = 524.4;
    pot.weighed_g = 524.4;
    pot.volume_ml = 610;
    pot.division_g = 0.1;
    pot.lines = {{PlanKind::wax, "soy", 524}, {PlanKind::additive, "dye-blue", 0.4}};
    plan.pots.push_back(pot);
    StepPlan pour = heated(Verb::pour, "Pour at 55 °C: to the line, not to a weight.", 55, "55 °C");
    pour.recipe = 1;
    plan.steps.push_back(pour);
    for (CautionLine& line : plan.cautions)
        line.recipes = {"tide-line"};
    plan.cautions.push_back({Rule::liquid_density_missing,
                             Severity::warning,
                             "soy has no liquid density",
                             "pour to the line",
                             std::nullopt,
                             {"plain-marsh"}});
    return plan;
}

} // namespace waxwright::sample
