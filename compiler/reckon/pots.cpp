#include "reckon/pots.hpp"

#include <algorithm>
#include <cmath>

#include "reckon/number.hpp"

namespace waxwright {

namespace {

constexpr double most_vessels = 1e15; // a double still tells n from n + 1

} // namespace

double usable_ml(double brimful_ml, double headroom) {
    return std::max(0.0, brimful_ml * (1 - headroom));
}

std::int64_t vessels_per_pot(double room, double each, double clings) {
    const double allowed = room * (1 + same);
    const double guess = std::floor((allowed - clings) / each);
    if (!(guess >= 0)) return 0;
    if (guess >= most_vessels) return static_cast<std::int64_t>(most_vessels);
    // The division may be off by one in the last place: the sum itself decides.
    double vessels = guess;
    if ((vessels + 1) * each + clings <= allowed) vessels += 1;
    if (vessels > 0 && vessels * each + clings > allowed) vessels -= 1;
    return static_cast<std::int64_t>(vessels);
}

Spread spread_evenly(std::int64_t count, std::int64_t most) {
    const std::int64_t pots = count / most + (count % most != 0 ? 1 : 0);
    const std::int64_t fewer = count / pots;
    const std::int64_t fuller = count % pots;
    if (fuller == 0) return {.fuller_pots = pots, .fuller_vessels = fewer};
    return {.fuller_pots = fuller,
            .fuller_vessels = fewer + 1,
            .other_pots = pots - fuller,
            .other_vessels = fewer};
}

} // namespace waxwright
