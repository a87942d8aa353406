#include "check/vessel.hpp"

#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/shock.hpp"
#include "check/tell.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// The headspace that counts, the recipe's own or the vessel's, and where it is written.
struct Headspace {
    const Figure* figure;
    Span at;
};

std::optional<Headspace> headspace_of(const Model& model, const Job& job) {
    const BlockId owner =
        model.entry(job.recipe, Key::headspace) != nullptr ? job.recipe : job.vessel;
    const Entry* entry = model.entry(owner, Key::headspace);
    const auto* figure = model.get<Figure>(owner, Key::headspace);
    if (figure == nullptr) return std::nullopt;
    const Span at =
        owner == job.recipe ? entry->at : model.blame(job.vessel, Key::headspace, job.vessel_at);
    return Headspace{figure, at};
}

/// True if the headspace takes all of the vessel, and nothing is left to fill.
bool no_room(const Reckoning& reckoning) {
    if (!reckoning.headspace_mm || !reckoning.headspace_ml || !reckoning.brimful_ml) return false;
    const bool deep = reckoning.depth_mm && at_least(*reckoning.headspace_mm, *reckoning.depth_mm);
    return deep || at_least(*reckoning.headspace_ml, *reckoning.brimful_ml);
}

void tell_no_room(const Model& model, const Reckoning& reckoning, const Headspace& headspace,
                  Findings& findings) {
    const Job& job = reckoning.job;
    const UnitId id = headspace.figure->quantity.unit;
    const auto* said = model.get<Figure>(job.vessel, Key::brimful);
    const std::string why =
        reckoning.depth_mm
            ? fmt::format("`{}` is {} deep", model.name(job.vessel),
                          show_in(*reckoning.depth_mm, id, dimension::length))
            : fmt::format("it takes {}, and `{}` holds {}",
                          volume_like(*reckoning.headspace_ml, said), model.name(job.vessel),
                          volume_like(*reckoning.brimful_ml, said));
    tell(findings, job, Rule::overfull, headspace.at,
         fmt::format("a headspace of {} leaves no room for wax: {}",
                     show(headspace.figure->quantity), why),
         "the headspace is the empty part, measured down from the mouth; measure it and the bore "
         "again");
}

/// The fill to its line, solid or liquid. Where a wax's liquid density is missing the weights are
/// those of solid wax, and what is weighed may be more than the vessel holds: a note, as the
/// maker was told (`liquid-density-missing`) to pour to the line.
void check_fullness(const Model& model, const Reckoning& reckoning, Span at, Findings& findings) {
    if (!reckoning.brimful_ml) return;
    const Job& job = reckoning.job;
    const double brimful = *reckoning.brimful_ml;
    const double most = fullest * brimful;
    const auto* said = model.get<Figure>(job.vessel, Key::brimful);
    if (reckoning.fill_ml && over(*reckoning.fill_ml, most)) {
        tell(findings, job, Rule::overfull, at,
             fmt::format("the wax fills {} of `{}`, and over {} it spills when it is moved",
                         show_percent(*reckoning.fill_ml / brimful), model.name(job.vessel),
                         show_percent(fullest)),
             fmt::format("fill in {} at most, of {} to the brim", volume_below(most, said),
                         volume_like(brimful, said)));
    } else if (reckoning.poured_ml && over(*reckoning.poured_ml, most)) {
        tell_note(findings, job, Rule::overfull, at,
                  "the weight given may be more than fits while it is hot: stop at the line");
    }
}

/// A vessel with a line of its own is filled to it, and a recipe can't want another.
void check_filled_once(const Model& model, const Job& job, Findings& findings) {
    const Entry* fill = model.entry(job.vessel, Key::fill);
    const Entry* headspace = model.entry(job.recipe, Key::headspace);
    if (fill == nullptr || headspace == nullptr) return;
    Finding& finding = tell(
        findings, job, Rule::defined_twice, headspace->at,
        fmt::format("`{}` has a line of its own, `fill`, and this headspace another",
                    model.name(job.vessel)),
        "take this line away; or give the vessel `headspace` with `brimful` or `inside` in the "
        "place of `fill`");
    relate(model, finding, fill->at, "the line of the vessel");
}

