// Limits of heat: ceilings, flash points, and what is too cold.
#include "reckon/limit_checks.hpp"

namespace waxwright {

namespace {

/// Calls `use` with the index, the step and its temperature for each step that heats the wax.
template <typename Use>
void each_of_wax(const Inputs& in, Use use) {
    for (std::size_t i = 0; i < in.steps.size(); ++i) {
        const Step& step = in.steps[i];
        if (step.temperature() && is_of_wax(step.verb)) use(i, step, step.temperature()->value());
    }
}

/// Where the pot stands as scent goes in. A step that could not be read may have been `off heat`.
enum class Stands : std::uint8_t { off_heat, in_bath, on_heat, untold };

/// True for a step that the pot may be warmed for, before anything is poured.
bool heats(Verb verb) {
    return is_of_wax(verb) && !is_pour(verb) && verb != Verb::cool;
}

/// Calls `use` for each step that adds scent, and, where leftovers have brought some before, for
/// each that heats the wax on the way there: with its temperature, the flash point that counts and
/// where the pot stands then. A jug that was drawn from a melter stands on the bench.
template <typename Use>
void each_scent(const Inputs& in, const Amounts& a, Use use) {
    bool added = false;
    const Heated how = in.heat.how;
    Stands stands = Stands::on_heat;
    if (how == Heated::water_bath || how == Heated::melter) stands = Stands::in_bath;
    if (how == Heated::untold || in.steps_broken) stands = Stands::untold;
    bool off_heat = in.job.drawn;
    for (std::size_t i = 0; i < in.steps.size(); ++i) {
        const Step& step = in.steps[i];
        if (step.verb == Verb::off_heat) off_heat = true;
        if (step.verb == Verb::melt) off_heat = in.job.drawn; // it went back on
        added = added || step.adds_scent;
        if (!step.temperature()) continue;
        const double at = step.temperature()->value();
        if (step.adds_scent) {
            use(i, at, a.scent_flash, off_heat ? Stands::off_heat : stands);
        } else if (in.has_leftovers() && !added && heats(step.verb)) {
            // Off the heat it only cools: what went before has been told.
            use(i, at, off_heat ? Maybe() : a.brought_flash, off_heat ? Stands::off_heat : stands);
        }
    }
}

} // namespace

void add_checks_over_ceiling(const Inputs& in, const Amounts& a, const LimitInfo& self,
                             LimitChecks& into) {
    each_of_wax(in,
                [&](std::size_t i, const Step&, double at) { add(into, self, i, at, a.ceiling); });
}
/// A step over the ceiling is not near it: that finding says all.
void add_checks_near_ceiling(const Inputs& in, const Amounts& a, const LimitInfo& self,
                             LimitChecks& into) {
    const bool unreadable = in.thermometer_error.said == Said::unreadable;
    each_of_wax(in, [&](std::size_t i, const Step&, double at) {
        const bool is_over = a.ceiling && over(at, *a.ceiling);
        const double near = a.ceiling.value_or(unknown) - in.error_of_thermometer();
        add(into, self, i, at, near, is_over || unreadable);
    });
}
void add_checks_near_wax_flash(const Inputs& in, const Amounts& a, const LimitInfo& self,
                               LimitChecks& into) {
    const double near = a.wax_flash.value_or(unknown) - flash_margin;
    each_of_wax(in, [&](std::size_t i, const Step&, double at) { add(into, self, i, at, near); });
}
void add_checks_bath_too_cool(const Inputs& in, const Amounts& a, const LimitInfo& self,
                              LimitChecks& into) {
    each_of_wax(in, [&](std::size_t i, const Step&, double at) {
        const bool is_over = a.ceiling && over(at, *a.ceiling); // told already
        add(into, self, i, at, hottest_in_bath, is_over || in.heat.how != Heated::water_bath);
    });
}

void add_checks_scent_over_flash_on_heat(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                         LimitChecks& into) {
    each_scent(in, a, [&](std::size_t i, double at, Maybe flash, Stands stands) {
        add(into, self, i, at, flash, stands != Stands::on_heat);
    });
}
void add_checks_scent_over_flash_in_bath(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                         LimitChecks& into) {
    each_scent(in, a, [&](std::size_t i, double at, Maybe flash, Stands stands) {
        add(into, self, i, at, flash, stands != Stands::in_bath);
    });
}
void add_checks_scent_over_flash(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                 LimitChecks& into) {
    each_scent(in, a, [&](std::size_t i, double at, Maybe flash, Stands stands) {
        add(into, self, i, at, flash, stands != Stands::off_heat);
    });
}
void add_checks_scent_near_flash_on_heat(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                         LimitChecks& into) {
    each_scent(in, a, [&](std::size_t i, double at, Maybe flash, Stands stands) {
        const bool reached = flash && at_least(at, *flash);
        const double near = flash.value_or(unknown) - flash_margin;
        add(into, self, i, at, near, stands != Stands::on_heat || reached);
    });
}
/// A second pour behind a `leave` warms wax that has the scent in it.
void add_checks_rewarm_over_flash(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                  LimitChecks& into) {
    const Heated how = warms_kept(in);
    const bool direct = how == Heated::flame || how == Heated::hotplate;
    bool left = false;
    for (std::size_t i = 0; i < in.steps.size(); ++i) {
        const Step& step = in.steps[i];
        left = left || step.verb == Verb::leave;
        if (step.verb != Verb::second_pour || !step.temperature()) continue;
        add(into, self, i, step.temperature()->value(), a.scent_flash, !direct || !left);
    }
}

/// The hottest step before scent goes in or the wax is poured. `add` of an additive counts: the wax
/// is then that hot. A melt that comes behind is told by the order.
void add_checks_not_melted(const Inputs& in, const Amounts& a, const LimitInfo& self,
                           LimitChecks& into) {
    bool melted = false;
    bool known = true;
    std::size_t hottest = in.steps.size();
    for (std::size_t i = 0; i < in.steps.size(); ++i) {
        const Step& step = in.steps[i];
        if (step.adds_scent || is_pour(step.verb)) break;
        if (!is_of_wax(step.verb)) continue;
        melted = melted || step.verb == Verb::melt;
        known = known && step.temperature();
        if (!known) break;
        if (hottest == in.steps.size() ||
            step.temperature()->value() > in.steps[hottest].temperature()->value()) {
            hottest = i;
        }
    }
    const bool found = melted && known && hottest < in.steps.size();
    add(into, self, found ? hottest : 0,
        found ? Maybe(in.steps[hottest].temperature()->value()) : std::nullopt, a.melted_at,
        in.steps_broken);
}
void add_checks_scent_cold(const Inputs& in, const Amounts& a, const LimitInfo& self,
                           LimitChecks& into) {
    each_of_wax(in, [&](std::size_t i, const Step& step, double at) {
        if (step.adds_scent) add(into, self, i, at, a.sets);
    });
}
void add_checks_pour_cold(const Inputs& in, const Amounts& a, const LimitInfo& self,
                          LimitChecks& into) {
    each_of_wax(in, [&](std::size_t i, const Step& step, double at) {
        if (is_pour(step.verb)) add(into, self, i, at, a.sets);
    });
}

} // namespace waxwright
