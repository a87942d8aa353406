// A leftover's own lines: its load and its scent go together, as a recipe's do. What becomes of it
// in a candle is told of the recipe that it goes into.
#pragma once

#include "findings/finding.hpp"
#include "model/model.hpp"

namespace waxwright {

void check_leftover(const Model& model, BlockId leftover, Findings& findings);

} // namespace waxwright
