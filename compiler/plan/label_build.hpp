// From the model and a plan to the labels of what it makes.
#pragma once

#include <cstddef>
#include <vector>

#include "plan/label.hpp"
#include "plan/plan.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// The label of one recipe of the plan (index of Plan::recipes) for a market; `reckoning` is that
/// recipe's line, with its bounds. What nobody knows is a blank, and is listed.
Label plan_label(const Model& model, const Reckoning& reckoning, const Plan& plan,
                 std::size_t recipe, Market market);

} // namespace waxwright
