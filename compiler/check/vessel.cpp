#include "check/vessel.hpp"

#include <fmt/format.h>

#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Where the headspace that counts is written, the recipe's own or the vessel's. Its figure is the
/// inputs': that may be at an end of its doubt.
std::optional<Span> headspace_at(const Model& model, const Job& job) {
    const BlockId owner =
        model.entry(job.recipe, Key::headspace) != nullptr ? job.recipe : job.vessel;
    const Entry* entry = model.entry(owner, Key::headspace);
    if (model.get<Figure>(owner, Key::headspace) == nullptr) return std::nullopt;
    return owner == job.recipe ? entry->at
                               : model.place_to_change(job.vessel, Key::headspace, job.vessel_at);
}

/// The same in the inputs, which may be at an end of a doubt.
const Figure* given_headspace(const Inputs& in) {
    return (in.headspace.unsaid() ? in.vessel.headspace : in.headspace).get();
}

/// Where a fault of the fill is told: at the headspace that counts, or at the vessel's own line.
Span fill_at(const Model& model, const Job& job) {
    const auto headspace = headspace_at(model, job);
    if (model.entry(job.vessel, Key::fill) != nullptr || !headspace) {
        return model.place_to_change(job.vessel, Key::fill, job.vessel_at);
    }
    return *headspace;
}

void report_no_room(const Model& model, const Reckoning& r, Findings& findings) {
    const Job& job = r.in.job;
    const auto headspace = headspace_at(model, job);
    if (!headspace) return;
    const Quantity said = given_headspace(r.in)->quantity;
    const auto* brimful = model.get<Figure>(job.vessel, Key::brimful);
    const std::string why =
        r.depth_mm ? fmt::format("`{}` is {} deep", model.name(job.vessel),
                                 show_in(*r.depth_mm, said.unit, dimension::length))
                   : fmt::format("it takes {}, and `{}` holds {}",
                                 volume_like(*r.headspace_reckoned_ml, brimful),
                                 model.name(job.vessel), volume_like(*r.brimful_ml, brimful));
    std::string hint = "the headspace is the empty part, measured down from the mouth; measure it "
                       "and the bore again";
    if (said.unit != no_unit && unit(said.unit).symbol == "cm") { // for mm
        hint +=
            fmt::format("; or is it {} mm?", show_number(from_inside(said.value, said.unit), 2));
    }
    report(findings, job, Rule::overfull, *headspace,
           fmt::format("a headspace of {} leaves no room for wax: {}", show(said), why),
           std::move(hint));
}

/// Where a wax's liquid density is missing the weights are those of solid wax, and what is weighed
/// may be more than the vessel holds: a note, as the maker was told (`liquid-density-missing`) to
/// pour to the line.
void check_poured(const Model& model, const Reckoning& r, Findings& findings) {
    if (!r.brimful_ml || !r.poured_ml || !over(*r.poured_ml, fullest * *r.brimful_ml)) return;
    if (r.fill_ml && over(*r.fill_ml, fullest * *r.brimful_ml)) return; // told
    report_note(findings, r.in.job, Rule::overfull, fill_at(model, r.in.job),
                "the weight given may be more than fits while it is hot: stop at the line");
}

/// A vessel with a line of its own is filled to it, and a recipe can't want another.
void check_filled_once(const Model& model, const Job& job, Findings& findings) {
    const Entry* fill = model.entry(job.vessel, Key::fill);
    const Entry* headspace = model.entry(job.recipe, Key::headspace);
    if (fill == nullptr || headspace == nullptr) return;
    Finding& finding = report(
        findings, job, Rule::defined_twice, headspace->at,
        fmt::format("`{}` has a line of its own, `fill`, and this headspace another",
                    model.name(job.vessel)),
        "take this line away; or give the vessel a `headspace` with `brimful` or `inside` in "
        "place of `fill`");
    relate(model, finding, fill->at, "the line of the vessel");
}

/// The bore is needed for the headspace's volume, and to see whether a wick suits.
void check_bore(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    if (reckoning.bore_mm || model.unreadable(job.vessel, Key::bore) ||
        model.unreadable(job.vessel, Key::inside)) {
        return;
    }
    bool for_wick = false;
    for (const Count& wick : model.count_list(job.recipe, Key::wick)) {
        for_wick = for_wick || model.get<Range>(wick.block, Key::suits) != nullptr;
    }
    // With `inside` there is a bore, unless the fill, which another finding is about, is unknown.
    if (model.entry(job.vessel, Key::inside) != nullptr) return;
    if (!for_wick && !reckoning.bore_needed_for_fill) return;
    report(findings, job, Rule::bore_missing, model.place_to_change(job.vessel, job.vessel_at),
           fmt::format("`{}` has no `bore`, and {}", model.name(job.vessel),
                       reckoning.bore_needed_for_fill
                           ? "without it nobody knows how much room its headspace takes"
                           : "without it nobody knows whether the wick suits it"),
           "measure the inside diameter where the wax is and write it: `bore: 74 mm`");
}

