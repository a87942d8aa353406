#include "check/load.hpp"

#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/limits.hpp"
#include "check/tell.hpp"
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

void tell_missing_basis(const Model& model, const Reckoning& reckoning, const Entry& entry,
                        const Load& load, Findings& findings) {
    const Job& job = reckoning.job;
    const std::string code = percent_code(load.fraction);
    const auto of_wax = scent_on_basis(model, job, load.fraction, Basis::wax);
    const auto of_total = scent_on_basis(model, job, load.fraction, Basis::total);
    std::string hint = fmt::format("write `{} of wax` or `{} of total`", code, code);
    if (of_wax && of_total) {
        hint = fmt::format("write `{} of wax`, which is {} of scent for {}, or `{} of total`, "
                           "which is {}",
                           code, mass(model, job, *of_wax), vessels(job), code,
                           mass(model, job, *of_total));
    }
    Finding& finding = tell(findings, job, Rule::missing_basis, entry.at,
                            fmt::format("a load of {} does not say of what: of the wax, or of the "
                                        "total",
                                        show_percent(load.fraction)),
                            std::move(hint));
    offer_basis(model, job, load, Basis::wax, of_wax, finding);
    offer_basis(model, job, load, Basis::total, of_total, finding);
}

void tell_volume_load(const Model& model, const Reckoning& reckoning, const Entry& entry,
                      const Load& load, Findings& findings) {
    const Job& job = reckoning.job;
    std::string hint = "weigh the scent: write the load as a percent of the wax";
    std::optional<Fix> by_weight;
    if (const auto density = scent_density(model, job.recipe)) {
        const double fraction = load.fraction * *density;
        hint =
            fmt::format("with the oils of this recipe ({} g/ml) it is `{} {}`",
                        show_number(*density, 3), percent_code(fraction), basis_code(load.basis));
        by_weight = put(
            load.at, fmt::format("{} {}", percent_code(fraction), basis_code(load.basis)), false);
        if (const auto scent = scent_on_basis(
                model, job, fraction, load.basis == Basis::unsaid ? Basis::wax : load.basis)) {
            hint += fmt::format(": {} for {}", mass(model, job, *scent), vessels(job));
        }
    }
    Finding& finding =
        tell(findings, job, Rule::volume_load, entry.at,
             "this load measures the scent by volume, and a volume of one oil weighs more than of "
             "another",
             std::move(hint));
    if (by_weight) finding.fixes.push_back(std::move(*by_weight));
}

// A load beside what the wax blend holds. How much a wax holds is its maker's figure; nine tenths
// and a third of it are common practice.

/// The load and its limit on the basis the load was written on.
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

std::string holder(const Model& model, const Reckoning& reckoning) {
    const auto waxes = model.blend(reckoning.job.recipe, Key::wax);
    return waxes.size() == 1 ? quoted(model.name(waxes[0].material)) : "this blend";
}

void tell_load_over(const Model& model, const Reckoning& reckoning, const Entry& entry,
                    const LoadAndLimit& at, Findings& findings) {
    const Job& job = reckoning.job;
    const std::string who = holder(model, reckoning);
    std::string hint = fmt::format("{} {} is the most {} holds", percent_down(at.limit),
                                   basis_words(at.basis), who);
    const auto most = scent_on_basis(model, job, *reckoning.limit_of_wax, Basis::wax);
    if (most && reckoning.complete) {
        const std::string now = mass(model, job, reckoning.scent_g);
        const std::string at_most = mass_down(model, job, *most);
        hint += fmt::format(": at {} that is {} of scent", vessels(job), at_most);
        if (now != at_most) hint += fmt::format(", you have {}", now);
    }
    if (reckoning.largest_wax != no_block) {
        hint += ";\n" + own_figure(model, reckoning.largest_wax, Key::max_load,
                                   percent_code(*reckoning.load_of_wax) + " of wax");
    }
    // The contract's wording: a limit with nothing behind it is on the basis just said.
    tell(findings, job, Rule::load_over_limit, entry.at,
         fmt::format("{} {} is more scent than {} holds ({})", show_percent(at.load),
                     basis_words(at.basis), who, percent_down(at.limit)),
         std::move(hint));
}

void check_load_of_blend(const Model& model, const Reckoning& reckoning, const Entry& entry,
                         const Load& load, Findings& findings) {
    if (!reckoning.load_of_wax || !reckoning.limit_of_wax) return;
    const double of_wax = *reckoning.load_of_wax;
    const double limit = *reckoning.limit_of_wax;
    if (over(of_wax, limit)) {
        tell_load_over(model, reckoning, entry, as_written(reckoning, load), findings);
    } else if (over(of_wax, 0.9 * limit)) {
        const LoadAndLimit at = as_written(reckoning, load);
        tell(findings, reckoning.job, Rule::load_near_limit, entry.at,
             fmt::format("{} {} is over nine tenths of what {} holds ({})", show_percent(at.load),
                         basis_words(at.basis), holder(model, reckoning), percent_down(at.limit)),
             fmt::format("scent may sweat out: {} leaves room for a scale and an oil that vary; or "
                         "burn a test candle to its end",
                         percent_down(0.9 * at.limit)));
    } else if (of_wax > 0 && under(of_wax, limit / 3)) { // none at all is scent-without-load
        tell(findings, reckoning.job, Rule::load_faint, entry.at,
             "this is under a third of the scent the wax holds");
    }
}

} // namespace

void check_load(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const BlockId recipe = reckoning.job.recipe;
    const Entry* entry = model.entry(recipe, Key::load);
    const auto* load = model.get<Load>(recipe, Key::load);
    if (load != nullptr && load->by_volume) {
        tell_volume_load(model, reckoning, *entry, *load, findings);
    } else if (load != nullptr && load->basis == Basis::unsaid) {
        tell_missing_basis(model, reckoning, *entry, *load, findings);
    } else if (load != nullptr && !model.blend(recipe, Key::scent).empty()) {
        check_load_of_blend(model, reckoning, *entry, *load, findings);
    }
    check_limits(model, reckoning, findings);
}

} // namespace waxwright
