// A water bath on the heat boils away: when it is topped up so that it never boils dry. s.
#pragma once

#include <span>
#include <vector>

#include "reckon/heat_profile.hpp"
#include "reckon/worker.hpp"

namespace waxwright {

/// Somebody pours hot water in (common practice).
inline constexpr double top_up_seconds = 30;

/// How long a bath may be left: until a third of its water could have boiled off, with all the
/// power of what heats it in boiling water (2257 J/g at 100 °C, a handbook figure, from memory). In
/// whole minutes, 1 to 30; 15 where the power or the water isn't known (common practice).
double top_up_every(const PotInput& pot);

/// When the bath of a filling is topped up again while the filling is on the heat: each time in due
/// time but in its last minutes, and not while somebody is at the filling itself. Counted from
/// where the stages are.
std::vector<double> top_ups(const PotInput& pot, const Interval& on_heat,
                            std::span<const Stage> stages);

} // namespace waxwright
