// How it burns: the recipe beside its test burns, and what it needs to burn well.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// What a recipe by itself is told.
void check_burning(const Model& model, const Reckoning& reckoning, Findings& findings);
/// What only a line of a batch is told: that nothing was burned before it is poured.
void check_burning_in_batch(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
