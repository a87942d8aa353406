// Prices of what one recipe uses: they are in one currency (`mixed-currency`).
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_money(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
