// What the sheet says of money, of what to buy and of the lots at hand.
#pragma once

#include <span>

#include "model/model.hpp"
#include "plan/plan.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Fills in the plan's money and the lots on its scale lines. The plan has its recipes, pots and
/// count; the reckonings are theirs, in their order. `batch` may be no_block.
void add_money(const Model& model, BlockId batch, std::span<const Reckoning> reckonings,
               Plan& plan);

} // namespace waxwright