void check_make(const Model& model, const Job& job, Findings& findings) {
    const BlockId vessel = job.vessel;
    const Choice of = model.choice(vessel, Key::of);
    if (of == Choice::wood || of == Choice::plastic) {
        report(
            findings, job, Rule::vessel_burns,
            model.place_to_change(vessel, Key::of, job.vessel_at),
            fmt::format("`{}` is made of {}, which burns or melts", model.name(vessel), word(of)),
            "use glass, tin or ceramic that its maker rates for candles");
    }
    if (model.choice(vessel, Key::made_for) == Choice::unknown) {
        report(findings, job, Rule::vessel_not_rated,
               model.place_to_change(vessel, Key::made_for, job.vessel_at),
               fmt::format("nobody says that `{}` is made for a flame: it can crack or shatter",
                           model.name(vessel)),
               "ask its maker, and write `made-for: candles` when they say so");
    } else if (model.entry(vessel, Key::made_for) == nullptr &&
               !model.unreadable(vessel, Key::made_for)) {
        report_note(findings, job, Rule::vessel_not_rated,
                    model.place_to_change(vessel, job.vessel_at),
                    "this vessel does not say what it is made for: `made-for: candles`");
    }
}

} // namespace

/// Of the fill to its line, solid or liquid; or of a headspace that takes all of the vessel.
void report_overfull(const Model& model, const Reckoning& r, const LimitCheck& check,
                     Findings& findings) {
    if (check.item < 2) return report_no_room(model, r, findings);
    const Job& job = r.in.job;
    const auto* said = model.get<Figure>(job.vessel, Key::brimful);
    report(findings, job, check.rule, fill_at(model, job),
           fmt::format("the wax fills {} of `{}`, and over {} it spills when it is moved",
                       show_percent(check.value / *r.brimful_ml), model.name(job.vessel),
                       show_percent(fullest)),
           fmt::format("fill in {} at most, of {} to the brim", volume_below(check.limit, said),
                       volume_like(*r.brimful_ml, said)));
}

void report_headspace_thin(const Model& model, const Reckoning& r, const LimitCheck& check,
                           Findings& findings) {
    const auto headspace = headspace_at(model, r.in.job);
    if (!headspace) return;
    const Quantity said = given_headspace(r.in)->quantity;
    report(
        findings, r.in.job, check.rule, *headspace,
        fmt::format("a headspace of {} is little: the flame heats the rim and wax runs over when "
                    "it is carried",
                    show(said)),
        fmt::format("leave {} or more", length_above(check.limit, said)));
}

/// The jump a vessel stands is its supplier's figure; none is made up where it is unsaid. For
/// candle glass ASTM F2179 wants at least 50 C° (from memory of it), which says nothing of this
/// vessel.
void report_thermal_shock(const Model& model, const Reckoning& r, const LimitCheck& check,
                          Findings& findings) {
    const Job& job = r.in.job;
    const Step& pour = r.in.steps[check.item];
    const Figure& at = *pour.temperature();
    const double vessel = at.value() - check.value;
    Finding& finding = report(
        findings, job, check.rule, pour.at,
        fmt::format(
            "the wax is poured at {} into a vessel at {}: that is {} apart, and `{}` can take {}",
            show(at.quantity), degrees_like(vessel, at), interval_like(check.value, at),
            model.name(job.vessel), interval_like(check.limit, at)),
        fmt::format("write `warm vessels to {}` before it, or pour at {} or under: glass that "
                    "cracks lets hot wax out",
                    degrees_above(at.value() - check.limit, at),
                    degrees_below(vessel + check.limit, at)));
    const Step* warmed = nullptr;
    for (const Step& step : r.in.steps) {
        if (&step == &pour) break;
        if (step.verb == Verb::warm_vessels) warmed = &step;
    }
    if (warmed != nullptr) relate(model, finding, warmed->at, "the vessel is warmed");
    relate(model, finding, model.entry(job.vessel, Key::shock)->at, "what it stands");
}

void check_vessel(const Model& model, const Reckoning& reckoning, Findings& findings) {
    if (reckoning.in.job.vessel == no_block) return;
    check_filled_once(model, reckoning.in.job, findings);
    check_poured(model, reckoning, findings);
    check_bore(model, reckoning, findings);
    check_make(model, reckoning.in.job, findings);
}

} // namespace waxwright
