#include "plan/build.hpp"

#include <algorithm>

#include "plan/money.hpp"
#include "plan/parts.hpp"

namespace waxwright {

bool in_fahrenheit(const Model& model, BlockId recipe) {
    for (const Step& step : model.steps_of(recipe)) {
        if (!step.temperature()) continue;
        const UnitId written = plain(step.temperature()->quantity.unit);
        return written != no_unit && unit(written).symbol == "°F";
    }
    return false;
}

namespace {

void add_recipe(const Model& model, const Reckoning& reckoning, Plan& plan) {
    const std::size_t index = plan.recipes.size();
    plan.recipes.push_back(recipe_part(model, reckoning));
    plan.count += reckoning.in.job.count;
    plan.thermometer_error =
        index == 0 ? reckoning.in.error_of_thermometer()
                   : std::max(plan.thermometer_error, reckoning.in.error_of_thermometer());
    plan.room = reckoning.in.room_temperature();
    add_pots(model, reckoning, index, plan);
    add_steps(model, reckoning, index, plan);
}

} // namespace

Plan plan_recipe(const Model& model, const Reckoning& reckoning, const Findings& findings,
                 const CautionIndex& cautions, WithMoney money) {
    const BlockId recipe = reckoning.in.job.recipe;
    Plan plan;
    plan.us_units = in_fahrenheit(model, recipe);
    add_recipe(model, reckoning, plan);
    plan.name = plan.recipes.front().name;
    plan.title = plan.recipes.front().title;
    plan.cautions = cautions.lines(model, findings, std::span(&recipe, 1), no_block);
    add_day(model, no_block, std::span(&reckoning, 1), plan);
    if (money == WithMoney::yes || !model.haves.empty()) {
        add_money(model, no_block, std::span(&reckoning, 1), plan);
    }
    return plan;
}

Plan plan_batch(const Model& model, BlockId batch, std::span<const Reckoning> reckonings,
                const Findings& findings, const CautionIndex& cautions, WithMoney money) {
    Plan plan;
    plan.is_batch = true;
    plan.name = model.name(batch);
    plan.title = plan.name;
    plan.lot = model.text(batch, Key::lot);
    plan.notes = model.text(batch, Key::notes);
    if (const auto* starts = model.get<DateAt>(batch, Key::starts)) plan.starts = starts->date;

    std::vector<BlockId> recipes;
    for (const Reckoning& reckoning : reckonings) {
        recipes.push_back(reckoning.in.job.recipe);
        add_recipe(model, reckoning, plan);
    }
    plan.us_units = !recipes.empty() && in_fahrenheit(model, recipes.front());
    plan.cautions = cautions.lines(model, findings, recipes, batch);
    add_day(model, batch, reckonings, plan);
    if (money == WithMoney::yes || !model.haves.empty()) {
        add_money(model, batch, reckonings, plan);
    }
    return plan;
}

} // namespace waxwright
