#include "check/load.hpp"

#include <cmath>

#include <fmt/format.h>

#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "reckon/loads.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

// A load that can't be taken as it stands: the hint works out what it would be for this recipe.

/// One of the two readings, with what it comes to; neither is certain.
void offer_basis(const Model& model, const Job& job, const Load& load, Basis basis,
                 std::optional<double> scent_g, Finding& finding) {
    const Span behind{load.at.file, load.at.end, load.at.end};
    Fix fix{fmt::format("write `{} {}`", model.sources.slice(load.at), basis_code(basis)),
            {{behind, fmt::format(" {}", basis_code(basis))}}};
    if (scent_g) {
        fix.title +=
            fmt::format(", which is {} of scent for {}", mass(model, job, *scent_g), vessels(job));
    }
    finding.fixes.push_back(std::move(fix));
}

void report_missing_basis(const Model& model, const Reckoning& reckoning, const Entry& entry,
                          const Load& load, Findings& findings) {
    const Job& job = reckoning.in.job;
    const std::string code = percent_code(load.fraction);
    const auto of_wax = scent_on_basis(reckoning.in, load.fraction, Basis::wax);
    const auto of_total = scent_on_basis(reckoning.in, load.fraction, Basis::total);
    std::string hint = fmt::format("write `{} of wax` or `{} of total`", code, code);
    if (of_wax && of_total) {
        hint = fmt::format("write `{} of wax`, which is {} of scent for {}, or `{} of total`, "
                           "which is {}",
                           code, mass(model, job, *of_wax), vessels(job), code,
                           mass(model, job, *of_total));
    }
    Finding& finding =
        report(findings, job, Rule::missing_basis, entry.at,
               fmt::format("a load of {} does not say of what: of the wax, or of the "
                           "total",
                           show_percent(load.fraction)),
               std::move(hint));
    offer_basis(model, job, load, Basis::wax, of_wax, finding);
    offer_basis(model, job, load, Basis::total, of_total, finding);
}

void report_volume_load(const Model& model, const Reckoning& reckoning, const Entry& entry,
                        const Load& load, Findings& findings) {
    const Job& job = reckoning.in.job;
    std::string hint = "weigh the scent: write the load as a percent of the wax";
    std::optional<Fix> by_weight;
    if (const auto density = scent_density(reckoning.in)) {
        const double fraction = load.fraction * *density;
        hint =
            fmt::format("with the oils of this recipe ({} g/ml) it is `{} {}`",
                        show_number(*density, 3), percent_code(fraction), basis_code(load.basis));
        by_weight = put(
            load.at, fmt::format("{} {}", percent_code(fraction), basis_code(load.basis)), false);
        if (const auto scent = scent_on_basis(
                reckoning.in, fraction, load.basis == Basis::unsaid ? Basis::wax : load.basis)) {
            hint += fmt::format(": {} for {}", mass(model, job, *scent), vessels(job));
        }
    }
    Finding& finding = report(findings, job, Rule::volume_load, entry.at,
                              "this load measures the scent by volume, and the same volume weighs "
                              "more of one oil than of another",
                              std::move(hint));
    if (by_weight) finding.fixes.push_back(std::move(*by_weight));
}

// A load beside what the wax blend holds. How much a wax holds is its maker's figure; nine tenths
// and a third of it are common practice.

/// The load and its limit on the basis the load was written on.
double grams_of(const Reckoning& reckoning, BlockId material) {
    for (const Part& part : reckoning.parts) {
        if (part.material == material) return part.grams;
    }
    return 0;
}

/// All wax as a fraction of the finished candle.
double wax_of_all(const Reckoning& r) {
    return wax_in(1, r.load_of_wax.value_or(0), r.additives.value_or(0));
}

struct LoadAndLimit {
    double load;
    double limit;
    Basis basis;
};

LoadAndLimit as_written(const Reckoning& reckoning, const Load& load) {
    if (load.basis == Basis::total && reckoning.load_of_total && reckoning.additives) {
        const double limit = *reckoning.limit_of_wax;
        return {*reckoning.load_of_total, limit / (1 + limit + *reckoning.additives), Basis::total};
    }
    return {*reckoning.load_of_wax, *reckoning.limit_of_wax, Basis::wax};
}

std::string holder(const Model& model, const Inputs& in) {
    return in.waxes().size() == 1 ? quoted(model.name(in.waxes()[0].block)) : "this blend";
}

