// How far a job is over each of its limits, as numbers. They only show in which direction a doubt
// brings it nearer; whether a limit is broken is for the rules to say.
#pragma once

#include <vector>

#include "reckon/reckoning.hpp"

namespace waxwright {

/// Under 0 where there is room, 0 or over where there is none; NaN where it is unknown. For one
/// job always as many, in the same order.
void margins(const Model& model, const Reckoning& reckoning, std::vector<double>& into);

} // namespace waxwright
