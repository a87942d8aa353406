#include "check/heat.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "check/heat_parts.hpp"
#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "units/show.hpp"

namespace waxwright {

std::string flash_words(const Inputs& in, BlockId material, const Figure& like) {
    const MatterInput* matter = matter_of(in, material);
    const Flash* flash = matter != nullptr ? matter->flash.get() : nullptr;
    if (flash == nullptr) return {};
    std::string words = degrees_like(low_end(*flash), like);
    if (!flash->closed_cup) {
        words += fmt::format(", as {} is not of a closed cup", degrees_like(flash->written, like));
    }
    if (flash->doubt > 0) {
        words += fmt::format(", the low end of {} +- {}", degrees_like(flash->written, like),
                             interval_like(flash->doubt, like));
    }
    return words;
}

std::string in_blend(const Model& model, const Inputs& in, BlockId wax) {
    return quoted(model.name(wax)) + (in.waxes().size() > 1 ? " of this blend" : "");
}

void report_over_ceiling(const Model& model, const Reckoning& r, const LimitCheck& check,
                         Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    const double error = r.in.error_of_thermometer();
    Finding& finding =
        report(findings, r.in.job, check.rule, step.at,
               fmt::format("{} is hotter than {} may get ({})", show(at.quantity),
                           in_blend(model, r.in, r.ceiling_wax), degrees_like(check.limit, at)),
               fmt::format("stay below {}, as the thermometer may be wrong by {};\n{}",
                           degrees_below(check.limit - error, at), interval_like(error, at),
                           own_figure(model, r.ceiling_wax, Key::ceiling, "…")));
    offer_cooler(model, finding, at, check.limit - error);
    const Entry* entry = model.entry(r.ceiling_wax, Key::ceiling);
    if (entry != nullptr) relate(model, finding, entry->at, "its ceiling");
}

void report_near_ceiling(const Model& model, const Reckoning& r, const LimitCheck& check,
                         Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    Finding& finding = report(
        findings, r.in.job, check.rule, step.at,
        fmt::format("{} is so near the ceiling of {} ({}) that with a thermometer wrong by {} "
                    "the wax may be over it",
                    show(at.quantity), in_blend(model, r.in, r.ceiling_wax),
                    degrees_like(*r.ceiling, at), interval_like(r.in.error_of_thermometer(), at)),
        fmt::format("stay below {}, or test the thermometer in boiling water and write its "
                    "`thermometer-error`",
                    degrees_below(check.limit, at)));
    offer_cooler(model, finding, at, check.limit);
}

void report_near_wax_flash(const Model& model, const Reckoning& r, const LimitCheck& check,
                           Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    const BlockId wax = r.wax_flash_of;
    const std::string how = at_least(at.value(), *r.wax_flash)
                                ? "at or over"
                                : "within " + interval_like(flash_margin, at) + " of";
    Finding& finding =
        report(findings, r.in.job, check.rule, step.at,
               fmt::format("{} is {} the flash point of {} ({})", show(at.quantity), how,
                           in_blend(model, r.in, wax), flash_words(r.in, wax, at)),
               fmt::format("stay below {}; burning wax is smothered, never put out with water; the "
                           "safety data sheet of your supplier comes first",
                           degrees_below(check.limit, at)));
    offer_cooler(model, finding, at, check.limit);
    relate(model, finding, model.entry(wax, Key::flash_point)->at, "its flash point");
}

void report_bath_too_cool(const Model& model, const Reckoning& r, const LimitCheck& check,
                          Findings& findings) {
    const Step& step = r.in.steps[check.item];
    const Figure& at = *step.temperature();
    const std::string most = degrees_like(check.limit, at);
    Finding& finding =
        report(findings, r.in.job, check.rule, step.at,
               fmt::format("{} is more than a water bath can give ({})", show(at.quantity), most),
               fmt::format("work at {} or under, or use a melter with a thermostat; no oil in the "
                           "bath in place of water",
                           most));
    offer_cooler(model, finding, at, check.limit);
}

namespace {

// The pot and what heats it. Its fault is told at the pot, or where the recipe or batch names it.

void check_pot(const Model& model, const Job& job, const HeatInput& heat, Findings& findings) {
    if (heat.how == Heated::unsaid) {
        if (heat.pot == no_block && job.heated_by_batches) return;
        report(findings, job, Rule::heat_unsaid, heat.at,
               "nothing says how the pot is heated, so it counts as standing on the heat",
               "name a `pot` that says how: `heated: water-bath`, for example");
    } else if (heat.how == Heated::microwave) {
        report(
            findings, job, Rule::microwave, model.place_to_change(heat.pot, Key::heated, heat.at),
            fmt::format("`{}` is heated in a microwave oven, where nobody can see how hot the wax "
                        "is",
                        model.name(heat.pot)),
            "a part of it gets far hotter than the rest: use a water bath or a melter with a "
            "thermostat");
    } else if (heat.how == Heated::flame || heat.how == Heated::hotplate) {
        report(findings, job, Rule::direct_heat,
               model.place_to_change(heat.pot, Key::heated, heat.at),
               fmt::format("`{}` stands straight on a {}, and its bottom gets far hotter than the "
                           "thermometer says",
                           model.name(heat.pot), heat.how == Heated::flame ? "flame" : "hotplate"),
               "on low heat, stirring all the while; better in a water bath, or in a melter with a "
               "thermostat");
    }
}

/// What is kept back is only warmed: that its pot stands straight on the heat is told by the flash
/// point of what is in it.
void check_keep_pot(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const KeepInput& keep = reckoning.in.keep;
    if (keep.pot.heated != Heated::microwave || keep.pot.block == reckoning.in.heat.pot) return;
    check_pot(model, reckoning.in.job, {Heated::microwave, keep.pot.block, keep.pot_at}, findings);
}

} // namespace

void check_heat(const Model& model, const Reckoning& reckoning, Findings& findings) {
    check_flash_known(model, reckoning, findings);
    check_second_pour(model, reckoning, findings);
    check_order(model, reckoning, findings);
    check_work(model, reckoning, findings);
    check_pot(model, reckoning.in.job, reckoning.in.heat, findings);
    check_keep_pot(model, reckoning, findings);
}

void check_heat_in_batch(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    if (model.entry(job.batch, Key::pot) == nullptr && !job.drawn) return;
    check_pot(model, job, reckoning.in.heat, findings);
}

} // namespace waxwright
