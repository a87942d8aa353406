// Rules of the family `load`: how much scent, oil and additive there is beside what is allowed.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_load(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
