// The rule of the family `doubt`: a limit that lies within the doubt of a figure.
#pragma once

#include <cstddef>

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Looks at the job again where its doubtful figures bring it nearest to each limit, with the same
/// checks: what they find there, and haven't found with the figures as they are written, is
/// `within-doubt`. `from` is the first of the findings that are of this job. The model is as it was
/// when this returns.
void check_doubt(Model& model, const Reckoning& reckoning, std::size_t from, Findings& findings);

} // namespace waxwright
