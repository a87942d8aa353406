// What keeps numbers sound: nothing that leaves this folder is infinite or no number.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>

namespace waxwright {

/// Values that differ by no more than this, relative, are equal.
inline constexpr double same = 1e-9;

inline bool nearly_equal(double value, double other) {
    return std::abs(value - other) <= same * std::max(std::abs(value), std::abs(other));
}

/// The value, unless it is infinite or no number.
inline std::optional<double> sound(double value) {
    return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

/// The value, if there is one and it is finite and over 0.
inline std::optional<double> positive(std::optional<double> value) {
    return value && std::isfinite(*value) && *value > 0 ? value : std::nullopt;
}

} // namespace waxwright
