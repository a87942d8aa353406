// Rules of the family `blend`: whether scent, load and steps go together.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_blend(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
