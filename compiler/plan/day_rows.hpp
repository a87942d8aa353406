// The rows of the day, in the order of their times.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "plan/plan.hpp"
#include "reckon/timeline.hpp"

namespace waxwright {

/// The step, if any, that warms a recipe's vessels before its pour, wherever it is written: they
/// are warmed for each filling, while its wax melts, so that they are neither cold again nor is
/// anything hot when the scent goes in.
std::optional<std::size_t> warms_vessels(const Reckoning& reckoning);
/// When, in s from a filling's beginning, its vessels are warmed: what warms them goes off with the
/// heat under the pot, and in a long melt they would be cold again by then.
double vessels_warmed_at(const Reckoning& reckoning, const HeatProfile& profile);

/// The plan has its recipes, steps and melts already.
std::vector<DayRow> day_rows(const Model& model, std::span<const Reckoning> lines,
                             const Timeline& time, const Plan& plan);

} // namespace waxwright
