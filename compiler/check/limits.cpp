#include "check/limits.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "check/compare.hpp"
#include "check/tell.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

double grams_of(const Reckoning& reckoning, BlockId material) {
    for (const Part& part : reckoning.parts) {
        if (part.material == material) return part.grams;
    }
    return 0;
}

struct Limit {
    Rule rule;
    MatterKind kind;
    Key key;
    std::string_view whose; // "its limit"
};

constexpr Limit oil_limit{Rule::oil_over_limit, MatterKind::oil, Key::limit, "its limit"};
constexpr Limit ifra_limit{Rule::ifra_cat_12_over, MatterKind::oil, Key::ifra_cat_12,
                           "the most its certificate allows in category 12"};
constexpr Limit additive_limit{Rule::additive_over_limit, MatterKind::additive, Key::limit,
                               "its limit"};

/// What to do: how much of it may be in, and for an oil the load at which the scent as blended
/// comes down to that.
std::string limit_hint(const Model& model, const Reckoning& reckoning, const Limit& limit,
                       const Share& share, const Load& most, double portion_now) {
    const Job& job = reckoning.job;
    std::string hint;
    if (reckoning.complete) {
        const double whole = most.basis == Basis::wax ? reckoning.wax_g : reckoning.total_g();
        hint = fmt::format("use at most {} of it for {}, you have {}",
                           mass_down(model, job, whole * most.fraction), vessels(job),
                           mass(model, job, grams_of(reckoning, share.material)));
    }
    const auto load = most.basis == Basis::wax ? reckoning.load_of_wax : reckoning.load_of_total;
    if (limit.kind == MatterKind::oil && load) {
        hint += fmt::format(
            "{}as it is blended, the scent can be {} {} at most", hint.empty() ? "" : "; ",
            percent_down(*load * most.fraction / portion_now), basis_words(most.basis));
    }
    if (hint.empty()) hint = "use less of it";
    return hint + (limit.rule == Rule::additive_over_limit
                       ? "; where its supplier's data sheet says otherwise, that goes first"
                       : "; the certificate and safety data sheet of your own lot go first");
}

void check_limit(const Model& model, const Reckoning& reckoning, const Limit& limit,
                 const Share& share, Findings& findings) {
    const auto* most = model.get<Load>(share.material, limit.key);
    if (most == nullptr || most->basis == Basis::unsaid || most->by_volume) return;
    const auto now = portion(reckoning, limit.kind, share.fraction, most->basis);
    if (!now || !over(*now, most->fraction)) return;
    Finding& finding = tell(findings, reckoning.job, limit.rule, share.at,
                            fmt::format("`{}` is {} {}, over {} ({})", model.name(share.material),
                                        show_percent(*now), basis_words(most->basis), limit.whose,
                                        show_percent(most->fraction)),
                            limit_hint(model, reckoning, limit, share, *most, *now));
    relate(model, finding, model.entry(share.material, limit.key)->at, "the limit");
}

void check_limit_known(const Model& model, const Reckoning& reckoning, const Share& share,
                       Findings& findings) {
    const BlockId oil = share.material;
    for (const Key key : {Key::limit, Key::ifra_cat_12}) {
        if (model.entry(oil, key) != nullptr || model.unreadable(oil, key)) return;
    }
    tell(findings, reckoning.job, Rule::limit_unknown, model.blame(oil, share.at),
         "this oil has neither `limit` nor `ifra-cat-12`: its amount is not checked against any "
         "limit");
}

} // namespace

void check_limits(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const BlockId recipe = reckoning.job.recipe;
    for (const Share& share : model.blend(recipe, Key::scent)) {
        check_limit(model, reckoning, oil_limit, share, findings);
        check_limit(model, reckoning, ifra_limit, share, findings);
        check_limit_known(model, reckoning, share, findings);
    }
    for (const Share& share : model.blend(recipe, Key::additives)) {
        check_limit(model, reckoning, additive_limit, share, findings);
    }
}

} // namespace waxwright
