// The flash point of a scent matters where its vapour can meet what heats the pot. It is not where
// scent is lost.
#include <utility>

#include <fmt/format.h>

#include "check/heat_parts.hpp"
#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// The oil whose flash point counts for the step: of what leftovers have brought, where the scent
/// comes later.
BlockId flash_oil(const Reckoning& r, const Step& step) {
    return step.adds_scent ? r.flash_oil : r.brought_flash_oil;
}

/// "scent goes in at 75 °C", "the leftovers have scent in them, and are heated to 75 °C"
std::string doing(const Step& step) {
    const std::string at = show(step.temperature()->quantity);
    return step.adds_scent ? "scent goes in at " + at
                           : "the leftovers have scent in them and are heated to " + at;
}

/// Leftovers can't be melted off the heat.
std::string leftovers_hint(const Reckoning& r, const Figure& at, double flash) {
    const double error = r.in.error_of_thermometer();
    std::string hint = "leave these leftovers out, or take such without that oil";
    if (r.melted_at && over(flash - error, *r.melted_at)) {
        hint = fmt::format("melt it in a water bath and stay below {}, as the thermometer may be "
                           "wrong by {}; or {}",
                           degrees_below(flash - error, at), interval_like(error, at), hint);
    }
    return hint +
           ";\nlid on, nobody leaves it, no other flame in the room; the safety data sheet of "
           "the oil comes first";
}

std::string scent_hint(const Model& model, const Job& job, Heated how) {
    std::string hint = "write `off heat` before this step, and do it: flame or plate off, the pot "
                       "away from it, the room aired";
    if (how == Heated::unsaid) {
        hint += ";\nor say how the pot is heated, where it is a water bath or a melter (`heated:`)";
    }
    if (model.blend(job.recipe, Key::scent).size() > 1) {
        hint += ";\na blend can light at less than any of its oils";
    }
    return hint + "; the safety data sheet of the oil comes first";
}

std::string heat_words(const Model& model, const HeatInput& heat) {
    if (heat.how == Heated::unsaid) return "with the pot on the heat";
    const std::string_view on = heat.how == Heated::flame      ? "on a flame"
                                : heat.how == Heated::hotplate ? "on a hotplate"
                                                               : "in a microwave oven";
    return fmt::format("with `{}` {}", model.name(heat.pot), on);
}

/// Both rules of scent that goes in on the heat: at or over its flash point, and near it.
void report_on_heat(const Model& model, const Reckoning& r, const LimitCheck& check,
                    Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    const BlockId oil = flash_oil(r, step);
    const double flash = step.adds_scent ? *r.scent_flash : *r.brought_flash;
    std::string near = "at";
    if (over(at.value(), flash)) near = "over";
    if (!at_least(at.value(), flash)) {
        near = "within " + interval_like(flash_margin, at) + " of";
    }
    Finding& finding = report(findings, r.in.job, check.rule, step.at,
                              fmt::format("{} {}, {} the flash point of `{}` ({})", doing(step),
                                          heat_words(model, r.in.heat), near, model.name(oil),
                                          flash_words(r.in, oil, at)),
                              step.adds_scent ? scent_hint(model, r.in.job, r.in.heat.how)
                                              : leftovers_hint(r, at, flash));
    const Entry* entry = model.entry(oil, Key::flash_point);
    if (entry != nullptr) relate(model, finding, entry->at, "its flash point");
}

} // namespace

void report_scent_over_flash_on_heat(const Model& model, const Reckoning& r,
                                     const LimitCheck& check, Findings& findings) {
    report_on_heat(model, r, check, findings);
}
void report_scent_near_flash_on_heat(const Model& model, const Reckoning& r,
                                     const LimitCheck& check, Findings& findings) {
    report_on_heat(model, r, check, findings);
}

void report_rewarm_over_flash(const Model& model, const Reckoning& r, const LimitCheck& check,
                              Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    // Under its melting point it can't be poured: no advice to go there.
    std::string hint = "warm it in hot water, with nothing lit";
    if (r.melted_at && over(check.limit, *r.melted_at)) {
        hint += ", or to less than " + degrees_like(check.limit, at);
    }
    report(findings, r.in.job, check.rule, step.at,
           fmt::format("the wax kept back is warmed to {} with the scent in it, on a {}: the flash "
                       "point of `{}` is {}",
                       show(at.quantity), warms_kept(r.in) == Heated::flame ? "flame" : "hotplate",
                       model.name(r.flash_oil), flash_words(r.in, r.flash_oil, at)),
           std::move(hint));
}

namespace {

Finding& report_over_flash(const Model& model, const Reckoning& r, const LimitCheck& check,
                           std::string_view consequence, std::string hint, Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    const BlockId oil = flash_oil(r, step);
    return report(findings, r.in.job, check.rule, step.at,
                  fmt::format("{}, {} the flash point of `{}` ({}): {}", doing(step),
                              over(at.value(), check.limit) ? "over" : "at", model.name(oil),
                              flash_words(r.in, oil, at), consequence),
                  std::move(hint));
}

} // namespace

/// There is a burner or a hot coil under the bath.
void report_scent_over_flash_in_bath(const Model& model, const Reckoning& r,
                                     const LimitCheck& check, Findings& findings) {
    const Step& step = r.in.steps[check.item];
    Finding& finding = report_over_flash(
        model, r, check, "its vapour can light at what heats the bath",
        step.adds_scent ? "write `off heat` before this step, and do it: turn off what heats the "
                          "bath before you open the bottle, and leave it off until the pot is "
                          "empty or cooler than that; air the room"
                        : leftovers_hint(r, *step.temperature(), check.limit),
        findings);
    const Entry* entry = model.entry(flash_oil(r, step), Key::flash_point);
    if (entry != nullptr) relate(model, finding, entry->at, "its flash point");
}

void report_scent_over_flash(const Model& model, const Reckoning& r, const LimitCheck& check,
                             Findings& findings) {
    report_over_flash(model, r, check, "its vapour can light",
                      "no flame near it; put out a burner under the bath too, keep poured vessels "
                      "away from any flame, and air the room",
                      findings);
}

/// An oil whose flash point nobody has said: none of the rules about it can speak.
void check_flash_known(const Model& model, const Reckoning& r, Findings& findings) {
    for (const MatterInput& oil : r.in.oils()) {
        if (!oil.flash.unsaid()) continue;
        report(
            findings, r.in.job, Rule::flash_unknown, model.place_to_change(oil.block, oil.at),
            fmt::format("`{}` has no `flash-point`: nobody knows how hot it may get before its "
                        "vapour can light",
                        model.name(oil.block)),
            "ask its supplier for the safety data sheet, section 9, and write it: `flash-point: … "
            "°C closed cup`; until then no flame and no hot plate near it");
    }
}

} // namespace waxwright