/// What leftovers bring of a material counts with what is weighed.
std::string brought_hint(const Model& model, const Reckoning& r, const MatterInput& matter,
                         Basis basis, const LimitCheck& check) {
    const double whole = basis == Basis::wax ? wax_of_all(r) : 1;
    const double brought = matter.brought / whole;
    std::string hint = "all of it comes with the leftovers: take fewer of them";
    if (matter.weighed) {
        hint = fmt::format("the leftovers bring {} {} of it: {}", show_percent(brought),
                           basis_words(basis),
                           over(brought, check.limit) ? "take fewer of them"
                                                      : "weigh less of it, or take fewer of them");
    }
    if (r.complete) {
        hint += fmt::format("; at most {} of it may be in {}, with what they bring",
                            mass_down(model, r.in.job, r.total_g() * whole * check.limit),
                            vessels(r.in.job));
    }
    return hint + (check.rule == Rule::additive_over_limit
                       ? "; where its supplier's data sheet says otherwise, that comes first"
                       : "; the certificate and safety data sheet of your own lot go first");
}

/// What to do: how much of it may be in, and for an oil the load at which the scent as blended
/// comes down to that.
std::string own_limit_hint(const Model& model, const Reckoning& r, const MatterInput& matter,
                           Basis basis, const LimitCheck& check) {
    const Job& job = r.in.job;
    std::string hint;
    if (matter.brought > 0) return brought_hint(model, r, matter, basis, check);
    if (r.complete) {
        const double whole = basis == Basis::wax ? r.wax_g : r.total_g();
        hint = fmt::format("use at most {} of it for {}, you have {}",
                           mass_down(model, job, whole * check.limit), vessels(job),
                           mass(model, job, grams_of(r, matter.block)));
    }
    const auto load = basis == Basis::wax ? r.load_of_wax : r.load_of_total;
    if (matter.kind == MatterKind::oil && load) {
        hint += fmt::format("{}blended like this, the scent can be {} {} at most",
                            hint.empty() ? "" : "; ",
                            percent_down(*load * check.limit / check.value), basis_words(basis));
    }
    if (hint.empty()) hint = "use less of it";
    return hint + (check.rule == Rule::additive_over_limit
                       ? "; where its supplier's data sheet says otherwise, that comes first"
                       : "; the certificate and safety data sheet of your own lot go first");
}

void check_limit_known(const Model& model, const Reckoning& reckoning, const MatterInput& matter,
                       Findings& findings) {
    const BlockId oil = matter.block;
    for (const Key key : {Key::limit, Key::ifra_cat_12}) {
        if (model.entry(oil, key) != nullptr || model.unreadable(oil, key)) return;
    }
    report(findings, reckoning.in.job, Rule::limit_unknown, model.place_to_change(oil, matter.at),
           "this oil has neither `limit` nor `ifra-cat-12`: its amount is not checked against any "
           "limit");
}

/// A load that is little is a note: an aim, and no limit.
void check_faint(const Entry& entry, const Reckoning& r, Findings& findings) {
    if (!r.load_of_wax || !r.limit_of_wax) return;
    const double of_wax = *r.load_of_wax; // none at all is scent-without-load
    if (!(of_wax > 0) || !under(of_wax, *r.limit_of_wax / 3)) return;
    report(findings, r.in.job, Rule::load_faint, entry.at,
           "this is under a third of the scent the wax holds");
}

} // namespace

namespace {

/// The load, or the leftovers where the recipe has no scent of its own.
Span load_place(const Model& model, const Reckoning& r) {
    if (r.in.load) return r.in.load.at;
    const Entry* leftovers = model.entry(r.in.job.recipe, Key::leftovers);
    return leftovers != nullptr ? leftovers->at : model.blocks[r.in.job.recipe].name_at;
}

/// The load of the fresh wax at which the finished candle has so much of its wax: from
/// (f W + O) / (W + B) = limit with W = (1 - L) / (1 + f + a), B and O being what leftovers bring
/// of wax and of scent. Nothing where they alone are too much.
std::optional<double> fresh_load_for(const Reckoning& r, double limit) {
    const Mixed& mixed = r.in.mixed;
    const double short_of = limit * mixed.brought_wax - mixed.brought_scent;
    const double fresh = 1 - r.leftover;
    const double load =
        (short_of * (1 + r.fresh_additives.value_or(0)) + limit * fresh) / (fresh - short_of);
    return load > 0 ? std::optional(load) : std::nullopt;
}

std::string leftovers_over_limit(const Reckoning& r, double limit) {
    const auto most = fresh_load_for(r, limit);
    if (!r.in.load || !most) return "the leftovers bring too much of it: take fewer of them";
    return fmt::format(
        "with what the leftovers bring, write `load: {} of wax` or less for the fresh "
        "wax, or take fewer leftovers",
        percent_code(std::floor(*most * 1e4 + 1e-6) / 1e4));
}

} // namespace

