#include "reckon/fire.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "reckon/limits.hpp"

namespace waxwright {

namespace {

constexpr double hair = 1e-6; // s: sums of seconds are not exact

/// What isn't known to be no flame counts as one.
bool may_be_flame(Heated how) {
    return how != Heated::hotplate && how != Heated::melter && how != Heated::microwave;
}

/// One walk along the stages of a filling.
class Watch {
public:
    Watch(const Reckoning& reckoning, const HeatProfile& profile, bool drawn)
        : steps_(reckoning.in.steps), stages_(profile.stages), drawn_(drawn) {
        const auto oils = reckoning.in.oils();
        const double error = reckoning.in.error_of_thermometer();
        // Unknown: at any heat.
        // The thermometer may read too little by its error.
        constexpr double any = -std::numeric_limits<double>::infinity();
        if (!oils.empty()) {
            const double flash = reckoning.scent_flash.value_or(any);
            flash_ = flash - error;
            adds_from_ = flash - std::max(flash_margin, error);
        }
        if (brings_scent(reckoning.in)) {
            brought_flash_ = reckoning.brought_flash.value_or(any) - error;
        }
        times_.flame =
            may_be_flame(reckoning.in.heat.how) ||
            (reckoning.in.keep.pot.block != no_block && may_be_flame(warms_kept(reckoning.in)));
    }

    FireTimes take() {
        for (const Stage& stage : stages_) {
            heat(stage);
            vapour(stage);
        }
        close(times_.heats, heated_from_, length());
        close(times_.open, open_from_, length());
        close(times_.adding, adding_from_, length());
        if (!known_to_first_pour()) widen();
        times_.warmed_open =
            std::any_of(times_.heats.begin(), times_.heats.end(), [&](const Interval& heat) {
                return poured_at_ >= 0 && heat.begins >= poured_at_ &&
                       std::any_of(times_.open.begin(), times_.open.end(),
                                   [&](const Interval& open) { return meets(heat, open); });
            });
        return std::move(times_);
    }

private:
    static constexpr double closed = -1;

    Verb verb(const Stage& stage) const { return steps_[stage.step].verb; }
    double length() const { return stages_.empty() ? 0 : stages_.back().ends; }
    static bool meets(const Interval& one, const Interval& other) {
        return one.begins < other.ends - hair && other.begins < one.ends - hair;
    }
    static void close(std::vector<Interval>& into, double& from, double at) {
        if (from >= 0) into.push_back({from, at});
        from = closed;
    }

    /// On from a melting, or the warming of what was kept back, until it is taken off.
    void heat(const Stage& stage) {
        const Verb what = verb(stage);
        const bool warms = what == Verb::second_pour && stage.kind == StageKind::wait;
        const bool melts = what == Verb::melt && !drawn_;
        if ((warms || melts) && heated_from_ < 0) heated_from_ = stage.begins;
        if (comes_off_heat(steps_[stage.step], scented_))
            close(times_.heats, heated_from_, stage.begins);
        if (is_pour(what) && stage.kind == StageKind::step) {
            close(times_.heats, heated_from_, stage.ends);
        }
    }

    /// Where nobody knows how hot it is, it is no hotter than it last was: it only cools there.
    double hottest(const Stage& stage) {
        const double from = stage.from.value_or(at_most_);
        const double to = stage.to.value_or(from);
        at_most_ = to;
        return std::max(from, to);
    }

