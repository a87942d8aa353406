#include "reckon/heat_profile.hpp"

#include <algorithm>

#include "reckon/heat.hpp"
#include "reckon/loads.hpp"
#include "reckon/number.hpp"

namespace waxwright {

namespace {

double liquid_heat(const MatterInput& wax) {
    return figure(wax.heat_liquid).value_or(usual_liquid_heat);
}

/// Right on a plate or a flame it is stirred all the while.
bool stands_on_it(Heated heated) {
    return heated == Heated::hotplate || heated == Heated::flame;
}

/// Of the waxes, which the additives are taken to be like. J/g/K.
double mean_liquid_heat(const Inputs& in) {
    double sum = 0;
    for (const MatterInput& wax : in.waxes())
        sum += wax.share * liquid_heat(wax);
    return sum > 0 ? sum : usual_liquid_heat;
}

/// Walks along the steps of one filling with a thermometer and a clock.
class Walk {
public:
    Walk(const Reckoning& reckoning, const PotKind& pot, bool cold_bath)
        : r_(reckoning), pot_(pot), steps_(reckoning.in.steps),
          heat_(mean_liquid_heat(reckoning.in)), cold_bath_(cold_bath) {
        for (const Weighing& line : pot.lines) {
            const bool later = line.kind == MatterKind::additive && added_by_a_step(line.material);
            if (line.kind == MatterKind::oil) {
                scent_ += line.exact;
            } else if (!later) {
                wax_ += line.exact;
            }
        }
        stand_in(r_.in.pot);
    }

    HeatProfile take(std::optional<double> drawn_at) {
        const Division division = divide(steps_);
        for (std::size_t i = division.first_at_pot; i < division.after_pot; ++i)
            go(i, drawn_at);
        profile_.rate = rate();
        return std::move(profile_);
    }

private:
    void stand_in(const PotInput& pot) {
        in_ = &pot;
        measured_rate_.reset();
        const Cools* cools = pot.cools.get();
        if (cools == nullptr) return;
        measured_rate_ = cooling_rate(cools->from, cools->to, cools->room, cools->seconds);
        measured_g_ = cools->grams;
    }
    bool added_by_a_step(BlockId material) const {
        return std::any_of(steps_.begin(), steps_.end(), [&](const Step& step) {
            return step.verb == Verb::add && step.material == material;
        });
    }
    double vessels() const { return static_cast<double>(pot_.vessels); }
    double grams() const { return wax_ + (scented_ ? scent_ : 0); }
    double capacity() const { return wax_ * heat_ + (scented_ ? scent_ * oil_heat : 0); }
    std::optional<double> rate() const {
        if (!measured_rate_ || !(measured_g_ > 0) || !(grams() > 0)) return std::nullopt;
        return positive(rate_at_mass(*measured_rate_, measured_g_, grams()));
    }
    std::optional<double> watts() const { return positive(figure(in_->power)); }
    double efficiency() const { return usual_efficiency(in_->heated); }

    /// Adds a stage of so many seconds, at whose end the pot is at `to`.
    Stage& stage(std::size_t step, StageKind kind, double seconds, std::optional<double> to) {
        const double begins = profile_.length();
        profile_.stages.push_back({.step = step,
                                   .kind = kind,
                                   .begins = begins,
                                   .ends = begins + std::max(seconds, 0.0),
                                   .on_heat = on_heat_,
                                   .from = now_,
                                   .to = to});
        now_ = to;
        return profile_.stages.back();
    }

    /// By itself for so long: kept as hot as it is on the heat, cooling off it.
    std::optional<double> after(double seconds) {
        if (on_heat_ || !now_) return now_;
        const auto k = rate();
        if (!k) return seconds > 0 ? std::nullopt : now_;
        const double then = cooled(*now_, r_.in.room_temperature(), *k, seconds);
        return r_.melted_at && then < *r_.melted_at ? std::nullopt : std::optional(then);
    }

    void unknown(std::size_t step, double seconds, double target, bool Unknowns::*why) {
        profile_.unknowns.*why = true;
        stage(step, StageKind::wait, seconds, target).known = false;
    }

    void cool_to(std::size_t step, double target) {
        const auto k = rate();
        if (on_heat_) {
            unknown(step, 0, target, &Unknowns::on_heat);
            profile_.stages.back().too_hot = true;
            return;
        }
        if (target <= r_.in.room_temperature())
            return unknown(step, 0, target, &Unknowns::cold_room);
        if (!k) return unknown(step, 0, target, &Unknowns::cools);
        const double liquid = std::max(target, r_.melted_at.value_or(target));
        const double seconds =
            *now_ > liquid
                ? seconds_to_cool(*now_, liquid, r_.in.room_temperature(), *k).value_or(0)
                : 0;
        if (liquid > target) return unknown(step, seconds, target, &Unknowns::setting);
        stage(step, StageKind::wait, seconds, target);
    }

    void warm_to(std::size_t step, double target) {
        const auto power = watts();
        if (!power) return unknown(step, 0, target, &Unknowns::power);
        const double joules = joules_to_warm(capacity(), *now_, target);
        stage(step, StageKind::wait, seconds_to_heat(joules, *power, efficiency()), target);
    }

