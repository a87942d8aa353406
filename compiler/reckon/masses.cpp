// The mixture: its parts, load and densities, and what of it goes into one vessel.
#include "reckon/gather.hpp"
#include "reckon/loads.hpp"
#include "reckon/mixture.hpp"
#include "reckon/number.hpp"
#include "reckon/volumes.hpp"

namespace waxwright {

namespace {

/// Solid; liquid to weigh by (a wax without a liquid density counts as solid); liquid to make room
/// for (it counts thin).
enum class Phase : std::uint8_t { solid, liquid, room };

std::optional<double> as_written(const Model& model, BlockId material) {
    const auto* density = model.get<Densities>(material, Key::density);
    return density != nullptr ? positive(density->one.value) : std::nullopt;
}

/// Every liquid density says its temperature.
DensityLine line_of(const Densities& densities) {
    const Density& one = densities.one;
    const Density& two = densities.two;
    if (!(two.value > 0)) return line_through(one.value, one.celsius);
    return line_through(one.value, one.celsius, two.value, two.celsius);
}

std::optional<double> wax_density(const Model& model, BlockId wax, Phase phase, double celsius) {
    if (phase == Phase::solid) return as_written(model, wax);
    if (const auto* liquid = model.get<Densities>(wax, Key::liquid_density)) {
        return line_of(*liquid).at(celsius);
    }
    if (!unsaid(model, wax, Key::liquid_density)) return std::nullopt;
    const auto solid = as_written(model, wax);
    return solid && phase == Phase::room ? thin_liquid * *solid : solid;
}

/// Of all parts; the temperature counts for the liquids only. Waxes come first in `parts`, so an
/// additive without a density can take the mean of theirs.
std::optional<double> density_of(const Model& model, const Reckoning& r, Phase phase,
                                 double celsius) {
    Mixture wax;
    Mixture all;
    for (const Part& part : r.parts) {
        if (part.kind == MatterKind::wax) {
            const auto density = wax_density(model, part.material, phase, celsius);
            if (!density) return std::nullopt;
            wax.add(part.share, *density);
            all.add(part.share, *density);
            continue;
        }
        auto density = as_written(model, part.material);
        if (part.kind == MatterKind::additive && unsaid(model, part.material, Key::density)) {
            density = wax.density();
        }
        if (!density) return std::nullopt;
        all.add(part.kind == MatterKind::oil ? part.share * *r.load_of_wax : part.share, *density);
    }
    return all.density();
}

void list_missing(const Model& model, Reckoning& r) {
    for (const Part& part : r.parts) {
        if (part.kind == MatterKind::wax) {
            const auto* liquid = model.get<Densities>(part.material, Key::liquid_density);
            if (liquid != nullptr && !(liquid->two.value > 0)) {
                r.one_liquid_density.push_back(part.material);
            } else if (liquid == nullptr && unsaid(model, part.material, Key::liquid_density)) {
                r.no_liquid_density.push_back(part.material);
            }
        } else if (part.kind == MatterKind::additive &&
                   unsaid(model, part.material, Key::density)) {
            r.no_additive_density.push_back(part.material);
        }
    }
}

/// True if a measured liquid density is nothing, or less, at one of the temperatures.
bool runs_out(const Model& model, const Reckoning& r, BlockId wax) {
    const auto* liquid = model.get<Densities>(wax, Key::liquid_density);
    if (liquid == nullptr) return false;
    const DensityLine line = line_of(*liquid);
    return (r.pour_at && !line.at(*r.pour_at)) || (r.hottest && !line.at(*r.hottest));
}

void find_densities(const Model& model, Reckoning& r) {
    for (const Part& part : r.parts) {
        if (part.kind == MatterKind::wax && runs_out(model, r, part.material)) {
            r.no_liquid_left = part.material;
        }
    }
    r.solid_density = density_of(model, r, Phase::solid, 0);
    if (r.pour_at) r.pour_density = density_of(model, r, Phase::liquid, *r.pour_at);
    if (r.hottest) r.room_density = density_of(model, r, Phase::room, *r.hottest);
}

/// Nothing where a density it needs is unknown, or where an unreadable step may be a second pour.
std::optional<Pours> pours_of(const Model& model, const Reckoning& r) {
    if (!r.fill_ml || !r.pour_density) return std::nullopt;
    if (!r.second_pour) {
        if (model.blocks[r.job.recipe].steps_broken) return std::nullopt;
        return one_pour(*r.fill_ml, *r.pour_density);
    }
    if (!r.solid_density) return std::nullopt;
    const Pours pours = two_pours(*r.fill_ml, *r.solid_density, *r.pour_density);
    // With a wax whose liquid density is unknown counted as solid, nothing may be left to keep
    // back; that says nothing of whether it shrinks, so no verdict is given.
    if (pours.no_shrinkage && !r.no_liquid_density.empty()) {
        return one_pour(*r.fill_ml, *r.pour_density);
    }
    return pours;
}

void find_drop(Reckoning& r) {
    if (!r.bore_mm || !r.solid_density || !r.no_liquid_density.empty()) return;
    const double hollow = hollow_ml(*r.fill_ml, *r.first_pour_g, *r.solid_density);
    if (hollow > same * *r.fill_ml) r.drop_mm = positive(level_mm(hollow, *r.bore_mm));
}

} // namespace

void reckon_parts(const Model& model, const Blends& blends, Reckoning& r) {
    r.parts.reserve(blends.waxes.size() + blends.additives.size() + blends.oils.size());
    const auto put = [&r](MatterKind kind, std::span<const Share> shares) {
        for (const Share& share : shares) {
            r.parts.push_back({.kind = kind,
                               .material = share.material,
                               .at = share.at,
                               .share = share.fraction});
        }
    };
    put(MatterKind::wax, blends.waxes);
    put(MatterKind::additive, blends.additives);
    put(MatterKind::oil, blends.oils);
    list_missing(model, r);
    if (!blends.additives_known) return;
    r.additives = 0;
    for (const Share& share : blends.additives) {
        *r.additives += share.fraction;
    }
}

void reckon_load(const Model& model, const Load* instead, Reckoning& r) {
    const bool no_scent = unsaid(model, r.job.recipe, Key::scent);
    const bool no_load = instead == nullptr && unsaid(model, r.job.recipe, Key::load);
    if (no_scent && no_load) {
        r.load_of_wax = 0;
        r.load_of_total = 0;
        return;
    }
    if (no_scent) return; // one without the other is told by `scent-without-load`
    const Load* load = instead != nullptr ? instead : model.get<Load>(r.job.recipe, Key::load);
    if (load == nullptr || load->by_volume || !(load->fraction >= 0)) return;
    if (load->basis == Basis::wax) {
        r.load_of_wax = sound(load->fraction);
    } else if (load->basis == Basis::total && r.additives) {
        r.load_of_wax = load_of_wax(load->fraction, *r.additives);
    }
    if (r.load_of_wax && r.additives) {
        r.load_of_total = load_of_total(*r.load_of_wax, *r.additives);
    }
}

void reckon_masses(const Model& model, const Blends& blends, Reckoning& r) {
    if (!blends.waxes_whole || !r.additives || !r.load_of_wax) return;
    if (*r.load_of_wax > 0 && !blends.oils_whole) return;
    find_densities(model, r);
    const auto pours = pours_of(model, r);
    if (!pours || !positive(pours->mass)) return;
    r.mass_g = pours->mass;
    r.first_pour_g = pours->first;
    r.second_pour_g = pours->second;
    r.no_shrinkage = pours->no_shrinkage;
    find_drop(r);
    const auto thin = density_of(model, r, Phase::room, *r.pour_at);
    if (thin) r.poured_ml = positive(pours->first / *thin);
}

std::optional<double> wax_room_density(const Model& model, const Reckoning& reckoning,
                                       double celsius) {
    Mixture waxes;
    for (const Part& part : reckoning.parts) {
        if (part.kind != MatterKind::wax) continue;
        const auto density = wax_density(model, part.material, Phase::room, celsius);
        if (!density) return std::nullopt;
        waxes.add(part.share, *density);
    }
    return waxes.density();
}

} // namespace waxwright
