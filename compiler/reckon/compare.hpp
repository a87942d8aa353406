// When a figure counts as over, under or equal to a limit. Values within 1e-9 relative of each
// other are equal: they differ by what arithmetic and a change of units leave behind, no more.
#pragma once

#include "reckon/number.hpp"

namespace waxwright {

inline bool over(double value, double limit) {
    return value > limit && !nearly_equal(value, limit);
}
inline bool under(double value, double limit) {
    return value < limit && !nearly_equal(value, limit);
}
/// Equality counts.
inline bool at_least(double value, double limit) {
    return value > limit || nearly_equal(value, limit);
}

} // namespace waxwright
