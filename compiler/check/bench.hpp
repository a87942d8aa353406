// Rules of the family `bench`: whether pots and scale can do what is asked.
#pragma once

#include <span>

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_bench(const Model& model, const Reckoning& reckoning, Findings& findings);

/// A batch's melter: what is weighed into it in one go.
void check_melter(const Model& model, const PotInput& melter, std::span<const Reckoning> lines,
                  Findings& findings);

} // namespace waxwright
