#include "reckon/reckoning.hpp"

#include <cmath>

#include "reckon/gather.hpp"
#include "reckon/mixture.hpp"

namespace waxwright {

namespace {

/// Blends are read from decimals; their sums are whole to far less than this.
constexpr double sum_error = 1e-6;

bool sound_shares(std::span<const Share> shares) {
    for (const Share& share : shares) {
        if (share.material == no_block || !(share.fraction >= 0)) return false;
    }
    return true;
}

double sum(std::span<const Share> shares) {
    double total = 0;
    for (const Share& share : shares) {
        total += share.fraction;
    }
    return total;
}

bool whole(std::span<const Share> shares) {
    return std::abs(sum(shares) - 1) <= sum_error;
}

std::span<const Share> readable(const Model& model, BlockId recipe, Key key) {
    const auto shares = model.blend(recipe, key);
    return sound_shares(shares) ? shares : std::span<const Share>{};
}

Reckoning reckon_with(const Model& model, const Job& job, const Load* instead) {
    Reckoning r;
    r.job = job;
    const Blends blends = gather_blends(model, job.recipe);
    reckon_vessel(model, r);
    reckon_limits(model, blends, r);
    reckon_steps(model, r);
    reckon_parts(model, blends, r);
    reckon_load(model, instead, r);
    reckon_masses(model, blends, r);
    reckon_pots(model, r);
    reckon_weigh_out(model, r);
    return r;
}

} // namespace

bool unsaid(const Model& model, BlockId block, Key key) {
    return model.entry(block, key) == nullptr && !model.unreadable(block, key);
}

Blends gather_blends(const Model& model, BlockId recipe) {
    Blends blends;
    blends.waxes = readable(model, recipe, Key::wax);
    blends.oils = readable(model, recipe, Key::scent);
    blends.additives = readable(model, recipe, Key::additives);
    blends.waxes_whole = whole(blends.waxes);
    blends.oils_whole = whole(blends.oils);
    blends.additives_known = unsaid(model, recipe, Key::additives) ||
                             (!blends.additives.empty() && sum(blends.additives) <= 1 + sum_error);
    return blends;
}

Reckoning reckon(const Model& model, const Job& job) {
    return reckon_with(model, job, nullptr);
}

std::optional<double> portion(const Reckoning& reckoning, MatterKind kind, double share,
                              Basis basis) {
    if (kind == MatterKind::oil) {
        const auto load = basis == Basis::wax ? reckoning.load_of_wax : reckoning.load_of_total;
        return load ? std::optional(*load * share) : std::nullopt;
    }
    if (basis == Basis::wax) return share;
    if (!reckoning.load_of_wax || !reckoning.additives) return std::nullopt;
    return share / (1 + *reckoning.load_of_wax + *reckoning.additives);
}

std::optional<double> scent_on_basis(const Model& model, const Job& job, double fraction,
                                     Basis basis) {
    const Load load{.fraction = fraction, .basis = basis, .at = job.count_at};
    const Reckoning r = reckon_with(model, job, &load);
    return r.complete ? std::optional(r.scent_g) : std::nullopt;
}

std::optional<double> scent_density(const Model& model, BlockId recipe) {
    Mixture scent;
    for (const Share& oil : readable(model, recipe, Key::scent)) {
        const auto* density = model.get<Densities>(oil.material, Key::density);
        if (density == nullptr || !(density->one.value > 0)) return std::nullopt;
        scent.add(oil.fraction, density->one.value);
    }
    return scent.density();
}

} // namespace waxwright
