#include "check/wick.hpp"

#include <fmt/format.h>

#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Of the metal of a core, by weight: more is banned (16 CFR 1500.12(a)(2), seen).
constexpr double most_lead = 0.0006;

/// True where the lead that its supplier certifies is too much, which is told.
bool has_lead(const Model& model, const Job& job, const Count& wick, Findings& findings) {
    const auto* lead = model.get<Figure>(wick.block, Key::lead);
    if (lead == nullptr || !over(lead->value() + lead->quantity.doubt, most_lead)) return false;
    report(findings, job, Rule::lead_core, model.place_to_change(wick.block, Key::lead, wick.at),
           fmt::format("the metal in the core of `{}` is {} lead{}, and {} is the most",
                       model.name(wick.block), model.sources.slice(lead->at),
                       lead->quantity.doubt > 0 ? " at the high end of its doubt" : "",
                       show_percent(most_lead)),
           "use another wick; in the United States such a wick may not be sold");
    return true;
}

void check_core(const Model& model, const Job& job, const Count& wick, Findings& findings) {
    if (has_lead(model, job, wick, findings)) return;
    if (model.unreadable(wick.block, Key::core)) return;
    const Choice core = model.choice(wick.block, Key::core);
    if (core == Choice::lead) {
        report(findings, job, Rule::lead_core,
               model.place_to_change(wick.block, Key::core, wick.at),
               fmt::format("`{}` has a core of lead, and burning it puts lead into the air",
                           model.name(wick.block)),
               "use another wick; in the United States such a wick may not be sold");
    } else if (core == Choice::unsaid) {
        report(findings, job, Rule::core_unknown, model.place_to_change(wick.block, wick.at),
               "this wick does not say what its core is: `core: cotton`, for example");
    } else if (core == Choice::unknown) {
        report(findings, job, Rule::core_unknown,
               model.place_to_change(wick.block, Key::core, wick.at),
               "nobody knows what the core of this wick is: ask its supplier that it has no lead");
    }
}

} // namespace

namespace {

/// Both rules: too big and too small for the bore.
void report_wick_size(const Model& model, const Reckoning& r, const LimitCheck& check,
                      Findings& findings) {
    const Job& job = r.in.job;
    const WickInput& wick = r.in.wicks[check.item];
    const Range& suits = wick.suits.value;
    const bool big = check.rule == Rule::wick_too_big;
    const UnitId id = suits.low.unit;
    const std::string bore = show_in(check.value, id, dimension::length);
    const std::string served =
        wick.count > 1 ? fmt::format("each of {} serves as much as {} would", wick.count, bore)
                       : fmt::format("`{}` is {} wide", model.name(job.vessel), bore);
    Finding& finding =
        report(findings, job, check.rule, wick.at,
               fmt::format("`{}` suits {}, and {}: {}", model.name(wick.block),
                           range_words(suits.low.value, suits.high, id, dimension::length), served,
                           big ? "a tall flame and hot glass" : "it tunnels or drowns"),
               fmt::format("take a {} wick, one that suits {}, and burn a test candle to the end",
                           big ? "smaller" : "bigger", bore));
    relate(model, finding, model.entry(wick.block, Key::suits)->at, "what it suits");
}

} // namespace

void report_wick_too_big(const Model& model, const Reckoning& r, const LimitCheck& check,
                         Findings& findings) {
    report_wick_size(model, r, check, findings);
}
void report_wick_too_small(const Model& model, const Reckoning& r, const LimitCheck& check,
                           Findings& findings) {
    report_wick_size(model, r, check, findings);
}

void check_wick(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    if (model.entry(job.recipe, Key::wick) == nullptr && !model.unreadable(job.recipe, Key::wick)) {
        report(findings, job, Rule::wick_missing, model.blocks[job.recipe].name_at,
               fmt::format("`{}` has no wick", model.name(job.recipe)),
               "write which: `wick: 1 cotton-braid-medium`; the bore of the vessel says how big");
    }
    for (const Count& wick : model.count_list(job.recipe, Key::wick)) {
        check_core(model, job, wick, findings);
    }
}

} // namespace waxwright
