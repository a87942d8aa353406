// Rules of the family `wick`: the wick beside the vessel.
#pragma once

#include <cstdint>

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// The bore one wick of several has to serve, mm: each serves an equal area of the wax (common
/// practice; a supplier's chart for several wicks, where there is one, is better).
double bore_for_each(double bore, std::int64_t wicks);

void check_wick(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
