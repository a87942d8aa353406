// The temperatures to work at: scent and pour beside what the wax wants.
#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/heat_parts.hpp"
#include "check/limits.hpp"
#include "check/tell.hpp"
#include "units/show.hpp"

namespace waxwright {

void tell_scent_cold(const Model&, const Reckoning& r, const LimitCheck& check,
                     Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature;
    tell(findings, r.in.job, check.rule, step.at,
         fmt::format("scent goes in at {}, and the wax begins to set at {}", show(at.quantity),
                     degrees_like(check.limit, at)),
         fmt::format("it will not mix: add it at {} or over", degrees_above(check.limit, at)));
}

void tell_pour_cold(const Model&, const Reckoning& r, const LimitCheck& check, Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature;
    tell(findings, r.in.job, check.rule, step.at,
         fmt::format("the wax is poured at {} and begins to set at {}", show(at.quantity),
                     degrees_like(check.limit, at)),
         fmt::format("it sets with folds and hollows: pour at {} or over",
                     degrees_above(check.limit, at)));
}

namespace {

/// The range a wax wants for `what`, strictly outside of it.
void check_range(const Model& model, const Reckoning& reckoning, const Step& step, Rule rule,
                 Key key, Findings& findings) {
    const auto* range = model.get<Range>(reckoning.largest_wax, key);
    if (range == nullptr) return;
    const Figure& at = *step.temperature;
    const bool low = under(at.value(), range->low.value);
    if (!low && !over(at.value(), range->high)) return;
    const Job& job = reckoning.in.job;
    const bool blend = model.blend(job.recipe, Key::wax).size() > 1;
    const std::string bounds =
        range_words(range->low.value, range->high, at.quantity.unit, dimension::point);
    Finding& finding =
        tell(findings, job, rule, step.at,
             fmt::format("{} at {}, {} than `{}`{} wants it ({})",
                         step.adds_scent ? "scent goes in" : "the wax is poured", show(at.quantity),
                         low ? "colder" : "hotter", model.name(reckoning.largest_wax),
                         blend ? ", the most of this blend," : "", bounds),
             fmt::format("go {} {}; or, where it works for you, `allow {} because \"…\"`",
                         low ? "up to" : "down to",
                         degrees_like(low ? range->low.value : range->high, at), info(rule).name));
    relate(model, finding, model.entry(reckoning.largest_wax, key)->at, "what it wants");
}

/// Scent that was put in cool is lost where the wax gets hotter again.
void check_heat_after_scent(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Step* scented = nullptr; // the coolest so far that added scent
    for (const Step& step : model.steps_of(reckoning.in.job.recipe)) {
        if (!step.temperature || !is_of_wax(step.verb)) continue;
        const Figure& at = *step.temperature;
        // A melt behind the scent is steps-out-of-order.
        if (scented != nullptr && step.verb != Verb::second_pour && step.verb != Verb::melt &&
            over(at.value(), scented->temperature->value())) {
            const std::string went = degrees_like(scented->temperature->value(), at);
            Finding& finding = tell(
                findings, reckoning.in.job, Rule::heat_after_scent, step.at,
                fmt::format("{} is hotter than the scent went in ({})", show(at.quantity), went),
                fmt::format("do this at {} or under, or add the scent later", went));
            relate(model, finding, scented->at, "the scent goes in here");
        }
        if (step.adds_scent && (scented == nullptr || at.value() < scented->temperature->value())) {
            scented = &step;
        }
    }
}

} // namespace

void check_work(const Model& model, const Reckoning& reckoning, Findings& findings) {
    for (const Step& step : model.steps_of(reckoning.in.job.recipe)) {
        if (!step.temperature) continue;
        if (step.adds_scent) {
            check_range(model, reckoning, step, Rule::scent_at_range, Key::scent_at, findings);
        } else if (step.verb == Verb::pour) {
            check_range(model, reckoning, step, Rule::pour_at_range, Key::pour_at, findings);
        }
    }
    check_heat_after_scent(model, reckoning, findings);
}

} // namespace waxwright
