// The parts a plan is built of; build.cpp puts them together.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "model/model.hpp"
#include "plan/plan.hpp"
#include "reckon/reckoning.hpp"
#include "reckon/timeline.hpp"

namespace waxwright {

/// What one candle is and what the recipe takes in all; without cure and date, which are the
/// steps' and the day's.
RecipePlan recipe_part(const Model& model, const Reckoning& reckoning);
/// Adds the recipe's fillings, the fuller kind first.
void add_pots(const Model& model, const Reckoning& reckoning, std::size_t recipe, Plan& plan);
/// Adds the recipe's steps, and how long it cures.
void add_steps(const Model& model, const Reckoning& reckoning, std::size_t recipe, Plan& plan);
/// How a step stands to fire: whether scent can light at its heat, and whether the wax has set
/// since it was poured, so that it is warmed again; and whether the pot is off the heat.
struct StepWarmth {
    bool can_light = false;
    bool set_before = false;
    bool off_heat = false;
};
/// Says a step in a few words, for a row of the day.
void say_brief(const Reckoning& reckoning, const Step& step, const RecipePlan& recipe,
               const StepWarmth& warmth, StepPlan& plan);
/// Puts the line of time behind all recipes, pots and steps are there: when each step begins, when
/// each recipe is ready, the rows of the day, and what a melter takes.
void add_day(const Model& model, BlockId batch, std::span<const Reckoning> lines, Plan& plan);
/// What a melter takes, and the dangers of heat that no plan can put off.
void add_melts(const Model& model, const PotInput& melter, std::span<const Reckoning> lines,
               const Timeline& time, Plan& plan);
void add_heat_that_stays_on(const Model& model, std::span<const Reckoning> lines,
                            const Timeline& time, Plan& plan);
/// Whether the scent may light at the heat of a step: it goes in near its flash point, or what is
/// kept back of it is warmed to that within the thermometer's error. One whose flash point nobody
/// knows may.
bool can_light(const Reckoning& reckoning, const Step& step);
/// True where the first step with a temperature has it in °F.
bool in_fahrenheit(const Model& model, BlockId recipe);
/// What the reckoning had to take for granted, a sentence each.
std::vector<std::string> remarks_of(const Model& model, const Reckoning& reckoning,
                                    const ScalePlan& scale);
/// What the scent blend and what the pots ask of it differ by, once both are rounded; empty where
/// they agree.
std::string premix_note(const Model& model, const Reckoning& reckoning, const ScalePlan& scale);
/// "can is small for this: …" where a recipe takes a great many fillings, else "".
std::string small_pot_of(const Model& model, const Reckoning& reckoning);
/// What the test burns that count have to say; nothing without any.
std::optional<TestPlan> test_part(const Model& model, const Reckoning& reckoning);

} // namespace waxwright
