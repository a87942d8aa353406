// Rules of the family `vessel`: the vessel: its room, its make and the heat it stands.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_vessel(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