    /// From solid, or from what has been left so long that it may have set.
    void melt_to(std::size_t step, double mass, double from, double target, double bath = 0) {
        const auto power = watts();
        const auto joules = joules_for(r_, mass, from, target);
        on_heat_ = true;
        if (!power) return unknown(step, 0, target, &Unknowns::power);
        if (!joules) return unknown(step, 0, target, &Unknowns::heats);
        stage(step, StageKind::wait, seconds_to_heat(*joules + bath, *power, efficiency()), target);
    }

    /// The first melting. In a bath its water is heated too: where nobody says how much there is,
    /// it takes longer than this.
    void melt_in_bath(std::size_t step, double target) {
        const bool in_bath = r_.in.pot.heated == Heated::water_bath;
        const Bath* bath = r_.in.pot.bath.get();
        const bool counts = in_bath && bath != nullptr && cold_bath_ && !bath->hot;
        const double room = r_.in.room_temperature();
        melt_to(step, wax_, room, target, counts ? joules_for_bath(bath->ml, room, target) : 0);
        if (!in_bath || bath != nullptr) return;
        profile_.stages.back().known = false;
        profile_.unknowns.bath = true;
    }

    /// Waits till the pot is as hot as the step wants it. What is off the heat and already cooler
    /// is not warmed again: the step is done as it is.
    void reach(std::size_t step, const Figure* wanted) {
        if (wanted == nullptr) return;
        const double target = wanted->value();
        constexpr double hair = 1e-6; // C°
        if (!now_) {
            now_ = target;
            unknown(step, 0, target, rate() ? &Unknowns::setting : &Unknowns::cools);
        } else if (target < *now_ - hair) {
            cool_to(step, target);
        } else if (target > *now_ + hair && on_heat_) {
            warm_to(step, target);
        }
    }

    void do_it(std::size_t step, double seconds) {
        const auto to = after(seconds);
        stage(step, StageKind::step, seconds, to).attended = work_seconds(steps_[step], 1) > 0;
    }

    void melt(std::size_t i, std::optional<double> drawn_at) {
        const double target =
            steps_[i].temperature() ? steps_[i].temperature()->value() : r_.in.room_temperature();
        if (drawn_at && !melted_) {
            now_ = *drawn_at;
            melted_ = true;
            stage(i, StageKind::step, draw_seconds, after(draw_seconds)).attended = true;
            return;
        }
        // The step itself is the melting: it begins when the pot goes on.
        if (!melted_) {
            now_ = r_.in.room_temperature();
            melt_in_bath(i, target);
        } else {
            on_heat_ = true;
            reach(i, steps_[i].temperature());
        }
        melted_ = true;
        if (profile_.stages.empty()) stage(i, StageKind::step, 0, target);
        profile_.stages.back().kind = StageKind::step;
        profile_.stages.back().attended = stands_on_it(r_.in.pot.heated);
    }

    void add(std::size_t i) {
        reach(i, steps_[i].temperature());
        std::optional<double> dropped;
        if (steps_[i].adds_scent && !scented_) {
            if (now_ && wax_ > 0 && scent_ > 0) {
                dropped = mixed_temperature(capacity(), *now_, scent_ * oil_heat,
                                            r_.in.room_temperature());
            }
            scented_ = true;
        } else {
            for (const Weighing& line : pot_.lines) {
                if (line.material == steps_[i].material && line.kind == MatterKind::additive) {
                    wax_ += line.exact;
                }
            }
        }
        const std::optional<double> before = now_;
        if (dropped && !on_heat_) now_ = dropped;
        const auto to = after(work_seconds(steps_[i], 1));
        now_ = before;
        Stage& made = stage(i, StageKind::step, work_seconds(steps_[i], 1), to);
        made.attended = true;
        made.dropped = dropped;
    }

    void pour(std::size_t i) {
        reach(i, steps_[i].temperature());
        const double kept = r_.kept_g * vessels() * (1 + r_.in.spare_share());
        const bool emptied = !(kept > 0) || r_.in.keep.pot.block != no_block;
        const double all = grams();
        const double pouring = work_seconds(steps_[i], vessels());
        std::optional<double> last;
        if (const auto k = rate(); k && now_ && !on_heat_) {
            last = cooled_by_pouring(*now_, r_.in.room_temperature(), *k, pot_.vessels,
                                     pouring / vessels(), all, kept);
        }
        do_it(i, pouring + (emptied ? wipe_seconds : 0));
        profile_.stages.back().last = last;
        if (all > 0 && kept > 0) {
            wax_ *= kept / all;
            scent_ *= kept / all;
        }
        if (kept > 0 && r_.in.keep.pot.block != no_block && !profile_.moved) {
            profile_.moved = profile_.length();
            stand_in(r_.in.keep.pot);
        }
        on_heat_ = false;
    }

