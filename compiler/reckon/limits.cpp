#include "reckon/limits.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "reckon/number.hpp"

namespace waxwright {

namespace {

enum class InDoubt : bool { no, yes };

// Each of the registry's limits is found by a function of its name.
#define RULE(identifier, name, family, severity, hangs_on, reader, about)
#define LIMIT(identifier, name, family, severity, hangs_on, reader, way, in_doubt, about)          \
    void find_##identifier(const Inputs& in, const Amounts& a, const LimitInfo& self,              \
                           LimitChecks& into);
#include "findings/rules.def"

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

using Value = std::optional<double>;

void add(LimitChecks& into, const LimitInfo& self, std::size_t item, Value value, Value limit,
         bool silent = false) {
    into.push_back({self.rule, self.way, silent, static_cast<std::uint32_t>(item),
                    value.value_or(unknown), limit.value_or(unknown)});
}

bool goes_beyond(double value, double limit) {
    return value > limit && !nearly_equal(value, limit);
}

/// Calls `use` with the index, the step and its temperature for each step that heats the wax.
template <typename Use>
void each_of_wax(const Inputs& in, Use use) {
    for (std::size_t i = 0; i < in.steps.size(); ++i) {
        const Step& step = in.steps[i];
        if (step.temperature() && is_of_wax(step.verb)) use(i, step, step.temperature()->value());
    }
}

// Load

/// A load without its scent is `scent-without-load`.
void find_load_over_limit(const Inputs& in, const Amounts& a, const LimitInfo& self,
                          LimitChecks& into) {
    add(into, self, 0, a.load_of_wax, a.limit_of_wax, in.oils().empty());
}
void find_load_near_limit(const Inputs& in, const Amounts& a, const LimitInfo& self,
                          LimitChecks& into) {
    const bool is_over =
        a.load_of_wax && a.limit_of_wax && goes_beyond(*a.load_of_wax, *a.limit_of_wax);
    const double near = 0.9 * a.limit_of_wax.value_or(unknown);
    add(into, self, 0, a.load_of_wax, near, is_over || in.oils().empty());
}

/// One of the materials beside a limit of its own.
void own_limit(const Amounts& a, const MatterInput& matter, const Given<Load>& limit,
               std::size_t item, const LimitInfo& self, LimitChecks& into) {
    const Load* most = limit.get();
    const bool held = most != nullptr && most->basis != Basis::unsaid && !most->by_volume;
    add(into, self, item, held ? portion(a, matter.kind, matter.share, most->basis) : std::nullopt,
        held ? Value(most->fraction) : std::nullopt);
}
void find_oil_over_limit(const Inputs& in, const Amounts& a, const LimitInfo& self,
                         LimitChecks& into) {
    for (std::size_t i = 0; i < in.matter.size(); ++i) {
        const MatterInput& matter = in.matter[i];
        if (matter.kind == MatterKind::oil) own_limit(a, matter, matter.limit, i, self, into);
    }
}
void find_ifra_cat_12_over(const Inputs& in, const Amounts& a, const LimitInfo& self,
                           LimitChecks& into) {
    for (std::size_t i = 0; i < in.matter.size(); ++i) {
        const MatterInput& matter = in.matter[i];
        if (matter.kind == MatterKind::oil) own_limit(a, matter, matter.certificate, i, self, into);
    }
}
void find_additive_over_limit(const Inputs& in, const Amounts& a, const LimitInfo& self,
                              LimitChecks& into) {
    for (std::size_t i = 0; i < in.matter.size(); ++i) {
        const MatterInput& matter = in.matter[i];
        if (matter.kind == MatterKind::additive) own_limit(a, matter, matter.limit, i, self, into);
    }
}

// Heat

void find_over_ceiling(const Inputs& in, const Amounts& a, const LimitInfo& self,
                       LimitChecks& into) {
    each_of_wax(in,
                [&](std::size_t i, const Step&, double at) { add(into, self, i, at, a.ceiling); });
}
/// A step over the ceiling is not near it: that finding says all.
void find_near_ceiling(const Inputs& in, const Amounts& a, const LimitInfo& self,
                       LimitChecks& into) {
    const bool unreadable = in.thermometer_error.said == Said::unreadable;
    each_of_wax(in, [&](std::size_t i, const Step&, double at) {
        const bool over = a.ceiling && goes_beyond(at, *a.ceiling);
        const double near = a.ceiling.value_or(unknown) - in.error_of_thermometer();
        add(into, self, i, at, near, over || unreadable);
    });
}
void find_near_wax_flash(const Inputs& in, const Amounts& a, const LimitInfo& self,
                         LimitChecks& into) {
    const double near = a.wax_flash.value_or(unknown) - flash_margin;
    each_of_wax(in, [&](std::size_t i, const Step&, double at) { add(into, self, i, at, near); });
}
void find_bath_too_cool(const Inputs& in, const Amounts& a, const LimitInfo& self,
                        LimitChecks& into) {
    each_of_wax(in, [&](std::size_t i, const Step&, double at) {
        const bool over = a.ceiling && goes_beyond(at, *a.ceiling); // told already
        add(into, self, i, at, hottest_in_bath, over || in.heat.how != Heated::water_bath);
    });
}

/// Where the pot stands as scent goes in. A step that could not be read may have been `off heat`.
enum class Stands : std::uint8_t { off_heat, in_bath, on_heat, untold };

/// Calls `use` for each step that adds scent, with where the pot stands then. A jug that was drawn
/// from a melter stands on the bench.
template <typename Use>
void each_scent(const Inputs& in, Use use) {
    const Heated how = in.heat.how;
    Stands stands = Stands::on_heat;
    if (how == Heated::water_bath || how == Heated::melter) stands = Stands::in_bath;
    if (how == Heated::untold || in.steps_broken) stands = Stands::untold;
    bool off_heat = in.job.drawn;
    for (std::size_t i = 0; i < in.steps.size(); ++i) {
        const Step& step = in.steps[i];
        if (step.verb == Verb::off_heat) off_heat = true;
        if (step.verb == Verb::melt) off_heat = in.job.drawn; // it went back on
        if (step.adds_scent && step.temperature()) {
            use(i, step.temperature()->value(), off_heat ? Stands::off_heat : stands);
        }
    }
}
void find_scent_over_flash_on_heat(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                   LimitChecks& into) {
    each_scent(in, [&](std::size_t i, double at, Stands stands) {
        add(into, self, i, at, a.scent_flash, stands != Stands::on_heat);
    });
}
void find_scent_over_flash_in_bath(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                   LimitChecks& into) {
    each_scent(in, [&](std::size_t i, double at, Stands stands) {
        add(into, self, i, at, a.scent_flash, stands != Stands::in_bath);
    });
}
void find_scent_over_flash(const Inputs& in, const Amounts& a, const LimitInfo& self,
                           LimitChecks& into) {
    each_scent(in, [&](std::size_t i, double at, Stands stands) {
        add(into, self, i, at, a.scent_flash, stands != Stands::off_heat);
    });
}
void find_scent_near_flash_on_heat(const Inputs& in, const Amounts& a, const LimitInfo& self,
                                   LimitChecks& into) {
    const double near = a.scent_flash.value_or(unknown) - flash_margin;
    each_scent(in, [&](std::size_t i, double at, Stands stands) {
        const bool reached =
            a.scent_flash && (at > *a.scent_flash || nearly_equal(at, *a.scent_flash));
        add(into, self, i, at, near, stands != Stands::on_heat || reached);
    });
}
/// A second pour behind a `leave` warms wax that has the scent in it.
void find_rewarm_over_flash(const Inputs& in, const Amounts& a, const LimitInfo& self,
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
void find_not_melted(const Inputs& in, const Amounts& a, const LimitInfo& self, LimitChecks& into) {
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
        found ? Value(in.steps[hottest].temperature()->value()) : std::nullopt, a.melted_at,
        in.steps_broken);
}
void find_scent_cold(const Inputs& in, const Amounts& a, const LimitInfo& self, LimitChecks& into) {
    each_of_wax(in, [&](std::size_t i, const Step& step, double at) {
        if (step.adds_scent) add(into, self, i, at, a.sets);
    });
}
void find_pour_cold(const Inputs& in, const Amounts& a, const LimitInfo& self, LimitChecks& into) {
    each_of_wax(in, [&](std::size_t i, const Step& step, double at) {
        if (is_pour(step.verb)) add(into, self, i, at, a.sets);
    });
}

// Vessel, wick and pot

/// Item 0: the headspace is as deep as the vessel; 1: it takes all of its volume; 2: the fill.
void find_overfull(const Inputs& in, const Amounts& a, const LimitInfo& self, LimitChecks& into) {
    const bool own_line = !in.vessel.fill.unsaid();
    const bool room_known = a.headspace_ml && a.brimful_ml;
    const bool deep = a.headspace_mm && a.depth_mm &&
                      (*a.headspace_mm > *a.depth_mm || nearly_equal(*a.headspace_mm, *a.depth_mm));
    add(into, {self.rule, Way::under, self.in_doubt, self.find}, 0, a.headspace_mm, a.depth_mm,
        own_line || !room_known);
    add(into, {self.rule, Way::under, self.in_doubt, self.find}, 1, a.headspace_ml, a.brimful_ml,
        own_line || deep);
    add(into, self, 2, a.fill_ml, fullest * a.brimful_ml.value_or(unknown));
}
void find_headspace_thin(const Inputs& in, const Amounts& a, const LimitInfo& self,
                         LimitChecks& into) {
    // No headspace counts beside a line of the vessel's own.
    add(into, self, 0, a.headspace_mm, least_headspace(in), !in.vessel.fill.unsaid());
}
/// What the vessel is at when the wax is poured, and the first pour. A step that could not be read
/// may have warmed it.
void find_thermal_shock(const Inputs& in, const Amounts& /*a*/, const LimitInfo& self,
                        LimitChecks& into) {
    bool known = in.room.said != Said::unreadable && !in.steps_broken;
    double vessel = in.room_temperature();
    Value jump;
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

Value bore_of(const Amounts& a, const WickInput& wick) {
    if (!a.bore_mm || wick.count < 1) return std::nullopt;
    return bore_for_each(*a.bore_mm, wick.count);
}
void find_wick_too_big(const Inputs& in, const Amounts& a, const LimitInfo& self,
                       LimitChecks& into) {
    for (std::size_t i = 0; i < in.wicks.size(); ++i) {
        const Range* suits = in.wicks[i].suits.get();
        add(into, self, i, bore_of(a, in.wicks[i]),
            suits != nullptr ? Value(suits->low.value) : std::nullopt);
    }
}
void find_wick_too_small(const Inputs& in, const Amounts& a, const LimitInfo& self,
                         LimitChecks& into) {
    for (std::size_t i = 0; i < in.wicks.size(); ++i) {
        const Range* suits = in.wicks[i].suits.get();
        add(into, self, i, bore_of(a, in.wicks[i]),
            suits != nullptr ? Value(suits->high) : std::nullopt);
    }
}
/// What the recipe says is kept back, beside what will have sunk.
void find_keep_amount(const Inputs& in, const Amounts& a, const LimitInfo& self,
                      LimitChecks& into) {
    const bool known = a.mass_g && a.sunk_g > 0 && !in.keep.unsaid();
    add(into, self, 0, known ? Value(a.kept_g) : std::nullopt,
        known ? Value(a.sunk_g) : std::nullopt);
}

/// Item 0: ml that one vessel takes of a pot, what clings included, beside what the pot has. Item
/// 1: ml kept back of the fullest filling, beside what the pot has that it waits in.
void find_pot_too_small(const Inputs& in, const Amounts& a, const LimitInfo& self,
                        LimitChecks& into) {
    const bool known = a.mass_g && a.room_density && in.spare.said != Said::unreadable &&
                       in.pot.clings.said != Said::unreadable &&
                       in.keep.pot.clings.said != Said::unreadable && in.job.count > 0;
    Value needed;
    if (known) {
        const double each = a.melted_g * (1 + in.spare_share());
        needed = (each + a.clings_g) / *a.room_density;
    }
    add(into, self, 0, needed, in.pot.block != no_block ? a.usable_ml : std::nullopt);
    Value kept;
    if (known && in.keep.pot.block != no_block && a.shared_out()) {
        const double each = a.kept_g * (1 + in.spare_share());
        const double clings = figure(in.keep.pot.clings).value_or(0);
        kept = (static_cast<double>(a.spread.fuller_vessels) * each + clings) / *a.room_density;
    }
    add(into, self, kept_of_filling, kept, a.keep_usable_ml);
}

constexpr LimitInfo table[] = {
#define RULE(identifier, name, family, severity, hangs_on, reader, about)
#define LIMIT(identifier, name, family, severity, hangs_on, reader, way, in_doubt, about)          \
    {Rule::identifier, Way::way, InDoubt::in_doubt == InDoubt::yes, find_##identifier},
#include "findings/rules.def"
};

} // namespace

bool is_broken(const LimitCheck& check) {
    if (std::isnan(check.value) || std::isnan(check.limit)) return false;
    const bool equal = nearly_equal(check.value, check.limit);
    switch (check.way) {
    case Way::most:
        return check.value > check.limit && !equal;
    case Way::under:
        return check.value > check.limit || equal;
    case Way::least:
        return check.value < check.limit && !equal;
    }
    return false;
}

double beyond(const LimitCheck& check) {
    return check.way == Way::least ? check.limit - check.value : check.value - check.limit;
}

std::span<const LimitInfo> all_limits() {
    return table;
}

void find_limits(const Inputs& in, const Amounts& amounts, LimitChecks& into) {
    into.clear();
    for (const LimitInfo& limit : table)
        limit.find(in, amounts, limit, into);
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
