// The part of the family `load` that looks at one oil or additive and its own limit.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_limits(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
