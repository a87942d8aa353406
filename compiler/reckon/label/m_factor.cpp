#include "reckon/label/m_factor.hpp"

#include "reckon/compare.hpp"

namespace waxwright {

namespace {

/// `top` is the upper end of the decade whose factor is 1.
std::optional<double> factor(double value, double top) {
    if (!positive(value) || over(value, top)) return std::nullopt;
    double result = 1;
    // Powers of ten are exact up to 1e22: it is the factor that is counted up, not the value down.
    while (!over(value * result * 10, top))
        result *= 10;
    return result;
}

} // namespace

std::optional<double> m_acute_from(double lc50) {
    return factor(lc50, 1);
}

std::optional<double> m_chronic_from(double noec, bool degrades_rapidly) {
    return factor(noec, degrades_rapidly ? 0.01 : 0.1);
}

} // namespace waxwright
