// The vessel: brimful, headspace, fill and bore.
#include <algorithm>

#include "reckon/amount_parts.hpp"
#include "reckon/number.hpp"
#include "reckon/volumes.hpp"

namespace waxwright {

namespace {

bool tapered(const Inside* inside) {
    return inside != nullptr && inside->mouth != inside->base;
}

/// Of a vessel said by its `inside`; nothing where that can't be read or has no room.
const Inside* shape(const VesselInput& vessel) {
    const Inside* inside = vessel.inside.get();
    if (inside == nullptr) return nullptr;
    const bool good = positive(inside->mouth) && positive(inside->base) && positive(inside->depth);
    return good ? inside : nullptr;
}

std::optional<double> brimful(const VesselInput& vessel, const Inside* inside) {
    if (!vessel.brimful.unsaid()) return positive(figure(vessel.brimful));
    if (inside == nullptr) return std::nullopt;
    return positive(tapered(inside) ? taper_ml(inside->mouth, inside->base, inside->depth)
                                    : cylinder_ml(inside->mouth, inside->depth));
}

std::optional<double> headspace(const Inputs& in) {
    const auto said = figure(in.headspace.unsaid() ? in.vessel.headspace : in.headspace);
    return said && *said >= 0 ? sound(*said) : std::nullopt;
}

/// Diameter of the empty top of a straight vessel.
std::optional<double> mouth(const VesselInput& vessel, const Inside* inside) {
    for (const Given<Figure>* said : {&vessel.mouth, &vessel.bore}) {
        if (!said->unsaid()) return positive(figure(*said));
    }
    return inside != nullptr ? std::optional(inside->mouth) : std::nullopt;
}

/// Volume of the headspace as its depth and the mouth have it.
std::optional<double> empty_top(const VesselInput& vessel, const Inside* inside, const Amounts& a) {
    const double headspace = *a.headspace_mm;
    if (headspace == 0) return 0;
    if (a.depth_mm && headspace >= *a.depth_mm * (1 - same)) return a.brimful_ml;
    if (tapered(inside)) {
        return top_of_taper_ml(inside->mouth, inside->base, inside->depth, headspace);
    }
    const auto across = mouth(vessel, inside);
    return across ? std::optional(cylinder_ml(*across, headspace)) : std::nullopt;
}

/// Inside diameter where the wax ends.
std::optional<double> bore(const VesselInput& vessel, const Inside* inside, const Amounts& a) {
    if (!vessel.bore.unsaid()) return positive(figure(vessel.bore));
    if (inside == nullptr) return std::nullopt;
    if (!tapered(inside)) return inside->mouth;
    if (!vessel.fill.unsaid()) {
        if (!a.fill_ml) return std::nullopt;
        return diameter_at_fill(inside->mouth, inside->base, inside->depth, *a.fill_ml);
    }
    if (!a.headspace_mm) return std::nullopt;
    return diameter_at(inside->mouth, inside->base, inside->depth, *a.headspace_mm);
}

} // namespace

void find_fill(const Inputs& in, Amounts& a) {
    const VesselInput& vessel = in.vessel;
    if (vessel.block == no_block) return;
    const Inside* inside = shape(vessel);
    if (inside != nullptr) a.depth_mm = inside->depth;
    a.brimful_ml = brimful(vessel, inside);
    a.headspace_mm = headspace(in);
    if (!vessel.fill.unsaid()) {
        a.fill_ml = positive(figure(vessel.fill));
    } else if (a.brimful_ml && a.headspace_mm) {
        a.headspace_reckoned_ml = empty_top(vessel, inside, a);
        if (a.headspace_reckoned_ml) {
            // No more of a vessel can be empty than there is.
            a.headspace_ml = std::min(*a.headspace_reckoned_ml, *a.brimful_ml);
            const double fill = *a.brimful_ml - *a.headspace_ml;
            if (fill > same * *a.brimful_ml) a.fill_ml = positive(fill);
        } else {
            a.bore_needed_for_fill =
                vessel.bore.unsaid() && vessel.mouth.unsaid() && vessel.inside.unsaid();
        }
    }
    a.bore_mm = bore(vessel, inside, a);
}

} // namespace waxwright
