// The rule `thermal-shock` of the family `vessel`, the only one that hangs on the batch's room.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_shock(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
