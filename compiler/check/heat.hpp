// Rules of the family `heat`: every step with a temperature, and what it does to wax and scent.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_heat(const Model& model, const Reckoning& reckoning, Findings& findings);
/// For a line of a batch: only what the batch's own pot or thermometer can change.
void check_heat_in_batch(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
