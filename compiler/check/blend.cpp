#include "check/blend.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "check/report.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// A step to write, at the lower end of what the largest wax wants.
std::string add_step(const Model& model, const Reckoning& reckoning) {
    const auto* range = model.get<Range>(reckoning.largest_wax, Key::scent_at);
    const std::string at = range != nullptr ? show(range->low) : "… °C";
    return fmt::format("`add scent at {}, stir 2 min`", at);
}

void check_scent_without_load(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const BlockId recipe = reckoning.in.job.recipe;
    const Entry* scent = model.entry(recipe, Key::scent);
    const Entry* load = model.entry(recipe, Key::load);
    if (scent != nullptr && load == nullptr && !model.unreadable(recipe, Key::load)) {
        std::string hint = "write how much of it: `load: … of wax`";
        if (reckoning.limit_of_wax) {
            hint += fmt::format("; the wax here holds {} of its weight at most",
                                percent_down(*reckoning.limit_of_wax));
        }
        report(findings, reckoning.in.job, Rule::scent_without_load, scent->at,
               "there is a scent and no `load` that says how much of it", std::move(hint));
    } else if (load != nullptr && scent == nullptr && !model.unreadable(recipe, Key::scent)) {
        report(findings, reckoning.in.job, Rule::scent_without_load, load->at,
               "there is a `load` and no scent to put in",
               "write what the scent is: `scent: NAME`; a candle without scent has no `load`");
    }
    const auto* share = model.get<Load>(recipe, Key::load);
    if (scent != nullptr && share != nullptr && share->fraction == 0) {
        report(findings, reckoning.in.job, Rule::scent_without_load, load->at,
               "there is a scent, and a load of 0 % takes none of it",
               "write how much: `load: 6% of wax`, for example; a candle without scent has neither "
               "`scent` nor `load`");
    }
}

void check_scent_not_added(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const BlockId recipe = reckoning.in.job.recipe;
    const Block& block = model.blocks[recipe];
    const auto steps = model.steps_of(recipe);
    const auto add =
        std::find_if(steps.begin(), steps.end(), [](const Step& step) { return step.adds_scent; });
    const Entry* scent = model.entry(recipe, Key::scent);
    if (scent != nullptr && add == steps.end() && block.has_steps && !block.steps_broken) {
        report(findings, reckoning.in.job, Rule::scent_not_added, scent->at,
               "the scent is never added: no step says `add scent`",
               fmt::format("write `off heat` and {} between `melt` and `pour`",
                           add_step(model, reckoning)));
    } else if (add != steps.end() && scent == nullptr && !model.unreadable(recipe, Key::scent)) {
        report(findings, reckoning.in.job, Rule::scent_not_added, add->at,
               "there is no scent to add: the recipe has no `scent`",
               "write `scent: NAME` and a `load`, or take this step out");
    }
}

} // namespace

void check_blend(const Model& model, const Reckoning& reckoning, Findings& findings) {
    check_scent_without_load(model, reckoning, findings);
    check_scent_not_added(model, reckoning, findings);
}

} // namespace waxwright
