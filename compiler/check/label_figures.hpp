// Figures of a substance that the arithmetic of a label never reads.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Warns of a figure for a class that the substance hasn't: it would count for nothing. `from` is
/// an oil or an additive that contains it.
void check_idle_figures(const Model& model, const Job& job, const MatterInput& from,
                        Findings& findings);

} // namespace waxwright
