// The flash point of a scent matters where its vapour can meet what heats the pot. It is not where
// scent is lost.
#include <utility>

#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/heat_parts.hpp"
#include "check/limits.hpp"
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

std::string heat_words(const Model& model, const HeatInput& heat) {
    if (heat.how == Heated::unsaid) return "with the pot on the heat";
    const std::string_view on = heat.how == Heated::flame      ? "on a flame"
                                : heat.how == Heated::hotplate ? "on a hotplate"
                                                               : "in a microwave oven";
    return fmt::format("with `{}` {}", model.name(heat.pot), on);
}

} // namespace

/// Both rules of scent that goes in on the heat: at or over its flash point, and near it.
void tell_flash_on_heat(const Model& model, const Reckoning& r, const LimitCheck& check,
                        Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature;
    std::string near = "at";
    if (over(at.value(), *r.scent_flash)) near = "over";
    if (!at_least(at.value(), *r.scent_flash)) {
        near = "within " + interval_like(flash_margin, at) + " of";
    }
    Finding& finding =
        tell(findings, r.in.job, check.rule, step.at,
             fmt::format("scent goes in at {} {}, {} the flash point of `{}` ({})",
                         show(at.quantity), heat_words(model, r.in.heat), near,
                         model.name(r.flash_oil), flash_words(r.in, r.flash_oil, at)),
             scent_hint(model, r.in.job, r.in.heat.how));
    const Entry* entry = model.entry(r.flash_oil, Key::flash_point);
    if (entry != nullptr) relate(model, finding, entry->at, "its flash point");
}

void tell_rewarmed(const Model& model, const Reckoning& r, const LimitCheck& check,
                   Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature;
    // Under its melting point it can't be poured: no advice to go there.
    std::string hint = "warm it in a water bath";
    if (r.melted_at && over(check.limit, *r.melted_at)) {
        hint += ", or to less than " + degrees_like(check.limit, at);
    }
    tell(findings, r.in.job, check.rule, step.at,
         fmt::format("the wax kept back is warmed to {} with the scent in it, on a {}: the flash "
                     "point of `{}` is {}",
                     show(at.quantity), r.in.heat.how == Heated::flame ? "flame" : "hotplate",
                     model.name(r.flash_oil), flash_words(r.in, r.flash_oil, at)),
         std::move(hint));
}

/// Off the heat, or in a bath: a note.
void check_scent_flash(const Model& model, const Reckoning& r, Findings& findings) {
    if (!r.scent_flash) return;
    const double flash = *r.scent_flash;
    const bool in_bath = r.in.heat.how == Heated::water_bath || r.in.heat.how == Heated::melter;
    bool off_heat = false;
    for (const Step& step : r.in.steps) {
        if (step.verb == Verb::off_heat) off_heat = true;
        if (step.verb == Verb::melt) off_heat = false; // it went back on
        if (!step.adds_scent || !step.temperature || (!off_heat && !in_bath)) continue;
        const Figure& at = *step.temperature;
        if (!at_least(at.value(), flash)) continue;
        tell(findings, r.in.job, Rule::scent_over_flash, step.at,
             fmt::format("scent goes in at {}, {} the flash point of `{}` ({}): its vapour can "
                         "light",
                         show(at.quantity), over(at.value(), flash) ? "over" : "at",
                         model.name(r.flash_oil), flash_words(r.in, r.flash_oil, at)),
             "no flame near it, a burner under the bath out too, and air the room");
    }
}

} // namespace waxwright
