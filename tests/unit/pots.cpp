// Pots against counts worked by hand, and what must hold of every spread.
#include "reckon/pots.hpp"

#include <doctest/doctest.h>

#include <limits>

using namespace waxwright;
using doctest::Approx;

TEST_CASE("what of a pot may be filled") {
    CHECK(usable_ml(2000, usual_headroom) == Approx(1600));
    CHECK(usable_ml(2000, 0) == 2000);
    CHECK(usable_ml(2000, 1) == 0);
    CHECK(usable_ml(2000, 1.5) == 0);
}

TEST_CASE("vessels a pot fills") {
    // 1600 ml at 0.86 g/ml hold 1376 g. Vessels of 270 g, 8 g clings: 5 · 270 + 8 = 1358 fit,
    // 6 · 270 + 8 = 1628 don't.
    CHECK(vessels_per_pot(1376, 270, 8) == 5);
    // Just what it holds: 5 · 270 + 26 = 1376.
    CHECK(vessels_per_pot(1376, 270, 26) == 5);
    CHECK(vessels_per_pot(1376, 270, 26.1) == 4);
    // Equal to 1e-9 relative is equal: ten times 0.1 in a room of 1.
    CHECK(vessels_per_pot(1, 0.1, 0) == 10);
    CHECK(vessels_per_pot(1350 * (1 - 0.5e-9), 270, 0) == 5);
    CHECK(vessels_per_pot(1350 * (1 - 3e-9), 270, 0) == 4);
}

TEST_CASE("a pot too small for one") {
    CHECK(vessels_per_pot(269, 270, 0) == 0);
    CHECK(vessels_per_pot(270, 270, 1) == 0);
    CHECK(vessels_per_pot(5, 270, 10) == 0);
    CHECK(vessels_per_pot(0, 270, 0) == 0);
}

TEST_CASE("absurd sizes end") {
    constexpr double huge = std::numeric_limits<double>::infinity();
    CHECK(vessels_per_pot(1e300, 1e-300, 0) == 1000000000000000);
    CHECK(vessels_per_pot(huge, 1, 0) == 1000000000000000);
    CHECK(vessels_per_pot(huge, huge, 0) == 0);
    const Spread spread = spread_evenly(1000000000, 1);
    CHECK(spread.pots() == 1000000000);
    CHECK(spread_evenly(std::numeric_limits<std::int64_t>::max(), 2).fuller_vessels == 2);
}

TEST_CASE("spread evenly") {
    // 40 vessels at 5 a pot are 8 pots of 5; at 4, 10 pots of 4.
    CHECK(spread_evenly(40, 5).pots() == 8);
    const Spread even = spread_evenly(40, 4);
    CHECK(even.fuller_pots == 10);
    CHECK(even.fuller_vessels == 4);
    CHECK(even.other_pots == 0);
    // 24 at 7 a pot need 4 pots: 6 each, not 7, 7, 7 and 3.
    CHECK(spread_evenly(24, 7).fuller_pots == 4);
    CHECK(spread_evenly(24, 7).fuller_vessels == 6);
    // 23 of them: three of 6 and one of 5.
    const Spread odd = spread_evenly(23, 7);
    CHECK(odd.fuller_pots == 3);
    CHECK(odd.fuller_vessels == 6);
    CHECK(odd.other_pots == 1);
    CHECK(odd.other_vessels == 5);
    CHECK(spread_evenly(1, 100).fuller_vessels == 1);
}

TEST_CASE("a spread has all vessels, the fewest pots, and differs by one") {
    for (std::int64_t count = 1; count <= 120; ++count) {
        for (std::int64_t most = 1; most <= 30; ++most) {
            const Spread s = spread_evenly(count, most);
            CHECK(s.fuller_pots * s.fuller_vessels + s.other_pots * s.other_vessels == count);
            CHECK(s.fuller_vessels <= most);
            CHECK((s.pots() - 1) * most < count); // one pot fewer would not do
            if (s.other_pots > 0) CHECK(s.other_vessels == s.fuller_vessels - 1);
            if (s.other_pots > 0) CHECK(s.other_vessels > 0);
        }
    }
}

TEST_CASE("as many fit as are said, and one more never does") {
    for (double each = 37.3; each < 700; each *= 1.07) {
        for (double clings = 0; clings < 60; clings += 7.7) {
            for (double room = 100; room < 9000; room *= 1.31) {
                const auto n = static_cast<double>(vessels_per_pot(room, each, clings));
                if (n > 0) CHECK(n * each + clings <= room * (1 + 1e-9));
                CHECK((n + 1) * each + clings > room * (1 + 1e-9));
            }
        }
    }
}