    void second_pour(std::size_t i) {
        const Figure* wanted = steps_[i].temperature();
        if (now_ && wanted && wanted->value() > *now_ + 1e-6) on_heat_ = true; // warmed again
        if (!now_ && wanted) { // it was left, and may have set
            now_ = r_.in.room_temperature();
            melt_to(i, grams(), r_.in.room_temperature(), steps_[i].temperature()->value());
            // So little wax in a whole pot: what the pot and its bath take is more, and not known.
            profile_.stages.back().known = false;
            profile_.unknowns.kept = true;
        } else {
            reach(i, steps_[i].temperature());
        }
        do_it(i, work_seconds(steps_[i], vessels()) + wipe_seconds);
    }

    void go(std::size_t i, std::optional<double> drawn_at) {
        const Step& step = steps_[i];
        const double said = step.duration() ? step.duration()->value() : 0;
        switch (step.verb) {
        case Verb::melt:
            return melt(i, drawn_at);
        case Verb::off_heat:
            on_heat_ = false;
            return do_it(i, 0);
        case Verb::add:
            return add(i);
        case Verb::cool:
            on_heat_ = false;
            reach(i, step.temperature());
            if (!profile_.stages.empty() && profile_.stages.back().step == i) {
                profile_.stages.back().kind = StageKind::step; // the cooling is the step
                return;
            }
            return do_it(i, 0);
        case Verb::pour:
            return pour(i);
        case Verb::second_pour:
            return second_pour(i);
        case Verb::hold:
            if (comes_off_heat(step, scented_)) on_heat_ = false;
            return do_it(i, said);
        case Verb::leave:
        case Verb::stir:
            return do_it(i, said);
        default:
            return do_it(i, work_seconds(step, vessels()));
        }
    }

    const Reckoning& r_;
    const PotKind& pot_;
    const PotInput* in_ = nullptr; // what it stands in: its pot, or what is kept back waits in
    std::span<const Step> steps_;
    double heat_; // J/g/K of the liquid wax
    bool cold_bath_;
    double wax_ = 0;   // g in the pot, additives that are in included
    double scent_ = 0; // g, in the pot once `scented_`
    bool scented_ = false;
    bool melted_ = false;
    bool on_heat_ = false;
    std::optional<double> now_; // °C; nothing where it isn't known
    std::optional<double> measured_rate_;
    double measured_g_ = 0;
    HeatProfile profile_;
};

} // namespace

void join(Unknowns& all, const Unknowns& more) {
    all.power = all.power || more.power;
    all.cools = all.cools || more.cools;
    all.bath = all.bath || more.bath;
    all.heats = all.heats || more.heats;
    all.setting = all.setting || more.setting;
    all.cold_room = all.cold_room || more.cold_room;
    all.on_heat = all.on_heat || more.on_heat;
    all.kept = all.kept || more.kept;
}

Division divide(std::span<const Step> steps) {
    Division division{steps.size(), steps.size()};
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (division.first_at_pot == steps.size() && info(steps[i].verb).has(trait::at_pot)) {
            division.first_at_pot = i;
        }
        if (is_pour(steps[i].verb)) {
            division.after_pot = i + 1;
        }
    }
    return division;
}

bool comes_off_heat(const Step& step, bool scented) {
    return info(step.verb).has(trait::off_heat) || (step.verb == Verb::hold && scented);
}

double work_seconds(const Step& step, double vessels) {
    const Work& work = info(step.verb).work;
    switch (work.per) {
    case Work::Per::vessel:
        return work.seconds * vessels;
    case Work::Per::filling:
        return work.seconds;
    case Work::Per::as_said:
        return step.duration() ? step.duration()->value() : 0;
    }
    return 0;
}

HeatProfile heat_profile_of(const Reckoning& reckoning, const PotKind& pot,
                            std::optional<double> drawn_at, bool cold_bath) {
    return Walk(reckoning, pot, cold_bath).take(drawn_at);
}

std::optional<double> temperature_after_scent(const Reckoning& reckoning) {
    if (!reckoning.scent_at || !reckoning.fresh_load || !(*reckoning.fresh_load > 0)) {
        return std::nullopt;
    }
    // Of 1 g: what the leftovers bring is as hot as the fresh wax by then.
    const double additives = reckoning.fresh_additives.value_or(0);
    const double wax = wax_in(1 - reckoning.leftover, *reckoning.fresh_load, additives);
    const double hot =
        (wax * (1 + additives) + reckoning.leftover) * mean_liquid_heat(reckoning.in);
    return mixed_temperature(hot, *reckoning.scent_at, wax * *reckoning.fresh_load * oil_heat,
                             reckoning.in.room_temperature());
}

std::optional<double> joules_for(const Reckoning& reckoning, double grams, double from, double to) {
    double joules = 0;
    double shares = 0;
    for (const MatterInput& wax : reckoning.in.waxes()) {
        const auto solid = figure(wax.heat);
        const auto liquid = figure(wax.heat_liquid);
        const auto melting = figure(wax.melting_heat);
        if (!solid || !liquid || !melting || !wax.melts) return std::nullopt;
        const HeatFigures figures{*solid, *melting, *liquid, wax.melts->high};
        joules += joules_to_melt(grams * wax.share, figures, from, to);
        shares += wax.share;
    }
    return shares > 0 ? sound(joules) : std::nullopt;
}

} // namespace waxwright
