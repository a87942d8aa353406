// What is known of how a recipe burns: its test burns held against what it is today, and its hours.
// Units: mm, g, h, fractions.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "reckon/reckoning.hpp"

namespace waxwright {

/// Depth of wax that must not burn where a recipe doesn't say: its `stop-at` (common practice).
inline constexpr double usual_stop_mm = 12;

/// Something the candle that was burned had other than the recipe has it today.
struct Difference {
    Key key;                     // wick, vessel, wax, scent, additives, load or lots
    const Have* shelf = nullptr; // of lots: the line of a stock with a lot the test doesn't list
};

struct TestBurn {
    BlockId burn;
    std::optional<Date> on;
    std::vector<Difference> differences; // none: it is of today's make
    std::vector<Key> unsaid;             // of the make: taken to have been as today
    bool cracked = false;                // the vessel
    bool relit = false;                  // by itself
    bool called_fail = false;            // its verdict
    bool to_end = false;                 // burned down to the recipe's `stop-at`

    bool stale() const { return !differences.empty(); }
    /// It says nothing for the candle, whatever its verdict: EN 15493 and ASTM F2417 want a
    /// container that doesn't crack, EN 15493 a candle that doesn't light again by itself (both
    /// from summaries of them).
    bool failed() const { return cracked || relit || called_fail; }
};

/// The test burns of one recipe that count: those of its latest day on which a candle of today's
/// make was burned, or, where none was, of its latest day. One without a date counts as of the
/// earliest day. What a test doesn't say of its candle is taken to be as today.
struct Burned {
    std::vector<TestBurn> counting; // in the order written; empty: there is no test burn
    bool to_end =
        false; // a test that did not fail went to the end; it is of today's make if they are

    bool none() const { return counting.empty(); }
    bool stale() const { return !none() && counting.back().stale(); }
    /// The last one that failed, if one of them did.
    const TestBurn* failed() const;
};
Burned burned(const Model& model, const Reckoning& reckoning);

/// True if the date is of a later day; hours don't count, and no date is the earliest.
bool later_day(const std::optional<Date>& date, const std::optional<Date>& than);

/// mm of wax that stand round a melt pool at the wall, in a vessel with one wick in its middle:
/// (bore - pool) / 2; 0 where the pool is as wide or (measured at the hot glass) wider.
double at_the_wall(double bore_mm, double pool_mm);

/// Hours down to whole 5 h, by a burning candle's mass balance: (mass - what is left) / rate.
/// Masses in g, the rate of the whole candle in g/h, over 0. 0 where nothing may burn.
double hours_of(double mass_g, double left_g, double rate_g_h);

/// How long one candle burns, and whose rate that goes by.
struct BurnHours {
    double hours;
    bool measured; // by a test burn of today's make; else by the wick's `burns`
};
/// Nothing where the rate or the bore is unknown.
std::optional<BurnHours> burn_hours(const Model& model, const Reckoning& reckoning);

} // namespace waxwright
