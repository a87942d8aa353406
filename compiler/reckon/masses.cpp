// The mixture: its load and densities, and what of it goes into one vessel.
#include <algorithm>

#include "reckon/amount_parts.hpp"
#include "reckon/loads.hpp"
#include "reckon/mixture.hpp"
#include "reckon/number.hpp"
#include "reckon/volumes.hpp"

namespace waxwright {

namespace {

/// Solid; liquid to weigh by (a wax without a liquid density counts as solid); liquid to make room
/// for (it counts thin).
enum class Phase : std::uint8_t { solid, liquid, room };

std::optional<double> as_written(const MatterInput& matter) {
    return matter.density ? positive(matter.density->one.value) : std::nullopt;
}

/// Every liquid density says its temperature.
DensityLine line_of(const Densities& densities) {
    const Density& one = densities.one;
    const Density& two = densities.two;
    if (!(two.value > 0)) return line_through(one.value, one.celsius);
    return line_through(one.value, one.celsius, two.value, two.celsius);
}

std::optional<double> wax_density(const MatterInput& wax, Phase phase, double celsius) {
    if (phase == Phase::solid) return as_written(wax);
    if (wax.liquid_density) return line_of(wax.liquid_density.value).at(celsius);
    if (!wax.liquid_density.unsaid()) return std::nullopt;
    const auto solid = as_written(wax);
    return solid && phase == Phase::room ? thin_liquid * *solid : solid;
}

/// Of all parts; the temperature counts for the liquids only. An additive without a density takes
/// the mean of the waxes'.
std::optional<double> density_of(const Blends& blends, double load_of_wax, Phase phase,
                                 double celsius) {
    Mixture all;
    for (const MatterInput& wax : blends.waxes) {
        const auto density = wax_density(wax, phase, celsius);
        if (!density) return std::nullopt;
        all.add(wax.share, *density);
    }
    const auto of_waxes = all.density();
    for (const MatterInput& additive : blends.additives) {
        const auto density = additive.density.unsaid() ? of_waxes : as_written(additive);
        if (!density) return std::nullopt;
        all.add(additive.share, *density);
    }
    for (const MatterInput& oil : blends.oils) {
        const auto density = as_written(oil);
        if (!density) return std::nullopt;
        all.add(oil.share * load_of_wax, *density);
    }
    return all.density();
}

/// True if a measured liquid density is nothing, or less, at one of the temperatures.
bool runs_out(const Amounts& a, const MatterInput& wax) {
    if (!wax.liquid_density) return false;
    const DensityLine line = line_of(wax.liquid_density.value);
    return (a.pour_at && !line.at(*a.pour_at)) || (a.hottest && !line.at(*a.hottest));
}

/// True if it was measured too far from one of the temperatures to speak of it.
bool is_far(const Amounts& a, const MatterInput& wax) {
    if (!wax.liquid_density) return false;
    const double one = wax.liquid_density->one.celsius;
    const bool two_points = wax.liquid_density->two.value > 0;
    const double two = two_points ? wax.liquid_density->two.celsius : one;
    const auto far = [&](std::optional<double> celsius) {
        return celsius && (*celsius > std::max(one, two) + furthest_from_density ||
                           *celsius < std::min(one, two) - furthest_from_density);
    };
    return far(a.pour_at) || far(a.hottest);
}

void find_densities(const Blends& blends, Amounts& a) {
    for (const MatterInput& wax : blends.waxes) {
        if (runs_out(a, wax)) a.no_liquid_left = wax.block;
        if (is_far(a, wax)) a.density_far = wax.block;
    }
    if (a.density_far != no_block) return;
    const double load = *a.load_of_wax;
    a.solid_density = density_of(blends, load, Phase::solid, 0);
    if (a.pour_at) a.pour_density = density_of(blends, load, Phase::liquid, *a.pour_at);
    if (a.hottest) a.room_density = density_of(blends, load, Phase::room, *a.hottest);
}

bool lacks_liquid_density(const Blends& blends) {
    for (const MatterInput& wax : blends.waxes) {
        if (wax.liquid_density.unsaid()) return true;
    }
    return false;
}

/// What the maker wants held back of one vessel's wax; nothing where that can't be read.
std::optional<double> kept_of(const Inputs& in, const Amounts& a, double first) {
    if (in.keep.mass) return sound(in.keep.mass->value());
    const Load* share = in.keep.share.get();
    if (share == nullptr) return std::nullopt;
    const bool of_wax = share->basis == Basis::wax;
    const double of_all =
        of_wax ? wax_in(share->fraction, *a.load_of_wax, *a.additives) : share->fraction;
    if (!(of_all < 1)) return std::nullopt;
    return sound(kept_of_melted(first, of_all));
}

/// Nothing where a density it needs is unknown, or where an unreadable step may be a second pour.
std::optional<Pours> pours_of(const Inputs& in, const Blends& blends, const Amounts& a) {
    if (!a.fill_ml || !a.pour_density) return std::nullopt;
    if (!a.second_pour) {
        if (in.steps_broken) return std::nullopt;
        return one_pour(*a.fill_ml, *a.pour_density);
    }
    if (!a.solid_density) return std::nullopt;
    const Pours pours = two_pours(*a.fill_ml, *a.solid_density, *a.pour_density);
    // With a wax whose liquid density is unknown counted as solid, nothing may be left to keep
    // back; that says nothing of whether it shrinks, so no verdict is given.
    const bool unknown = pours.no_shrinkage && lacks_liquid_density(blends);
    if (pours.no_shrinkage && !unknown) return pours;
    const auto kept = kept_of(in, a, pours.first);
    if (in.keep.unsaid()) return unknown ? one_pour(*a.fill_ml, *a.pour_density) : pours;
    if (!kept) return std::nullopt;
    // How much sinks isn't known: the first pour counts as all of it, and what is kept as more.
    return with_kept(unknown ? one_pour(*a.fill_ml, *a.pour_density) : pours, *kept);
}

void find_drop(const Blends& blends, Amounts& a) {
    if (!a.bore_mm || !a.solid_density || lacks_liquid_density(blends)) return;
    const double hollow = hollow_ml(*a.fill_ml, *a.first_pour_g, *a.solid_density);
    if (hollow > same * *a.fill_ml) a.drop_mm = positive(level_mm(hollow, *a.bore_mm));
}

} // namespace

void find_loads(const Inputs& in, const Blends& blends, Amounts& a) {
    if (blends.additives_known) {
        a.additives = 0;
        for (const MatterInput& additive : blends.additives)
            *a.additives += additive.share;
    }
    a.leftover = in.mixed.leftover;
    if (in.has_leftovers()) {
        a.fresh_load = in.mixed.fresh_load;
        a.fresh_additives = in.mixed.fresh_additives;
        a.load_of_wax = in.mixed.load;
    } else {
        a.fresh_load = said_load(in.load, in.oils_said != Said::no, a.additives);
        a.fresh_additives = a.additives;
        a.load_of_wax = a.fresh_load;
    }
    if (a.load_of_wax && *a.load_of_wax == 0) a.load_of_total = 0;
    if (a.load_of_wax && a.additives) {
        a.load_of_total = load_of_total(*a.load_of_wax, *a.additives);
    }
}

void find_masses(const Inputs& in, const Blends& blends, Amounts& a) {
    if (!blends.waxes_whole || !a.additives || !a.load_of_wax) return;
    if (*a.load_of_wax > 0 && !blends.oils_whole) return;
    find_densities(blends, a);
    const auto pours = pours_of(in, blends, a);
    if (!pours || !positive(pours->mass)) return;
    a.mass_g = pours->mass;
    a.first_pour_g = pours->first;
    a.second_pour_g = pours->second;
    a.sunk_g = pours->sunk;
    a.kept_g = pours->kept;
    a.melted_g = pours->mass + (pours->kept - pours->second);
    a.no_shrinkage = pours->no_shrinkage;
    find_drop(blends, a);
    const auto thin = density_of(blends, *a.load_of_wax, Phase::room, *a.pour_at);
    if (thin) a.poured_ml = positive(pours->first / *thin);
}

std::optional<double> wax_room_density(const Inputs& in, double celsius) {
    Mixture waxes;
    for (const MatterInput& wax : blends_of(in).waxes) {
        const auto density = wax_density(wax, Phase::room, celsius);
        if (!density) return std::nullopt;
        waxes.add(wax.share, *density);
    }
    return waxes.density();
}

std::optional<double> scent_density(const Inputs& in) {
    Mixture scent;
    for (const MatterInput& oil : blends_of(in).oils) {
        const auto density = as_written(oil);
        if (!density) return std::nullopt;
        scent.add(oil.share, *density);
    }
    return scent.density();
}

} // namespace waxwright
