// Limits of vessels, wicks and pots.
#include <cmath>

#include "reckon/limit_checks.hpp"

namespace waxwright {

namespace {

Maybe bore_of(const Amounts& a, const WickInput& wick) {
    if (!a.bore_mm || wick.count < 1) return std::nullopt;
    return bore_for_each(*a.bore_mm, wick.count);
}

} // namespace

/// Item 0: the headspace is as deep as the vessel; 1: it takes all of its volume; 2: the fill.
void add_checks_overfull(const Inputs& in, const Amounts& a, const LimitInfo& self,
                         LimitChecks& into) {
    const bool own_line = !in.vessel.fill.unsaid();
    const bool room_known = a.headspace_ml && a.brimful_ml;
    const bool deep = a.headspace_mm && a.depth_mm && at_least(*a.headspace_mm, *a.depth_mm);
    add(into, {self.rule, Way::under, self.in_doubt, self.add}, 0, a.headspace_mm, a.depth_mm,
        own_line || !room_known);
    add(into, {self.rule, Way::under, self.in_doubt, self.add}, 1, a.headspace_ml, a.brimful_ml,
        own_line || deep);
    add(into, self, 2, a.fill_ml, fullest * a.brimful_ml.value_or(unknown));
}
void add_checks_headspace_thin(const Inputs& in, const Amounts& a, const LimitInfo& self,
                               LimitChecks& into) {
    // No headspace counts beside a line of the vessel's own.
    add(into, self, 0, a.headspace_mm, least_headspace(in), !in.vessel.fill.unsaid());
}
/// What the vessel is at when the wax is poured, and the first pour. A step that could not be read
/// may have warmed it.
void add_checks_thermal_shock(const Inputs& in, const Amounts& /*a*/, const LimitInfo& self,
                              LimitChecks& into) {
    bool known = in.room.said != Said::unreadable && !in.steps_broken;
    double vessel = in.room_temperature();
    Maybe jump;
    std::size_t pour = 0;
    for (std::size_t i = 0; i < in.steps.size(); ++i) {
        const Step& step = in.steps[i];
        if (step.verb == Verb::warm_vessels) {
            known = step.temperature() != nullptr;
            if (known) vessel = step.temperature()->value();
        }
        if (step.verb != Verb::pour || !step.temperature()) continue;
        pour = i;
        if (known) jump = step.temperature()->value() - vessel;
        break;
    }
    add(into, self, pour, jump, figure(in.vessel.shock));
}

void add_checks_wick_too_big(const Inputs& in, const Amounts& a, const LimitInfo& self,
                             LimitChecks& into) {
    for (std::size_t i = 0; i < in.wicks.size(); ++i) {
        const Range* suits = in.wicks[i].suits.get();
        add(into, self, i, bore_of(a, in.wicks[i]),
            suits != nullptr ? Maybe(suits->low.value) : std::nullopt);
    }
}
void add_checks_wick_too_small(const Inputs& in, const Amounts& a, const LimitInfo& self,
                               LimitChecks& into) {
    for (std::size_t i = 0; i < in.wicks.size(); ++i) {
        const Range* suits = in.wicks[i].suits.get();
        add(into, self, i, bore_of(a, in.wicks[i]),
            suits != nullptr ? Maybe(suits->high) : std::nullopt);
    }
}
/// What the recipe says is kept back, beside what will have sunk.
void add_checks_keep_amount(const Inputs& in, const Amounts& a, const LimitInfo& self,
                            LimitChecks& into) {
    const bool known = a.mass_g && a.sunk_g > 0 && !in.keep.unsaid();
    add(into, self, 0, known ? Maybe(a.kept_g) : std::nullopt,
        known ? Maybe(a.sunk_g) : std::nullopt);
}

/// Item 0: ml that one vessel takes of a pot, what clings included, beside what the pot has. Item
/// 1: ml kept back of the fullest filling, beside what the pot has that it waits in.
void add_checks_pot_too_small(const Inputs& in, const Amounts& a, const LimitInfo& self,
                              LimitChecks& into) {
    const bool known = a.mass_g && a.room_density && in.spare.said != Said::unreadable &&
                       in.pot.clings.said != Said::unreadable &&
                       in.keep.pot.clings.said != Said::unreadable && in.job.count > 0;
    Maybe needed;
    if (known) {
        const double each = a.melted_g * (1 + in.spare_share());
        needed = (each + a.clings_g) / *a.room_density;
    }
    add(into, self, 0, needed, in.pot.block != no_block ? a.usable_ml : std::nullopt);
    Maybe kept;
    if (known && in.keep.pot.block != no_block && a.shared_out()) {
        const double each = a.kept_g * (1 + in.spare_share());
        const double clings = figure(in.keep.pot.clings).value_or(0);
        kept = (static_cast<double>(a.spread.fuller_vessels) * each + clings) / *a.room_density;
    }
    add(into, self, kept_of_filling, kept, a.keep_usable_ml);
}

std::optional<double> least_headspace(const Inputs& in) {
    switch (in.vessel.of) {
    case VesselStuff::glass:
    case VesselStuff::unsaid:
        return 10;
    case VesselStuff::tin:
        return 6;
    default:
        return std::nullopt;
    }
}

double bore_for_each(double bore, std::int64_t wicks) {
    return bore / std::sqrt(static_cast<double>(wicks));
}

} // namespace waxwright
