// When somebody's hands are wanted: at a filling, and how long wax has to be left before. s.
#pragma once

#include <span>
#include <vector>

#include "reckon/bath.hpp"
#include "reckon/heat_profile.hpp"
#include "reckon/timeline.hpp"
#include "reckon/worker.hpp"

namespace waxwright {

/// What hands a profile wants, with washing or wiping before it counted at times under 0.
inline std::vector<Interval> wanted_hands(const HeatProfile& profile, double before,
                                          std::span<const double> top_ups) {
    std::vector<Interval> wanted;
    if (before > 0) wanted.push_back({-before, 0});
    for (const double time : top_ups)
        wanted.push_back({time, time + top_up_seconds});
    for (const Stage& stage : profile.stages) {
        if (stage.attended) wanted.push_back({stage.begins, stage.ends});
    }
    return wanted;
}

/// s that a step wants wax left since it was last warm.
inline double wants_it_left(Verb verb) {
    if (verb == Verb::smooth_top) return set_after;
    return info(verb).has(trait::wants_cold) ? cold_after : 0;
}

} // namespace waxwright
