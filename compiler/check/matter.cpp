#include "check/matter.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "reckon/loads.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// What an oil or additive is dissolved in, and whether its supplier makes it for candles.
void check_material(const Model& model, const Job& job, const Share& share, Findings& findings) {
    const BlockId id = share.material;
    const Choice base = model.choice(id, Key::base);
    if (base == Choice::water) {
        report(findings, job, Rule::water_based, model.place_to_change(id, Key::base, share.at),
               fmt::format("`{}` is water-based: water boils under hot wax and throws it out",
                           model.name(id)),
               "use one that is dissolved in oil");
    } else if (base == Choice::alcohol) {
        report(findings, job, Rule::alcohol_based, model.place_to_change(id, Key::base, share.at),
               fmt::format("`{}` is alcohol-based: its vapour lights far under the heat of the wax",
                           model.name(id)),
               "use one that is dissolved in oil");
    }
    if (model.choice(id, Key::made_for) == Choice::unknown) {
        report(findings, job, Rule::not_for_candles,
               model.place_to_change(id, Key::made_for, share.at),
               fmt::format("nobody says that `{}` is made for candles", model.name(id)),
               "ask its supplier, and write `made-for: candles` when they say so");
    }
}

/// A substance in an oil of which nothing says how it is classed: it may be anything.
void check_contents(const Model& model, const Job& job, const Share& oil, Findings& findings) {
    for (const Share& part : model.blend(oil.material, Key::contains)) {
        const BlockId id = part.material;
        if (model.hazards_of(id) || model.unreadable(id, Key::hazards)) continue;
        const Span use = model.place_to_change(oil.material, Key::contains, oil.at);
        report(findings, job, Rule::class_unknown, model.place_to_change(id, use),
               fmt::format("`{}` has no hazard class: it counts as unknown, not as harmless",
                           model.name(id)),
               "copy its classes from section 3 of the oil's safety data sheet, as `hazards: "
               "skin-sens-1b, eye-irrit-2`; or write `hazards: none` where its supplier gives "
               "none");
    }
}

/// An `in-wax` or `on-wax` thing becomes a second wick.
void check_extra(const Model& model, const Job& job, const Count& extra, Findings& findings) {
    const Choice goes = model.choice(extra.block, Key::goes);
    if (goes != Choice::on_wax && goes != Choice::in_wax) return;
    report(findings, job, Rule::decoration_burns,
           model.place_to_change(extra.block, Key::goes, extra.at),
           fmt::format("`{}` goes {} the wax, where it catches fire", model.name(extra.block),
                       goes == Choice::on_wax ? "on" : "in"),
           "leave it out, or tie it to the outside (`goes: outside`), to be taken off before "
           "lighting");
}

void check_additive_steps(const Model& model, const Job& job, Findings& findings) {
    const Step* scented = nullptr;
    for (const Step& step : model.steps_of(job.recipe)) {
        if (step.verb != Verb::add) continue;
        if (step.adds_scent) {
            if (scented == nullptr) scented = &step;
        } else if (scented != nullptr && step.material != no_block) {
            Finding& finding =
                report(findings, job, Rule::additive_after_scent, step.at,
                       fmt::format("`{}` goes in after the scent", model.name(step.material)),
                       "add it before the scent: mixing it in keeps the scent hot for longer");
            relate(model, finding, scented->at, "the scent goes in here");
        }
    }
}

void check_liquid_density(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const auto waxes = reckoning.in.waxes();
    for (const BlockId wax : reckoning.no_liquid_density) {
        const auto share =
            std::find_if(waxes.begin(), waxes.end(),
                         [&](const MatterInput& candidate) { return candidate.block == wax; });
        if (share == waxes.end() || model.unreadable(wax, Key::liquid_density)) continue;
        report(
            findings, reckoning.in.job, Rule::liquid_density_missing,
            model.place_to_change(wax, share->at),
            fmt::format("`{}` has no `liquid-density`: pour to the line, not to a weight",
                        model.name(wax)),
            "the weights are those of solid wax, so there is rather too much than too little; its "
            "supplier\nmay know the density, or weigh a full measure of it melted and write "
            "`liquid-density: … at … °C`");
    }
}

/// Two densities with a slip in one of them: followed on to the heat of the steps, nothing is left.
void check_liquid_left(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const BlockId wax = reckoning.no_liquid_left;
    if (wax == no_block) return;
    const Entry* entry = model.entry(wax, Key::liquid_density);
    const auto waxes = reckoning.in.waxes();
    const auto share = std::find_if(waxes.begin(), waxes.end(),
                                    [&](const MatterInput& each) { return each.block == wax; });
    if (entry == nullptr || share == waxes.end()) return;
    report(findings, reckoning.in.job, Rule::out_of_range,
           model.place_to_change(wax, Key::liquid_density, share->at),
           fmt::format("by these densities `{}` weighs nothing at the temperatures of the steps of "
                       "`{}`",
                       model.name(wax), model.name(reckoning.in.job.recipe)),
           "a melted wax loses a hundredth of its density in 10 to 15 C°: look at both figures and "
           "their\ntemperatures, or give one only");
}

