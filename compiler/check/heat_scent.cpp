// The flash point of a scent matters where its vapour can meet what heats the pot. It is not where
// scent is lost.
#include <utility>

#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/heat_parts.hpp"
#include "check/limits.hpp"
#include "check/report.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

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
    std::string near = "at";
    if (over(at.value(), *r.scent_flash)) near = "over";
    if (!at_least(at.value(), *r.scent_flash)) {
        near = "within " + interval_like(flash_margin, at) + " of";
    }
    Finding& finding =
        report(findings, r.in.job, check.rule, step.at,
               fmt::format("scent goes in at {} {}, {} the flash point of `{}` ({})",
                           show(at.quantity), heat_words(model, r.in.heat), near,
                           model.name(r.flash_oil), flash_words(r.in, r.flash_oil, at)),
               scent_hint(model, r.in.job, r.in.heat.how));
    const Entry* entry = model.entry(r.flash_oil, Key::flash_point);
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
    return report(findings, r.in.job, check.rule, step.at,
                  fmt::format("scent goes in at {}, {} the flash point of `{}` ({}): {}",
                              show(at.quantity), over(at.value(), check.limit) ? "over" : "at",
                              model.name(r.flash_oil), flash_words(r.in, r.flash_oil, at),
                              consequence),
                  std::move(hint));
}

} // namespace

/// There is a burner or a hot coil under the bath.
void report_scent_over_flash_in_bath(const Model& model, const Reckoning& r,
                                     const LimitCheck& check, Findings& findings) {
    Finding& finding = report_over_flash(
        model, r, check, "its vapour can light at what heats the bath",
        "write `off heat` before this step, and do it: turn off what heats the "
        "bath before you open the bottle, and leave it off until the pot is empty "
        "or cooler than that; air the room",
        findings);
    const Entry* entry = model.entry(r.flash_oil, Key::flash_point);
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
