// Rules of the family `wick`: the wick beside the vessel.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_wick(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
