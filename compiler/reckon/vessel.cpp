// The vessel: brimful, headspace, fill and bore.
#include <algorithm>

#include "reckon/gather.hpp"
#include "reckon/number.hpp"
#include "reckon/volumes.hpp"

namespace waxwright {

namespace {

bool tapered(const Inside* inside) {
    return inside != nullptr && inside->mouth != inside->base;
}

/// Of a vessel said by its `inside`; nothing where that can't be read or has no room.
const Inside* shape(const Model& model, BlockId vessel) {
    const auto* inside = model.get<Inside>(vessel, Key::inside);
    if (inside == nullptr) return nullptr;
    const bool good = positive(inside->mouth) && positive(inside->base) && positive(inside->depth);
    return good ? inside : nullptr;
}

std::optional<double> brimful(const Model& model, BlockId vessel, const Inside* inside) {
    if (!unsaid(model, vessel, Key::brimful)) return positive(model.figure(vessel, Key::brimful));
    if (inside == nullptr) return std::nullopt;
    return positive(tapered(inside) ? taper_ml(inside->mouth, inside->base, inside->depth)
                                    : cylinder_ml(inside->mouth, inside->depth));
}

std::optional<double> headspace(const Model& model, const Job& job) {
    const bool own = !unsaid(model, job.recipe, Key::headspace);
    const auto said = model.figure(own ? job.recipe : job.vessel, Key::headspace);
    return said && *said >= 0 ? sound(*said) : std::nullopt;
}

/// Diameter of the empty top of a straight vessel.
std::optional<double> mouth(const Model& model, BlockId vessel, const Inside* inside) {
    for (const Key key : {Key::mouth, Key::bore}) {
        if (!unsaid(model, vessel, key)) return positive(model.figure(vessel, key));
    }
    return inside != nullptr ? std::optional(inside->mouth) : std::nullopt;
}

/// Volume of the headspace; no more of a vessel can be empty than there is.
std::optional<double> empty_top(const Model& model, const Inside* inside, const Reckoning& r) {
    const double headspace = *r.headspace_mm;
    if (headspace == 0) return 0;
    if (r.depth_mm && headspace >= *r.depth_mm * (1 - same)) return r.brimful_ml;
    if (tapered(inside)) {
        const double top = top_of_taper_ml(inside->mouth, inside->base, inside->depth, headspace);
        return std::min(top, *r.brimful_ml);
    }
    const auto across = mouth(model, r.job.vessel, inside);
    if (!across) return std::nullopt;
    return std::min(cylinder_ml(*across, headspace), *r.brimful_ml);
}

/// Inside diameter where the wax ends.
std::optional<double> bore(const Model& model, const Inside* inside, const Reckoning& r) {
    const BlockId vessel = r.job.vessel;
    if (!unsaid(model, vessel, Key::bore)) return positive(model.figure(vessel, Key::bore));
    if (inside == nullptr) return std::nullopt;
    if (!tapered(inside)) return inside->mouth;
    if (!unsaid(model, vessel, Key::fill)) {
        if (!r.fill_ml) return std::nullopt;
        return diameter_at_fill(inside->mouth, inside->base, inside->depth, *r.fill_ml);
    }
    if (!r.headspace_mm) return std::nullopt;
    return diameter_at(inside->mouth, inside->base, inside->depth, *r.headspace_mm);
}

} // namespace

void reckon_vessel(const Model& model, Reckoning& r) {
    const BlockId vessel = r.job.vessel;
    if (vessel == no_block) return;
    const Inside* inside = shape(model, vessel);
    if (inside != nullptr) r.depth_mm = inside->depth;
    r.brimful_ml = brimful(model, vessel, inside);
    r.headspace_mm = headspace(model, r.job);
    if (!unsaid(model, vessel, Key::fill)) {
        r.fill_ml = positive(model.figure(vessel, Key::fill));
    } else if (r.brimful_ml && r.headspace_mm) {
        r.headspace_ml = empty_top(model, inside, r);
        if (r.headspace_ml) {
            const double fill = *r.brimful_ml - *r.headspace_ml;
            if (fill > same * *r.brimful_ml) r.fill_ml = positive(fill);
        } else {
            r.bore_needed_for_fill = unsaid(model, vessel, Key::bore) &&
                                     unsaid(model, vessel, Key::mouth) &&
                                     unsaid(model, vessel, Key::inside);
        }
    }
    r.bore_mm = bore(model, inside, r);
}

} // namespace waxwright
