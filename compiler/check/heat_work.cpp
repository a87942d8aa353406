// The temperatures to work at: scent and pour beside what the wax wants.
#include <fmt/format.h>

#include "check/heat_parts.hpp"
#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "reckon/heat_profile.hpp"
#include "units/show.hpp"

namespace waxwright {

void report_scent_cold(const Model&, const Reckoning& r, const LimitCheck& check,
                       Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    report(findings, r.in.job, check.rule, step.at,
           fmt::format("scent goes in at {}, and the wax begins to set at {}", show(at.quantity),
                       degrees_like(check.limit, at)),
           fmt::format("it will not mix: add it at {} or over", degrees_above(check.limit, at)));
}

namespace {

/// The same number read in the other scale, where that is a heat to pour this wax at: liquid, and
/// under its ceiling. A slip of the unit is told as one.
std::optional<Fix> in_other_scale(const Reckoning& r, const Figure& at) {
    const UnitId written = at.quantity.unit;
    if (written == no_unit) return std::nullopt;
    const bool fahrenheit = unit(written).factor < 1;
    const UnitId other = find_unit(fahrenheit ? "°C" : "°F");
    const double celsius = to_inside(from_inside(at.value(), written), other);
    if (!r.sets || under(celsius, *r.sets) || (r.ceiling && over(celsius, *r.ceiling))) {
        return std::nullopt;
    }
    Fix fix = put(at.at, show_in(celsius, other, dimension::point), false);
    fix.title = fmt::format("write `{}`, if that is what you meant", fix.edits[0].text);
    return fix;
}

} // namespace

void report_pour_cold(const Model&, const Reckoning& r, const LimitCheck& check,
                      Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    std::string hint = fmt::format("it can't be poured, or sets with folds and hollows: pour at {} "
                                   "or over",
                                   degrees_above(check.limit, at));
    auto fix = in_other_scale(r, at);
    if (fix) {
        hint += fmt::format(";\nif you meant the other scale, write `{}`", fix->edits[0].text);
    }
    Finding& finding = report(findings, r.in.job, check.rule, step.at,
                              fmt::format("the wax is poured at {} and begins to set at {}",
                                          show(at.quantity), degrees_like(check.limit, at)),
                              std::move(hint));
    if (fix) finding.fixes.push_back(std::move(*fix));
}

/// Nothing has sunk as long as nothing has set: a second pour before a `leave` fills no hollow.
void check_second_pour(const Model&, const Reckoning& r, Findings& findings) {
    if (r.in.steps_broken) return;
    const Step* poured = nullptr;
    bool left = false;
    for (const Step& step : r.in.steps) {
        if (step.verb == Verb::pour && poured == nullptr) poured = &step;
        left = left || (poured != nullptr && step.verb == Verb::leave);
        if (step.verb != Verb::second_pour || poured == nullptr || left) continue;
        report(findings, r.in.job, Rule::second_pour_early, step.at,
               "nothing has sunk yet: no step leaves the first pour to set",
               "write `leave 4 h`, or as long as it takes to set, before this step");
        return;
    }
}

namespace {

/// The range a wax wants for `what`, strictly outside of it.
void check_range(const Model& model, const Reckoning& reckoning, const Step& step, Rule rule,
                 Key key, Findings& findings) {
    const auto* range = model.get<Range>(reckoning.largest_wax, key);
    if (range == nullptr) return;
    const Figure& at = *step.temperature();
    const bool low = under(at.value(), range->low.value) && step.verb != Verb::second_pour;
    if (!low && !over(at.value(), range->high)) return;
    const Job& job = reckoning.in.job;
    const bool blend = reckoning.in.waxes().size() > 1;
    const std::string bounds =
        range_words(range->low.value, range->high, at.quantity.unit, dimension::point);
    Finding& finding = report(
        findings, job, rule, step.at,
        fmt::format("{} at {}, {} than `{}`{} wants it ({})",
                    step.adds_scent ? "scent goes in" : "the wax is poured", show(at.quantity),
                    low ? "colder" : "hotter", model.name(reckoning.largest_wax),
                    blend ? ", the most of this blend," : "", bounds),
        fmt::format("go {} {}; or, where it works for you, `allow {} because \"…\"`",
                    low ? "up to" : "down to",
                    degrees_like(low ? range->low.value : range->high, at), info(rule).name));
    relate(model, finding, model.entry(reckoning.largest_wax, key)->at, "what it wants");
}

/// Nothing heats it on the way from a `cool` to a hotter step, and with scent in it nothing should.
void report_cooled_before(const Model& model, const Job& job, const Step& step, const Step& cooled,
                          Findings& findings) {
    const Figure& at = *step.temperature();
    const std::string down = degrees_like(cooled.temperature()->value(), at);
    Finding& finding =
        report(findings, job, Rule::heat_after_scent, step.at,
               fmt::format("it has cooled to {} before, and would have to be heated to {} with the "
                           "scent in it",
                           down, show(at.quantity)),
               fmt::format("cool it to {} and no further, or do this at {} or under",
                           show(at.quantity), down));
    relate(model, finding, cooled.at, "it cools here");
}

/// Scent that was put in cool is lost where the wax gets hotter again.
void check_heat_after_scent(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Step* scented = nullptr; // the coolest so far that added scent
    const Step* cooled = nullptr;  // the coolest `cool` since
    for (const Step& step : model.steps_of(reckoning.in.job.recipe)) {
        if (!step.temperature() || !is_of_wax(step.verb)) continue;
        const Figure& at = *step.temperature();
        // A melt behind the scent is steps-out-of-order.
        const bool looked_at = step.verb != Verb::second_pour && step.verb != Verb::melt;
        if (scented != nullptr && looked_at && over(at.value(), scented->temperature()->value())) {
            const std::string went = degrees_like(scented->temperature()->value(), at);
            Finding& finding = report(
                findings, reckoning.in.job, Rule::heat_after_scent, step.at,
                fmt::format("{} is hotter than the scent went in ({})", show(at.quantity), went),
                fmt::format("do this at {} or under, or add the scent later", went));
            relate(model, finding, scented->at, "the scent goes in here");
        } else if (cooled != nullptr && looked_at &&
                   over(at.value(), cooled->temperature()->value())) {
            report_cooled_before(model, reckoning.in.job, step, *cooled, findings);
        }
        if (scented != nullptr && step.verb == Verb::cool &&
            (cooled == nullptr || at.value() < cooled->temperature()->value())) {
            cooled = &step;
        }
        if (step.adds_scent &&
            (scented == nullptr || at.value() < scented->temperature()->value())) {
            scented = &step;
        }
    }
}

/// Scent that goes in hotter than any step before has heated the wax: one of the two is a slip.
void check_never_so_hot(const Model& model, const Reckoning& r, Findings& findings) {
    if (r.in.steps_broken) return;
    const Step* hottest = nullptr;
    for (const Step& step : r.in.steps) {
        if (!is_of_wax(step.verb)) continue;
        if (!step.temperature()) return;
        const Figure& at = *step.temperature();
        if (step.adds_scent && hottest != nullptr &&
            over(at.value(), hottest->temperature()->value())) {
            Finding& finding =
                report(findings, r.in.job, Rule::never_so_hot, step.at,
                       fmt::format("scent goes in at {}, and no step before heats the wax over {}",
                                   show(at.quantity), show(hottest->temperature()->quantity)),
                       "melt hotter, or add the scent cooler");
            relate(model, finding, hottest->at, "the hottest step before");
            return;
        }
        if (hottest == nullptr || at.value() > hottest->temperature()->value()) hottest = &step;
    }
}

/// An additive melts in wax that is as hot as it melts itself; in cooler wax some dissolve and some
/// sink to the bottom.
void check_additives_melted(const Model& model, const Reckoning& r, Findings& findings) {
    if (r.in.steps_broken || !r.hottest || !r.melted_at || under(*r.hottest, *r.melted_at)) return;
    for (const MatterInput& additive : r.in.additives()) {
        if (!additive.melts || !under(*r.hottest, additive.melts->high)) continue;
        Finding& finding = findings.report_milder(
            Severity::warning, Rule::not_melted, additive.at,
            fmt::format("no step gets as hot as `{}` needs to melt, {}", model.name(additive.block),
                        show_in(additive.melts->high, additive.melts->low.unit, dimension::point)),
            "melt hotter, under the ceiling of the wax; or see in a test pour that it dissolves, "
            "and `allow not-melted` with what you saw");
        finding.subjects.push_back({r.in.job.recipe, r.in.job.batch});
    }
}

/// Cold scent takes heat from the pot; off the heat nothing gives it back before the pour.
void check_chill(const Reckoning& r, Findings& findings) {
    const auto chilled = temperature_after_scent(r);
    if (!chilled || r.in.steps_broken) return;
    bool scented = false;
    bool off_heat = r.in.job.drawn;
    for (const Step& step : r.in.steps) {
        if (comes_off_heat(step, scented)) off_heat = true;
        if (step.verb == Verb::melt) off_heat = r.in.job.drawn;
        scented = scented || step.adds_scent;
        if (step.verb != Verb::pour || !step.temperature()) continue;
        const Figure& at = *step.temperature();
        constexpr double worth_telling = 1; // C°
        if (!scented || !off_heat || *chilled > at.value() - worth_telling) return;
        if (over(at.value(), *r.scent_at)) return; // told as heat after scent
        report(
            findings, r.in.job, Rule::pour_at_range, step.at,
            fmt::format("the pot can't be at {} by then: the cold scent cools it to about {}",
                        show(at.quantity), degrees_like(*chilled, at)),
            "add the scent some degrees hotter, pour cooler, or warm the scent's bottle in a bowl "
            "of hand-warm water first");
        return;
    }
}

/// One slip, one finding: what is too hot for the wax, or too cold to be worked, is told already.
bool told_as_limit(const Reckoning& r, const Step& step) {
    const double at = step.temperature()->value();
    const bool hot = r.ceiling && at_least(at, *r.ceiling - r.in.error_of_thermometer());
    return hot || (r.sets && under(at, *r.sets));
}

} // namespace

void check_work(const Model& model, const Reckoning& reckoning, Findings& findings) {
    for (const Step& step : reckoning.in.steps) {
        if (!step.temperature() || told_as_limit(reckoning, step)) continue;
        if (step.adds_scent) {
            check_range(model, reckoning, step, Rule::scent_at_range, Key::scent_at, findings);
        } else if (is_pour(step.verb)) {
            check_range(model, reckoning, step, Rule::pour_at_range, Key::pour_at, findings);
        }
    }
    check_heat_after_scent(model, reckoning, findings);
    check_never_so_hot(model, reckoning, findings);
    check_additives_melted(model, reckoning, findings);
    check_chill(reckoning, findings);
}

} // namespace waxwright
