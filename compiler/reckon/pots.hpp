// How many vessels a pot fills, and how a job is spread over pots.
#pragma once

#include <cstdint>

namespace waxwright {

/// The share of a pot kept empty where it doesn't say (common practice).
inline constexpr double usual_headroom = 0.2;

/// ml of a pot that may be filled: brimful (1 - headroom); 0 where it is all headroom.
double usable_ml(double brimful_ml, double headroom);

/// The most vessels n whose n·each + clings is no more than `room`, all in g (or all in ml); equal
/// to 1e-9 relative still fits. `each`, over 0, has the spare in it. 0 if not even one fits, and at
/// most 1e15.
std::int64_t vessels_per_pot(double room, double each, double clings);

/// Fillings of two kinds at most; their vessels differ by one.
struct Spread {
    std::int64_t fuller_pots = 0;
    std::int64_t fuller_vessels = 0; // in each
    std::int64_t other_pots = 0;
    std::int64_t other_vessels = 0;

    std::int64_t pots() const { return fuller_pots + other_pots; }
};

/// The fewest pots that `count` vessels need at `most` a pot, and the vessels spread over them as
/// evenly as can be. Both over 0.
Spread spread_evenly(std::int64_t count, std::int64_t most);

} // namespace waxwright
