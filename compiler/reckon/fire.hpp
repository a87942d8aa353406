// When something hot and something that can light are on the bench at once. A scent's vapour lights
// from its flash point on, so the day is planned with every source of heat off while scent at or
// over it goes in and is stirred, and with no flame lit as long as a pot of scented wax stands open
// at or over it. Wax on the heat is never left alone: what is done elsewhere in the room is planned
// for when nothing is on it. s, °C.
#pragma once

#include <span>
#include <vector>

#include "reckon/heat_profile.hpp"
#include "reckon/worker.hpp"

namespace waxwright {

/// Of one filling, counted from its beginning.
struct FireTimes {
    std::vector<Interval> heats;  // what heats the pot is on
    bool flame = false;           // that is a flame, or may be one: a burner under a bath is
    std::vector<Interval> adding; // scent near its flash point, or over it, goes in
    std::vector<Interval> open;   // scented wax stands in the pot at or over that flash point
    bool warmed_open = false;     // what is kept back is warmed to that: no plan can put it off
    std::vector<Interval> away{}; // somebody is at work, and not at the pots
};

/// Where it isn't known how long a filling heats or cools before its first pour, all of it up to
/// then counts as both. A scent with an unknown flash point counts as over it at any heat.
/// `drawn`: the wax comes liquid from a melter, and the pot is never heated before its first pour.
FireTimes fire_times(const Reckoning& reckoning, const HeatProfile& profile, bool drawn);

/// s that what heated a pot counts as hot once it is off, while scent goes into another (common
/// practice: a heavy plate takes longer, so pots are carried away from it too).
inline constexpr double stays_hot = 180;

/// What has been planned so far.
class FireGuard {
public:
    /// The earliest time, not before `from`, at which the filling may begin so that no heat of one
    /// meets the scent of another.
    double earliest(const FireTimes& times, double from) const;
    void take(const FireTimes& times, double begins);

private:
    std::vector<Interval> heats_, hot_, flames_, adding_, open_, away_;
};

} // namespace waxwright
