// Rules of the family `bench`: whether pots and scale can do what is asked.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_bench(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
