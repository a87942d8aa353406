#include "check/heat.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/heat_parts.hpp"
#include "check/tell.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

Heated heated(const Model& model, BlockId pot) {
    if (model.unreadable(pot, Key::heated)) return Heated::untold;
    const std::string_view word = model.choice(pot, Key::heated);
    if (word == "water-bath") return Heated::water_bath;
    if (word == "melter") return Heated::melter;
    if (word == "hotplate") return Heated::hotplate;
    if (word == "flame") return Heated::flame;
    if (word == "microwave") return Heated::microwave;
    return Heated::unsaid;
}

} // namespace

Heat heat_of(const Model& model, const Job& job) {
    const Span name_at = model.blocks[job.recipe].name_at;
    // A melter melts the wax for all pots of a batch: it is what stands in the heat.
    if (const Entry* melter = model.entry(job.batch, Key::melter)) {
        const auto named = model.count_list(job.batch, Key::melter);
        if (named.empty()) return {Heated::untold, no_block, melter->at};
        const Heated how = heated(model, named[0].block);
        return {how == Heated::unsaid ? Heated::melter : how, named[0].block, named[0].at};
    }
    if (!job.pot_known) return {Heated::untold, no_block, name_at};
    if (job.pot == no_block) return {Heated::unsaid, no_block, name_at};
    return {heated(model, job.pot), job.pot, job.pot_at};
}

std::string flash_words(const Model& model, BlockId material, const Figure& like) {
    const auto* flash = model.get<Flash>(material, Key::flash_point);
    if (flash == nullptr) return {};
    std::string words = degrees_like(flash->counted, like);
    if (!flash->closed_cup) {
        words += fmt::format(", as {} is not of a closed cup", degrees_like(flash->written, like));
    }
    return words;
}

