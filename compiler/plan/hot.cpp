// What stays hot through the day: the melter, and what no plan can put off.
#include <algorithm>

#include <fmt/format.h>

#include "plan/parts.hpp"
#include "reckon/timeline.hpp"
#include "reckon/weigh.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr double a_minute = 60;

/// The shares of the melter's waxes, weighed out to the division of the first recipe's scale.
MeltPlan melt_part(const Model& model, const PotInput& melter, std::span<const Reckoning> lines,
                   const Timeline& time, std::size_t index) {
    const Melting& melting = time.meltings[index];
    const Reckoning& first = lines[melting.lines.front()];
    MeltPlan plan;
    plan.name = model.name(melter.block);
    plan.in_bath = melter.heated == Heated::water_bath;
    plan.fillings = melting.fillings;
    plan.celsius = melting.celsius;
    plan.volume_ml = melting.volume_ml;
    for (const MelterFilling& filling : time.melter) {
        if (filling.melting != index || !(filling.left > 0)) continue;
        plan.refilled_ml =
            std::max(plan.refilled_ml, melting.volume_ml * (1 + filling.left / melting.grams));
    }
    plan.recipes = melting.lines;
    if (melting.seconds) plan.minutes = *melting.seconds / a_minute;
    std::vector<double> exact;
    for (const Part& part : first.parts) {
        if (part.kind != MatterKind::wax) continue;
        exact.push_back(melting.grams * part.share);
        plan.lines.push_back({PlanKind::wax, std::string(model.name(part.material)), 0});
    }
    std::vector<double> weighed(exact.size());
    plan.division_g =
        first.division_g > 0 ? first.division_g : usual_division(exact, first.in.ounces);
    plan.weighed_g = weigh_out(exact, plan.division_g, weighed);
    for (std::size_t i = 0; i < weighed.size(); ++i)
        plan.lines[i].grams = weighed[i];
    return plan;
}

/// What no plan can put off is said among the dangers: once of the melter, with the lowest flash
/// point, and once of each recipe that warms what it kept back.
void say_heat_that_stays_on(const Model& model, std::span<const Reckoning> lines,
                            const Timeline& time, bool melter, Plan& plan) {
    CautionLine said{Rule::scent_over_flash, Severity::warning, {}, {}, {}, {}};
    std::optional<double> lowest;
    for (const HeatStaysOn& note : time.heat_stays_on) {
        if (note.melter != melter) continue;
        const Reckoning& line = lines[note.line];
        if (line.scent_flash) lowest = std::min(lowest.value_or(1000), *line.scent_flash);
        said.recipes.emplace_back(model.name(line.in.job.recipe));
    }
    if (said.recipes.empty()) return;
    if (said.recipes.size() == lines.size()) said.recipes.clear();
    const std::string flash =
        lowest ? "the scent's flash point, " + show_temperature(*lowest, plan.us_units)
               : std::string("the scent's flash point");
    if (melter) {
        said.text = fmt::format("the melter stays hot while scent goes in at or over {}", flash);
        said.hint = "carry each jug well away from the melter before you open the bottle, keep the "
                    "lid on the melter, and air the room";
    } else {
        said.text = fmt::format("the wax kept back is warmed to or over {}", flash);
        said.hint =
            "in a bowl of hot water, lid on, well away from any flame or hot plate; air the room";
    }
    plan.cautions.push_back(std::move(said));
}

bool is_of_flash_points(Rule rule) {
    return rule == Rule::scent_over_flash || rule == Rule::scent_over_flash_on_heat ||
           rule == Rule::scent_over_flash_in_bath || rule == Rule::scent_near_flash_on_heat ||
           rule == Rule::flash_unknown;
}

/// By the thermometer a scent goes in under its flash point, and it may be over it: no rule is
/// broken, and the steps mind it, so the dangers name it too.
void say_near_flash(const Reckoning& line, const std::string& recipe, Plan& plan) {
    const std::span<const Step> steps = line.in.steps;
    const bool lights = std::any_of(steps.begin(), steps.end(), [&](const Step& step) {
        return step.adds_scent && can_light(line, step);
    });
    const bool told =
        std::any_of(plan.cautions.begin(), plan.cautions.end(), [&](const CautionLine& caution) {
            const auto& whose = caution.recipes;
            return is_of_flash_points(caution.rule) &&
                   (whose.empty() || std::find(whose.begin(), whose.end(), recipe) != whose.end());
        });
    if (!lights || told || !line.scent_flash) return;
    const std::string flash = show_temperature(*line.scent_flash, plan.us_units);
    plan.cautions.push_back({Rule::scent_over_flash,
                             Severity::note,
                             fmt::format("the scent goes in near its flash point, {}", flash),
                             "no flame and no hot plate near it, and air the room",
                             std::nullopt,
                             {recipe},
                             false});
}

/// By the thermometer the leftovers melt under the flash point of the scent in them, and the wax
/// may be over it: no rule is broken, and nothing else is told of it.
void say_near_flash_of_leftovers(const Reckoning& line, const std::string& recipe, Plan& plan) {
    const Heated how = line.in.heat.how;
    const bool bath = how == Heated::water_bath || how == Heated::melter; // else it is told sooner
    if (!bath || !line.brought_flash) return; // that it is unknown is told
    const double flash = *line.brought_flash;
    const double error = line.in.error_of_thermometer();
    for (const Step& step : line.in.steps) {
        if (step.adds_scent || is_pour(step.verb)) return;
        if (step.verb != Verb::melt || !step.temperature()) continue;
        const double at = step.temperature()->value();
        if (at >= flash || at + error < flash * (1 - 1e-9)) continue;
        plan.cautions.push_back(
            {Rule::scent_over_flash_in_bath,
             Severity::warning,
             fmt::format("the leftovers melt so near the flash point of their scent, {}, that the "
                         "thermometer may hide that they are over it",
                         show_temperature(flash, plan.us_units)),
             "lid on, nobody leaves it, no other flame in the room",
             std::nullopt,
             {recipe},
             false});
        return;
    }
}

/// Warm air over its top melts scented wax again.
void say_smoothing(const Reckoning& line, const std::string& recipe, Plan& plan) {
    const std::span<const Step> steps = line.in.steps;
    const bool smooths = std::any_of(
        steps.begin(), steps.end(), [](const Step& step) { return step.verb == Verb::smooth_top; });
    if (!smooths || line.in.oils().empty() || !line.melted_at) return;
    const double error = line.in.error_of_thermometer();
    if (line.scent_flash && *line.melted_at + error < *line.scent_flash) return;
    plan.cautions.push_back({Rule::rewarm_over_flash,
                             Severity::warning,
                             "smoothing melts scented wax, and its vapour can light",
                             "one vessel at a time, the others well away, and air the room",
                             std::nullopt,
                             {recipe},
                             false});
}

} // namespace

void add_melts(const Model& model, const PotInput& melter, std::span<const Reckoning> lines,
               const Timeline& time, Plan& plan) {
    for (std::size_t i = 0; i < time.meltings.size(); ++i)
        plan.melts.push_back(melt_part(model, melter, lines, time, i));
}

void add_heat_that_stays_on(const Model& model, std::span<const Reckoning> lines,
                            const Timeline& time, Plan& plan) {
    for (const Reckoning& line : lines) {
        const std::string recipe(model.name(line.in.job.recipe));
        say_near_flash(line, recipe, plan);
        say_near_flash_of_leftovers(line, recipe, plan);
        say_smoothing(line, recipe, plan);
    }
    for (const bool melter : {true, false})
        say_heat_that_stays_on(model, lines, time, melter, plan);
}

} // namespace waxwright
