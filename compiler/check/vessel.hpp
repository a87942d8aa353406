// Rules of the family `vessel`: the vessel: its room, its make and the heat it stands.
#pragma once

#include <optional>

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Fuller than this a vessel spills when it is moved: common practice.
inline constexpr double fullest = 0.95;

/// Room the flame needs below the rim, mm: common practice. Nothing is said of other stuff.
std::optional<double> least_headspace(const Model& model, BlockId vessel);

void check_vessel(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
