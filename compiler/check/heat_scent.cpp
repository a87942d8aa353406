// The flash point of a scent matters where its vapour can meet what heats the pot. It is not where
// scent is lost.
#include <utility>

#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/heat_parts.hpp"
#include "check/tell.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

std::string scent_hint(const Model& model, const Job& job, Heated how) {
    std::string hint = "write `off heat` in front of this step and do so: flame or plate off, the "
                       "pot away from it, the room aired";
    if (how == Heated::unsaid) {
        hint += ";\nor say how the pot is heated, where it is a water bath or a melter (`heated:`)";
    }
    if (model.blend(job.recipe, Key::scent).size() > 1) {
        hint += ";\na blend can light at less than any of its oils";
    }
    return hint + "; the safety data sheet of the oil goes first";
}

std::string heat_words(const Model& model, const Heat& heat) {
    if (heat.how == Heated::unsaid) return "with the pot on the heat";
    const std::string_view on = heat.how == Heated::flame      ? "on a flame"
                                : heat.how == Heated::hotplate ? "on a hotplate"
                                                               : "in a microwave oven";
    return fmt::format("with `{}` {}", model.name(heat.pot), on);
}

void tell_on_heat(const Model& model, const Reckoning& reckoning, const Step& step,
                  const Heat& heat, Findings& findings) {
    const Job& job = reckoning.job;
    const Figure& at = *step.temperature;
    const double flash = *reckoning.scent_flash;
    const bool reached = at_least(at.value(), flash);
    std::string near = "at";
    if (over(at.value(), flash)) near = "over";
    if (!reached) near = "within " + interval_like(flash_margin, at) + " of";
    Finding& finding = tell(
        findings, job, reached ? Rule::scent_over_flash_on_heat : Rule::scent_near_flash_on_heat,
        step.at,
        fmt::format("scent goes in at {} {}, {} the flash point of `{}` ({})", show(at.quantity),
                    heat_words(model, heat), near, model.name(reckoning.flash_oil),
                    flash_words(model, reckoning.flash_oil, at)),
        scent_hint(model, job, heat.how));
    const Entry* entry = model.entry(reckoning.flash_oil, Key::flash_point);
    if (entry != nullptr) relate(model, finding, entry->at, "its flash point");
}

} // namespace

void check_scent_flash(const Model& model, const Reckoning& reckoning, const Heat& heat,
                       Findings& findings) {
    if (!reckoning.scent_flash) return;
    const Job& job = reckoning.job;
    const double flash = *reckoning.scent_flash;
    // A step that could not be read may have been `off heat`.
    const bool sure = heat.how != Heated::untold && !model.blocks[job.recipe].steps_broken;
    bool off_heat = false;
    for (const Step& step : model.steps_of(job.recipe)) {
        if (step.verb == Verb::off_heat) off_heat = true;
        if (step.verb == Verb::melt) off_heat = false; // it went back on
        if (!step.adds_scent || !step.temperature) continue;
        const double at = step.temperature->value();
        if (!at_least(at, flash - flash_margin)) continue;
        if (off_heat || heat.how == Heated::water_bath || heat.how == Heated::melter) {
            if (at_least(at, flash)) {
                tell(findings, job, Rule::scent_over_flash, step.at,
                     fmt::format("scent goes in at {}, {} the flash point of `{}` ({}): its vapour "
                                 "can light",
                                 show(step.temperature->quantity), over(at, flash) ? "over" : "at",
                                 model.name(reckoning.flash_oil),
                                 flash_words(model, reckoning.flash_oil, *step.temperature)),
                     "no flame near it, a burner under the bath out too, and air the room");
            }
        } else if (sure) {
            tell_on_heat(model, reckoning, step, heat, findings);
        }
    }
}

/// A second pour behind a `leave` warms wax that has the scent in it.
void check_rewarming(const Model& model, const Reckoning& reckoning, const Heat& heat,
                     Findings& findings) {
    if (!reckoning.scent_flash) return;
    const Job& job = reckoning.job;
    if (heat.how != Heated::flame && heat.how != Heated::hotplate) return;
    bool left = false;
    for (const Step& step : model.steps_of(job.recipe)) {
        if (step.verb == Verb::leave) left = true;
        if (step.verb != Verb::second_pour || !left || !step.temperature) continue;
        const Figure& at = *step.temperature;
        if (!at_least(at.value(), *reckoning.scent_flash)) continue;
        // Under its melting point it can't be poured: no advice to go there.
        std::string hint = "warm it in a water bath";
        if (reckoning.melted_at && over(*reckoning.scent_flash, *reckoning.melted_at)) {
            hint += ", or to less than " + degrees_like(*reckoning.scent_flash, at);
        }
        tell(findings, job, Rule::rewarm_over_flash, step.at,
             fmt::format("the wax kept back is warmed to {} with the scent in it, on a {}: the "
                         "flash point of `{}` is {}",
                         show(at.quantity), heat.how == Heated::flame ? "flame" : "hotplate",
                         model.name(reckoning.flash_oil),
                         flash_words(model, reckoning.flash_oil, at)),
             std::move(hint));
    }
}

} // namespace waxwright
