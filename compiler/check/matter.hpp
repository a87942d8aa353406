// Rules of the family `matter`: what the materials are and what they do in hot wax.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_matter(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
