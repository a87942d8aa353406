#include "reckon/reckoning.hpp"

#include <cmath>
#include <utility>

#include "reckon/amount_parts.hpp"

namespace waxwright {

namespace {

/// Blends are read from decimals; their sums are whole to far less than this.
constexpr double sum_error = 1e-6;

std::span<const MatterInput> reliable(std::span<const MatterInput> matter) {
    for (const MatterInput& each : matter) {
        if (each.block == no_block || !(each.share >= 0)) return {};
    }
    return matter;
}

double sum(std::span<const MatterInput> matter) {
    double total = 0;
    for (const MatterInput& each : matter)
        total += each.share;
    return total;
}

bool whole(std::span<const MatterInput> matter) {
    return std::abs(sum(matter) - 1) <= sum_error;
}

void list_parts(Reckoning& r) {
    const Blends blends = blends_of(r.in);
    r.parts.reserve(r.in.matter.size() + r.in.leftovers.size());
    const auto list = [&](std::span<const MatterInput> matter, double of) {
        for (const MatterInput& each : matter) {
            if (!each.weighed) continue;
            r.parts.push_back({each.kind, each.block, each.at, each.fresh, each.fresh * of});
        }
    };
    list(blends.waxes, r.wax_g);
    for (const LeftoverInput& each : r.in.leftovers) {
        const double grams = each.share * r.total_g();
        r.parts.push_back({MatterKind::leftover, each.block, each.at, each.share, grams});
    }
    list(blends.additives, r.wax_g);
    list(blends.oils, r.scent_g);
    for (const MatterInput& wax : blends.waxes) {
        if (wax.liquid_density && !(wax.liquid_density->two.value > 0)) {
            r.one_liquid_density.push_back(wax.block);
        } else if (wax.liquid_density.unsaid()) {
            r.no_liquid_density.push_back(wax.block);
        }
    }
    for (const MatterInput& additive : blends.additives) {
        if (additive.density.unsaid()) r.no_additive_density.push_back(additive.block);
    }
}

} // namespace

Blends blends_of(const Inputs& in) {
    Blends blends;
    blends.waxes = reliable(in.waxes());
    blends.oils = reliable(in.oils());
    blends.additives = reliable(in.additives());
    blends.waxes_whole = whole(blends.waxes);
    blends.oils_whole = whole(blends.oils);
    blends.additives_known = in.additives_said == Said::no ||
                             (!blends.additives.empty() && sum(blends.additives) <= 1 + sum_error);
    return blends;
}

Amounts amounts_of(const Inputs& in) {
    Amounts a;
    const Blends blends = blends_of(in);
    find_fill(in, a);
    find_blend_limits(blends, a);
    find_temperatures(in, a);
    find_loads(in, blends, a);
    find_masses(in, blends, a);
    share_out(in, a);
    return a;
}

Reckoning reckon(Inputs in) {
    Reckoning r;
    static_cast<Amounts&>(r) = amounts_of(in);
    r.in = std::move(in);
    list_parts(r);
    weigh_out_pots(r);
    return r;
}

std::optional<double> portion(const Amounts& amounts, MatterKind kind, double share, Basis basis) {
    if (kind == MatterKind::oil) {
        const auto load = basis == Basis::wax ? amounts.load_of_wax : amounts.load_of_total;
        return load ? std::optional(*load * share) : std::nullopt;
    }
    if (basis == Basis::wax) return share;
    if (!amounts.load_of_wax || !amounts.additives) return std::nullopt;
    return share / (1 + *amounts.load_of_wax + *amounts.additives);
}

std::optional<double> scent_on_basis(const Inputs& in, double fraction, Basis basis) {
    Inputs other = in;
    other.load.said = Said::yes;
    other.load.value = Load{.fraction = fraction, .basis = basis, .at = in.job.count_at};
    mix(other);
    const Amounts amounts = amounts_of(other);
    const bool weighed = amounts.shared_out() && division_of(other);
    return weighed ? std::optional(amounts.scent_g) : std::nullopt;
}

} // namespace waxwright
