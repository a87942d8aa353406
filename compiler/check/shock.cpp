#include "check/shock.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/tell.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// What the vessel is at when the wax is poured, °C, and where it was warmed.
struct VesselTemperature {
    double celsius;
    const Step* warmed = nullptr;
};

void tell_shock(const Model& model, const Job& job, const Step& pour, VesselTemperature vessel,
                const Figure& shock, Findings& findings) {
    const Figure& at = *pour.temperature;
    Finding& finding = tell(
        findings, job, Rule::thermal_shock, pour.at,
        fmt::format("the pour is {} and the vessel {}: {} between them, and `{}` stands {}",
                    show(at.quantity), degrees_like(vessel.celsius, at),
                    interval_like(at.value() - vessel.celsius, at), model.name(job.vessel),
                    interval_like(shock.value(), at)),
        fmt::format("write `warm vessels to {}` in front of it, or pour at {} or under: glass that "
                    "cracks lets hot wax out",
                    degrees_above(at.value() - shock.value(), at),
                    degrees_below(vessel.celsius + shock.value(), at)));
    if (vessel.warmed != nullptr) relate(model, finding, vessel.warmed->at, "the vessel is warmed");
    relate(model, finding, model.entry(job.vessel, Key::shock)->at, "what it stands");
}

} // namespace

/// The jump a vessel stands is its supplier's figure; none is made up where it is unsaid. For
/// candle glass ASTM F2179 wants at least 50 C° (from memory of it), which says nothing of this
/// vessel.
void check_shock(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.job;
    const auto* shock = model.get<Figure>(job.vessel, Key::shock);
    if (shock == nullptr) return;
    VesselTemperature vessel{job.room};
    for (const Step& step : model.steps_of(job.recipe)) {
        if (step.verb == Verb::warm_vessels) {
            if (!step.temperature) return;
            vessel = {step.temperature->value(), &step};
        }
        if (step.verb != Verb::pour || !step.temperature) continue;
        // A step that could not be read may have warmed it.
        const bool known = job.room_known && !model.blocks[job.recipe].steps_broken;
        if (vessel.warmed == nullptr && !known) return;
        if (over(step.temperature->value() - vessel.celsius, shock->value())) {
            tell_shock(model, job, step, vessel, *shock, findings);
        }
        return;
    }
}

} // namespace waxwright
