#include "reckon/worker.hpp"

#include <algorithm>

namespace waxwright {

namespace {

constexpr double hair = 1e-6; // s: sums of seconds are not exact

} // namespace

double Worker::in_the_way(const Interval& interval) const {
    // The busy intervals don't overlap, so their ends are in order too.
    const auto first =
        std::upper_bound(busy_.begin(), busy_.end(), interval.begins + hair,
                         [](double time, const Interval& each) { return time < each.ends; });
    const bool meets = first != busy_.end() && first->begins < interval.ends - hair;
    return meets ? first->ends : interval.begins;
}

double Worker::earliest(std::span<const Interval> wanted, double from) const {
    // Each move puts one interval behind something that is busy and never back before it, so this
    // ends, at the latest behind all that is busy.
    for (bool moved = true; moved;) {
        moved = false;
        for (const Interval& interval : wanted) {
            if (interval.ends - interval.begins < hair) continue;
            const Interval then{from + interval.begins, from + interval.ends};
            const double free = in_the_way(then);
            if (free > then.begins + hair) {
                from = free - interval.begins;
                moved = true;
            }
        }
    }
    return from;
}

std::optional<double> Worker::latest(double seconds, double from, double until) const {
    for (std::size_t i = busy_.size(); i-- > 0;) {
        if (busy_[i].begins < until + seconds - hair && until < busy_[i].ends - hair) {
            until = busy_[i].begins - seconds;
        }
    }
    return until >= from ? std::optional(until) : std::nullopt;
}

void Worker::take(std::span<const Interval> wanted, double begins) {
    for (const Interval& interval : wanted) {
        if (interval.ends - interval.begins < hair) continue;
        const Interval then{begins + interval.begins, begins + interval.ends};
        const auto at =
            std::lower_bound(busy_.begin(), busy_.end(), then.begins,
                             [](const Interval& each, double time) { return each.begins < time; });
        busy_.insert(at, then);
        taken_ += then.ends - then.begins;
    }
}

} // namespace waxwright