void check_room(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.job;
    check_filled_once(model, job, findings);
    const auto headspace = headspace_of(model, job);
    if (model.entry(job.vessel, Key::fill) != nullptr || !headspace) {
        check_fullness(model, reckoning, model.blame(job.vessel, Key::fill, job.vessel_at),
                       findings);
    } else if (no_room(reckoning)) {
        tell_no_room(model, reckoning, *headspace, findings);
    } else {
        check_fullness(model, reckoning, headspace->at, findings);
    }
}

void check_headspace(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.job;
    if (model.entry(job.vessel, Key::fill) != nullptr) return; // no headspace counts beside it
    const auto headspace = headspace_of(model, job);
    const auto least = least_headspace(model, job.vessel);
    if (!headspace || !least || !under(headspace->figure->value(), *least)) return;
    const UnitId id = headspace->figure->quantity.unit;
    tell(findings, job, Rule::headspace_thin, headspace->at,
         fmt::format("a headspace of {} is little: the flame heats the rim and wax runs over when "
                     "it is carried",
                     show(headspace->figure->quantity)),
         fmt::format("leave {} or more", show_in(*least, id, dimension::length)));
}

/// The bore is needed for the headspace's volume, and to see whether a wick suits.
void check_bore(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.job;
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
    tell(findings, job, Rule::bore_missing, model.blame(job.vessel, job.vessel_at),
         fmt::format("`{}` has no `bore`, and {}", model.name(job.vessel),
                     reckoning.bore_needed_for_fill
                         ? "without it nobody knows how much its headspace takes"
                         : "without it nobody knows whether the wick suits it"),
         "measure the inside diameter where the wax is and write it: `bore: 74 mm`");
}

void check_make(const Model& model, const Job& job, Findings& findings) {
    const BlockId vessel = job.vessel;
    const std::string_view of = model.choice(vessel, Key::of);
    if (of == "wood" || of == "plastic") {
        tell(findings, job, Rule::vessel_burns, model.blame(vessel, Key::of, job.vessel_at),
             fmt::format("`{}` is made of {}, which burns or melts", model.name(vessel), of),
             "use glass, tin or ceramic that its maker rates for candles");
    }
    if (model.choice(vessel, Key::made_for) == "unknown") {
        tell(findings, job, Rule::vessel_not_rated,
             model.blame(vessel, Key::made_for, job.vessel_at),
             fmt::format("nobody says that `{}` is made for a flame: it can crack or shatter",
                         model.name(vessel)),
             "ask its maker, and write `made-for: candles` when they say so");
    } else if (model.entry(vessel, Key::made_for) == nullptr &&
               !model.unreadable(vessel, Key::made_for)) {
        tell_note(findings, job, Rule::vessel_not_rated, model.blame(vessel, job.vessel_at),
                  "this vessel does not say what it is made for: `made-for: candles`");
    }
}

} // namespace

std::optional<double> least_headspace(const Model& model, BlockId vessel) {
    if (model.unreadable(vessel, Key::of)) return std::nullopt;
    const std::string_view of = model.choice(vessel, Key::of);
    if (of == "glass" || of.empty()) return 10;
    if (of == "tin") return 6;
    return std::nullopt;
}

void check_vessel(const Model& model, const Reckoning& reckoning, Findings& findings) {
    if (reckoning.job.vessel == no_block) return;
    check_room(model, reckoning, findings);
    check_headspace(model, reckoning, findings);
    check_bore(model, reckoning, findings);
    check_make(model, reckoning.job, findings);
    check_shock(model, reckoning, findings);
}

} // namespace waxwright
