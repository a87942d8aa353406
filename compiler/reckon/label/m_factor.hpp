// M-factors for the aquatic environment, from test results in mg/l: CLP Annex I Table 4.1.3, which
// is GHS Table 4.1.5, by an encyclopaedia's page. The upper end of each decade is within it.
#pragma once

#include <optional>

namespace waxwright {

/// From an L(E)C50: 1 from over 0.1 to 1 mg/l, and ten times as much for each decade below. Nothing
/// over 1 mg/l, where it is no Acute 1, and of what is not over 0.
std::optional<double> m_acute_from(double lc50);

/// From a NOEC: 1 in the decade up to 0.1 mg/l, or up to 0.01 mg/l of what degrades rapidly, and
/// ten times as much for each decade below. Nothing over that, and of what is not over 0.
std::optional<double> m_chronic_from(double noec, bool degrades_rapidly);

} // namespace waxwright
