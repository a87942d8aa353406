// All rules that look at a recipe, or a line of a batch, as a whole.
#pragma once

#include "findings/finding.hpp"
#include "reckon/limits.hpp"

namespace waxwright {

/// Tells all that is wrong with one job. Of a recipe by itself every family is looked at; of a line
/// of a batch only what the batch can change, so that nothing is told twice in other words.
void check_job(const Model& model, const Reckoning& reckoning, const LimitChecks& limits,
               Findings& findings);

} // namespace waxwright
