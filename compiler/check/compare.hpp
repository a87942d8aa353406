// When a figure counts as over, under or equal to a limit. Values within 1e-9 relative of each
// other are equal: they differ by what arithmetic and a change of units leave behind, no more.
#pragma once

#include <algorithm>
#include <cmath>

namespace waxwright {

inline bool equals(double value, double limit) {
    return std::abs(value - limit) <= 1e-9 * std::max(std::abs(value), std::abs(limit));
}
inline bool over(double value, double limit) {
    return value > limit && !equals(value, limit);
}
inline bool under(double value, double limit) {
    return value < limit && !equals(value, limit);
}
/// Equality counts.
inline bool at_least(double value, double limit) {
    return value > limit || equals(value, limit);
}

} // namespace waxwright