/// What is too hot for the wax, or too cold to be poured, is told as that.
void check_density_near(const Model& model, const Reckoning& r, Findings& findings) {
    const MatterInput* wax = r.density_far != no_block ? matter_of(r.in, r.density_far) : nullptr;
    if (wax == nullptr) return;
    const bool hot = r.hottest && r.ceiling && over(*r.hottest, *r.ceiling);
    const bool cold = r.pour_at && r.sets && under(*r.pour_at, *r.sets);
    if (hot || cold) return;
    report(
        findings, r.in.job, Rule::out_of_range,
        model.place_to_change(wax->block, Key::liquid_density, wax->at),
        fmt::format("the steps of `{}` are more than 40 C° away from where the liquid density of "
                    "`{}` was measured: nothing can be weighed out by it",
                    model.name(r.in.job.recipe), model.name(wax->block)),
        "measure it melted, near the temperature of the pour, and write that temperature after "
        "`at`; or "
        "leave `liquid-density` out and pour to the line");
}

void check_shrinkage(const Model& model, const Reckoning& reckoning, Findings& findings) {
    if (!reckoning.no_shrinkage) return;
    for (const Step& step : model.steps_of(reckoning.in.job.recipe)) {
        if (step.verb != Verb::second_pour) continue;
        report(
            findings, reckoning.in.job, Rule::no_shrinkage, step.at,
            "by its densities this wax does not shrink, so nothing is kept back for a second pour",
            "take the second pour out, or look at `density` and `liquid-density`: the solid is "
            "the denser one");
        return;
    }
}

/// What is kept back and never poured.
void check_kept_for_nothing(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const BlockId recipe = reckoning.in.job.recipe;
    // Without a pour at all there is another fault, and this may be its doing.
    if (reckoning.second_pour || reckoning.in.steps_broken || !reckoning.pour_at) return;
    for (const Key key : {Key::keep, Key::keep_in}) {
        const Entry* entry = model.entry(recipe, key);
        if (entry == nullptr || model.unreadable(recipe, key)) continue;
        report(findings, reckoning.in.job, Rule::keep_amount, entry->at,
               "wax is kept back, and no step pours a second time: it is not weighed out",
               fmt::format("add a `second pour at` after a `leave`, or take `{}` out", word(key)));
        return;
    }
}

} // namespace

void report_keep_amount(const Model& model, const Reckoning& r, const LimitCheck& check,
                        Findings& findings) {
    const Job& job = r.in.job;
    const Entry* entry = model.entry(job.recipe, Key::keep);
    const bool total = r.in.keep.share && r.in.keep.share->basis == Basis::total;
    std::string enough = show_in(std::ceil(check.limit - 1e-6), no_unit, dimension::mass);
    if (!r.in.keep.mass) {
        // Of all that is melted for a vessel, or of the wax in it; up to a whole percent.
        const double all = *r.first_pour_g + check.limit;
        const double of = total ? all : wax_in(all, *r.load_of_wax, *r.additives);
        enough = fmt::format("{}% {}", show_number(std::ceil(check.limit / of * 100 - 1e-6), 0),
                             basis_code(total ? Basis::total : Basis::wax));
    }
    report(
        findings, job, check.rule, entry->at,
        fmt::format("{} is kept back for each vessel, and what sinks takes up to {}: the second "
                    "pour does not reach the line",
                    mass(model, job, check.value), mass(model, job, check.limit)),
        fmt::format("write `keep: {}` or more, or take the line out: then as much is kept back as "
                    "the second pour needs",
                    enough));
}

void check_matter(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    // What a leftover brings is told at the leftover.
    for (const auto matter : {reckoning.in.oils(), reckoning.in.additives()}) {
        for (const MatterInput& each : matter)
            check_material(model, job, {each.block, each.share, each.at}, findings);
    }
    for (const MatterInput& oil : reckoning.in.oils())
        check_contents(model, job, {oil.block, oil.share, oil.at}, findings);
    for (const Count& extra : model.count_list(job.recipe, Key::extras))
        check_extra(model, job, extra, findings);
    check_additive_steps(model, job, findings);
    check_liquid_density(model, reckoning, findings);
    check_liquid_left(model, reckoning, findings);
    check_density_near(model, reckoning, findings);
    check_shrinkage(model, reckoning, findings);
    check_kept_for_nothing(model, reckoning, findings);
}

} // namespace waxwright