    /// Scented wax is open from the addition, or from the melt where leftovers bring scent, until
    /// it is cooler than its flash point, or gone.
    void vapour(const Stage& stage) {
        const Verb what = verb(stage);
        const double celsius = hottest(stage);
        const bool hot = celsius >= (scented_ ? flash_ : brought_flash_) - hair;
        const bool adds = what == Verb::add && steps_[stage.step].adds_scent;
        if (adds && stage.kind == StageKind::step) {
            scented_ = true;
            if (celsius >= adds_from_ - hair) adding_from_ = stage.begins;
        } else if (what != Verb::stir) {
            close(times_.adding, adding_from_, stage.begins);
        }
        if (!scented_ && std::isinf(brought_flash_) && brought_flash_ > 0) return;
        if (poured_ && what == Verb::leave) { // what is kept back has its lid on
            close(times_.open, open_from_, stage.begins);
        } else if (hot) {
            if (open_from_ < 0) open_from_ = stage.begins;
        } else {
            close(times_.open, open_from_, stage.ends);
        }
        if (what == Verb::pour && stage.kind == StageKind::step) {
            poured_ = true;
            poured_at_ = stage.begins;
        }
    }

    bool known_to_first_pour() const {
        for (const Stage& stage : stages_) {
            if (!stage.known) return false;
            if (verb(stage) == Verb::pour && stage.kind == StageKind::step) return true;
        }
        return true;
    }

    /// Nobody knows when it is hot: up to the first pour it counts as hot, and as heated.
    void widen() {
        double end = 0;
        for (const Stage& stage : stages_) {
            end = stage.ends;
            if (verb(stage) == Verb::pour && stage.kind == StageKind::step) break;
        }
        if (!times_.open.empty()) times_.open.push_back({0, end});
        if (!times_.heats.empty()) times_.heats.push_back({0, end});
    }

    std::span<const Step> steps_;
    std::span<const Stage> stages_;
    bool drawn_;
    double flash_ = std::numeric_limits<double>::infinity();         // no scent: never
    double brought_flash_ = std::numeric_limits<double>::infinity(); // of what leftovers bring
    double adds_from_ = std::numeric_limits<double>::infinity();     // near its flash point
    double at_most_ = std::numeric_limits<double>::infinity();       // °C in the pot
    FireTimes times_;
    bool scented_ = false;
    bool poured_ = false; // once: the rest is kept back
    double poured_at_ = closed;
    double heated_from_ = closed, open_from_ = closed, adding_from_ = closed;
};

/// The time to which a filling has to be moved so that none of its intervals meets a planned one.
double behind(std::span<const Interval> wanted, std::span<const Interval> planned, double from) {
    for (const Interval& want : wanted) {
        for (const Interval& other : planned) {
            const bool meets =
                from + want.begins < other.ends - hair && other.begins < from + want.ends - hair;
            if (meets) from = other.ends - want.begins;
        }
    }
    return from;
}

/// With the time that a plate or a burner stays hot once it is off.
std::vector<Interval> still_hot(std::vector<Interval> heats) {
    for (Interval& heat : heats)
        heat.ends += stays_hot;
    return heats;
}

void put(std::vector<Interval>& into, std::span<const Interval> times, double begins) {
    for (const Interval& time : times)
        into.push_back({begins + time.begins, begins + time.ends});
}

} // namespace

FireTimes fire_times(const Reckoning& reckoning, const HeatProfile& profile, bool drawn) {
    return Watch(reckoning, profile, drawn).take();
}

double FireGuard::earliest(const FireTimes& times, double from) const {
    const std::vector<Interval> heats = still_hot(times.heats);
    // Each move goes forward, behind something planned, so this ends.
    for (double before = from - 1; before < from;) {
        before = from;
        from = behind(heats, adding_, from);
        if (times.flame) from = behind(times.heats, open_, from);
        from = behind(times.adding, hot_, from);
        from = behind(times.open, flames_, from);
        from = behind(times.heats, away_, from);
        from = behind(times.away, heats_, from);
    }
    return from;
}

void FireGuard::take(const FireTimes& times, double begins) {
    put(heats_, times.heats, begins);
    put(hot_, still_hot(times.heats), begins);
    if (times.flame) put(flames_, times.heats, begins);
    put(adding_, times.adding, begins);
    put(open_, times.open, begins);
    put(away_, times.away, begins);
}

} // namespace waxwright
