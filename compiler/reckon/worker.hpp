// One pair of hands: when they are free for a piece of work that can't be stopped once begun. s.
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace waxwright {

/// From, and up to. It takes no time where both are the same.
struct Interval {
    double begins;
    double ends;
};

class Worker {
public:
    /// The earliest time, not before `from`, at which work can begin whose hands are wanted in
    /// these intervals (counted from its beginning, in order), so that nothing else falls into
    /// them. What ends as another begins does not meet it.
    double earliest(std::span<const Interval> wanted, double from) const;
    /// The latest time in [from, until] at which they are free for so long; nothing where there is
    /// none.
    std::optional<double> latest(double seconds, double from, double until) const;
    /// Takes the hands for work that begins then.
    void take(std::span<const Interval> wanted, double begins);
    /// Seconds for which they are taken.
    double taken() const { return taken_; }

private:
    /// The end of what is in the way of the interval, or its own beginning where nothing is.
    double in_the_way(const Interval& interval) const;

    std::vector<Interval> busy_; // in order, none within another
    double taken_ = 0;
};

} // namespace waxwright