namespace {

std::string in_blend(const Model& model, const Job& job, BlockId wax) {
    const auto waxes = model.blend(job.recipe, Key::wax);
    return quoted(model.name(wax)) + (waxes.size() > 1 ? " of this blend" : "");
}

void tell_over_ceiling(const Model& model, const Reckoning& reckoning, const Step& step,
                       Findings& findings) {
    const Job& job = reckoning.job;
    const Figure& at = *step.temperature;
    const double ceiling = *reckoning.ceiling;
    Finding& finding =
        tell(findings, job, Rule::over_ceiling, step.at,
             fmt::format("{} is hotter than {} may get ({})", show(at.quantity),
                         in_blend(model, job, reckoning.ceiling_wax), degrees_like(ceiling, at)),
             fmt::format("stay under {}, as the thermometer may be wrong by {};\n{}",
                         degrees_below(ceiling - job.thermometer_error, at),
                         interval_like(job.thermometer_error, at),
                         own_figure(model, reckoning.ceiling_wax, Key::ceiling, "…")));
    offer_cooler(model, finding, at, ceiling - job.thermometer_error);
    const Entry* entry = model.entry(reckoning.ceiling_wax, Key::ceiling);
    if (entry != nullptr) relate(model, finding, entry->at, "its ceiling");
}

void check_over_ceiling(const Model& model, const Reckoning& reckoning, Findings& findings) {
    if (!reckoning.ceiling) return;
    for (const Step& step : model.steps_of(reckoning.job.recipe)) {
        if (is_of_wax(step.verb) && step.temperature &&
            over(step.temperature->value(), *reckoning.ceiling)) {
            tell_over_ceiling(model, reckoning, step, findings);
        }
    }
}

bool error_known(const Model& model, const Job& job) {
    const bool of_batch = model.entry(job.batch, Key::thermometer_error) != nullptr;
    return !model.unreadable(of_batch ? job.batch : job.recipe, Key::thermometer_error);
}

/// A step over the ceiling is not near it: that finding says all.
void check_near_ceiling(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.job;
    if (!reckoning.ceiling || !error_known(model, job)) return;
    const double ceiling = *reckoning.ceiling;
    for (const Step& step : model.steps_of(job.recipe)) {
        if (!is_of_wax(step.verb) || !step.temperature) continue;
        const Figure& at = *step.temperature;
        if (over(at.value(), ceiling) || !at_least(at.value(), ceiling - job.thermometer_error)) {
            continue;
        }
        Finding& finding = tell(
            findings, job, Rule::near_ceiling, step.at,
            fmt::format(
                "{} is so near the ceiling of {} ({}) that with a thermometer wrong by {} the "
                "wax may be over it",
                show(at.quantity), in_blend(model, job, reckoning.ceiling_wax),
                degrees_like(ceiling, at), interval_like(job.thermometer_error, at)),
            fmt::format("stay under {}, or test the thermometer in boiling water and write its "
                        "`thermometer-error`",
                        degrees_below(ceiling - job.thermometer_error, at)));
        offer_cooler(model, finding, at, ceiling - job.thermometer_error);
    }
}

struct WaxFlash {
    BlockId wax = no_block;
    double flash = 0; // °C, counted
};

/// The lowest flash point said of a wax. One unsaid is no high one: nothing follows from it.
WaxFlash lowest_flash(const Model& model, BlockId recipe) {
    WaxFlash lowest;
    for (const Share& share : model.blend(recipe, Key::wax)) {
        const auto* flash = model.get<Flash>(share.material, Key::flash_point);
        if (flash == nullptr) continue;
        if (lowest.wax == no_block || flash->counted < lowest.flash) {
            lowest = {share.material, flash->counted};
        }
    }
    return lowest;
}

void check_wax_flash(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.job;
    const WaxFlash lowest = lowest_flash(model, job.recipe);
    if (lowest.wax == no_block) return;
    for (const Step& step : model.steps_of(job.recipe)) {
        if (!is_of_wax(step.verb) || !step.temperature) continue;
        const Figure& at = *step.temperature;
        if (!at_least(at.value(), lowest.flash - flash_margin)) continue;
        const std::string how = at_least(at.value(), lowest.flash)
                                    ? "at or over"
                                    : "within " + interval_like(flash_margin, at) + " of";
        Finding& finding = tell(
            findings, job, Rule::near_wax_flash, step.at,
            fmt::format("{} is {} the flash point of {} ({})", show(at.quantity), how,
                        in_blend(model, job, lowest.wax), flash_words(model, lowest.wax, at)),
            fmt::format("stay under {}; burning wax is smothered, never put out with water; the "
                        "safety data sheet of your supplier goes first",
                        degrees_below(lowest.flash - flash_margin, at)));
        offer_cooler(model, finding, at, lowest.flash - flash_margin);
        relate(model, finding, model.entry(lowest.wax, Key::flash_point)->at, "its flash point");
    }
}

// The pot and what heats it. Its fault is told at the pot, or where the recipe or batch names it.

void check_pot(const Model& model, const Job& job, const Heat& heat, Findings& findings) {
    if (heat.how == Heated::unsaid) {
        tell(findings, job, Rule::heat_unsaid, heat.at,
             "it is not said how the pot is heated: it counts as standing on the heat",
             "name a `pot` that says how: `heated: water-bath`, for example");
    } else if (heat.how == Heated::microwave) {
        tell(findings, job, Rule::microwave, model.blame(heat.pot, Key::heated, heat.at),
             fmt::format("`{}` is heated in a microwave oven, where nobody can see how hot the wax "
                         "is",
                         model.name(heat.pot)),
             "a part of it gets far hotter than the rest: use a water bath or a melter with a "
             "thermostat");
    } else if (heat.how == Heated::flame || heat.how == Heated::hotplate) {
        tell(findings, job, Rule::direct_heat, model.blame(heat.pot, Key::heated, heat.at),
             fmt::format("`{}` stands straight on a {}, and its bottom gets far hotter than the "
                         "thermometer says",
                         model.name(heat.pot), heat.how == Heated::flame ? "flame" : "hotplate"),
             "stand it in a water bath, or use a melter with a thermostat");
    }
}

void check_bath(const Model& model, const Reckoning& reckoning, const Heat& heat,
                Findings& findings) {
    const Job& job = reckoning.job;
    if (heat.how != Heated::water_bath) return;
    for (const Step& step : model.steps_of(job.recipe)) {
        if (!is_of_wax(step.verb) || !step.temperature) continue;
        const Figure& at = *step.temperature;
        if (!over(at.value(), hottest_in_bath)) continue;
        if (reckoning.ceiling && over(at.value(), *reckoning.ceiling)) continue; // told already
        Finding& finding =
            tell(findings, job, Rule::bath_too_cool, step.at,
                 fmt::format("{} is more than a water bath can give ({})", show(at.quantity),
                             degrees_like(hottest_in_bath, at)),
                 fmt::format("work at {} or under, or use a melter with a thermostat; no oil in "
                             "the bath in place of water",
                             degrees_like(hottest_in_bath, at)));
        offer_cooler(model, finding, at, hottest_in_bath);
    }
}

} // namespace

void check_heat(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Heat heat = heat_of(model, reckoning.job);
    check_over_ceiling(model, reckoning, findings);
    check_near_ceiling(model, reckoning, findings);
    check_wax_flash(model, reckoning, findings);
    check_scent_flash(model, reckoning, heat, findings);
    check_rewarming(model, reckoning, heat, findings);
    check_order(model, reckoning, findings);
    check_work(model, reckoning, findings);
    check_pot(model, reckoning.job, heat, findings);
    check_bath(model, reckoning, heat, findings);
}

void check_heat_in_batch(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.job;
    if (model.entry(job.batch, Key::thermometer_error) != nullptr) {
        check_near_ceiling(model, reckoning, findings);
    }
    if (model.entry(job.batch, Key::pot) == nullptr &&
        model.entry(job.batch, Key::melter) == nullptr) {
        return;
    }
    const Heat heat = heat_of(model, job);
    check_scent_flash(model, reckoning, heat, findings);
    check_rewarming(model, reckoning, heat, findings);
    check_pot(model, job, heat, findings);
    check_bath(model, reckoning, heat, findings);
}

} // namespace waxwright
