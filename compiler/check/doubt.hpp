// The rule of the family `doubt`: a limit that lies within the doubt of a figure.
#pragma once

#include <cstddef>

#include "findings/finding.hpp"
#include "reckon/corners.hpp"

namespace waxwright {

/// Looks at each limit again where the doubtful figures bring the job nearest to it: what is broken
/// there, and isn't with the figures as they are written, is `within-doubt`. `from` is the first of
/// the findings that are of this job.
void check_doubt(const Model& model, const Reckoning& reckoning, Corners& corners, std::size_t from,
                 Findings& findings);

} // namespace waxwright