void report_load_over_limit(const Model& model, const Reckoning& r, const LimitCheck& check,
                            Findings& findings) {
    const Job& job = r.in.job;
    const LoadAndLimit at = as_written(r, r.in.load.value);
    const std::string who = holder(model, r.in);
    std::string hint = fmt::format("{} {} is the most {} holds", percent_down(at.limit),
                                   basis_words(at.basis), who);
    const auto most = scent_on_basis(r.in, check.limit, Basis::wax);
    if (brings_scent(r.in)) {
        hint += ": " + leftovers_over_limit(r, check.limit);
    } else if (most && r.complete) {
        const std::string now = mass(model, job, r.scent_g);
        const std::string at_most = mass_down(model, job, *most);
        hint += fmt::format(": at {} that is {} of scent", vessels(job), at_most);
        if (now != at_most) hint += fmt::format(", you have {}", now);
    }
    if (r.largest_wax != no_block) {
        hint += ";\n" + own_figure(model, r.largest_wax, Key::max_load,
                                   percent_code(check.value) + " of wax");
    }
    // The contract's wording: a limit with nothing behind it is on the basis just said.
    report(findings, job, check.rule, load_place(model, r),
           fmt::format("{} {} is more scent than {} holds ({})", show_percent(at.load),
                       basis_words(at.basis), who, percent_down(at.limit)),
           std::move(hint));
}

void report_load_near_limit(const Model& model, const Reckoning& r, const LimitCheck& check,
                            Findings& findings) {
    const LoadAndLimit at = as_written(r, r.in.load.value);
    report(findings, r.in.job, check.rule, load_place(model, r),
           fmt::format("{} {} is more than nine tenths of what {} holds ({})",
                       show_percent(at.load), basis_words(at.basis), holder(model, r.in),
                       percent_down(at.limit)),
           fmt::format("scent may sweat out: {} leaves room for a scale and an oil that vary; or "
                       "burn a test candle to the end",
                       percent_down(0.9 * at.limit)));
}

namespace {

/// An oil's or additive's own limit, or what an oil's certificate allows.
void report_own_limit(const Model& model, const Reckoning& r, const LimitCheck& check,
                      Findings& findings) {
    const MatterInput& matter = r.in.matter[check.item];
    const bool certified = check.rule == Rule::ifra_cat_12_over;
    const Given<Load>& most = certified ? matter.certificate : matter.limit;
    Finding& finding = report(
        findings, r.in.job, check.rule, matter.at,
        fmt::format("`{}` is {} {}, over {} ({})", model.name(matter.block),
                    show_percent(check.value), basis_words(most->basis),
                    certified ? "the most its certificate allows in category 12" : "its limit",
                    show_percent(check.limit)),
        own_limit_hint(model, r, matter, most->basis, check));
    relate(model, finding, most.at, "the limit");
}

} // namespace

void report_oil_over_limit(const Model& model, const Reckoning& r, const LimitCheck& check,
                           Findings& findings) {
    report_own_limit(model, r, check, findings);
}
void report_ifra_cat_12_over(const Model& model, const Reckoning& r, const LimitCheck& check,
                             Findings& findings) {
    report_own_limit(model, r, check, findings);
}
void report_additive_over_limit(const Model& model, const Reckoning& r, const LimitCheck& check,
                                Findings& findings) {
    report_own_limit(model, r, check, findings);
}

void check_load(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const BlockId recipe = reckoning.in.job.recipe;
    const Entry* entry = model.entry(recipe, Key::load);
    const auto* load = model.get<Load>(recipe, Key::load);
    if (load != nullptr && load->by_volume) {
        report_volume_load(model, reckoning, *entry, *load, findings);
    } else if (load != nullptr && load->basis == Basis::unsaid) {
        report_missing_basis(model, reckoning, *entry, *load, findings);
    } else if (load != nullptr && !model.blend(recipe, Key::scent).empty()) {
        check_faint(*entry, reckoning, findings);
    }
    for (const MatterInput& oil : reckoning.in.oils())
        check_limit_known(model, reckoning, oil, findings);
}

} // namespace waxwright
