// Fresh wax, scent and additives, and what leftovers bring of each: together they are the candle.
#include <algorithm>
#include <limits>

#include "reckon/inputs.hpp"
#include "reckon/loads.hpp"
#include "reckon/number.hpp"

namespace waxwright {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// So much wax, scent and additives, as fractions of the whole candle.
struct Sums {
    double wax = 0, additives = 0, scent = 0;

    void add(MatterKind kind, double amount) {
        (kind == MatterKind::wax ? wax : kind == MatterKind::oil ? scent : additives) += amount;
    }
};

/// Of a leftover that is a load and shares: W = (1 - inner) / (1 + f + a) of it is its own wax.
bool bring(Inputs& in, const LeftoverInput& leftover) {
    if (!leftover.known) return false;
    double additives = 0;
    bool scented = false;
    for (const LeftoverPart& part : leftover.parts) {
        const MatterKind kind = in.matter[part.matter].kind;
        if (kind == MatterKind::additive) additives += part.share;
        scented = scented || kind == MatterKind::oil;
    }
    const auto load = said_load(leftover.load, scented, additives);
    if (!load) return false;
    const double wax = leftover.share * wax_in(1 - leftover.inner_share, *load, additives);
    for (const LeftoverPart& part : leftover.parts) {
        MatterInput& matter = in.matter[part.matter];
        matter.brought += wax * part.share * (matter.kind == MatterKind::oil ? *load : 1);
    }
    for (const auto& [index, fraction] : leftover.inner)
        in.matter[index].brought += leftover.share * fraction;
    return true;
}

/// Works out what leftovers bring, and how much that is of the candle.
bool bring_all(Inputs& in) {
    bool known = in.leftovers_said == Said::yes;
    for (MatterInput& matter : in.matter)
        matter.brought = 0;
    for (const LeftoverInput& leftover : in.leftovers) {
        in.mixed.leftover += leftover.share;
        known = bring(in, leftover) && known;
    }
    return known && in.mixed.leftover < 1;
}

/// Fills in the fractions of the finished candle; false where something is unknown.
bool add_up(Inputs& in) {
    Mixed& mixed = in.mixed;
    if (!bring_all(in)) return false;
    double additives = 0;
    for (const MatterInput& matter : in.additives())
        additives += matter.fresh;
    mixed.fresh_load = said_load(in.load, in.oils_said != Said::no, additives);
    if (!mixed.fresh_load) return false;
    mixed.fresh_additives = additives;
    const double fresh_wax = wax_in(1 - mixed.leftover, *mixed.fresh_load, additives);
    Sums sums;
    for (MatterInput& matter : in.matter) {
        const double of = matter.kind == MatterKind::oil ? *mixed.fresh_load : 1;
        matter.share = fresh_wax * of * matter.fresh + matter.brought;
        sums.add(matter.kind, matter.share);
        if (matter.kind == MatterKind::wax) mixed.brought_wax += matter.brought;
        if (matter.kind == MatterKind::oil) mixed.brought_scent += matter.brought;
    }
    for (MatterInput& matter : in.matter) {
        if (matter.kind != MatterKind::oil) {
            matter.share /= sums.wax;
        } else {
            matter.share = sums.scent > 0 ? matter.share / sums.scent : matter.fresh;
        }
    }
    mixed.load = sound(sums.scent / sums.wax);
    return mixed.load.has_value();
}

} // namespace

std::optional<double> said_load(const Given<Load>& load, bool scented,
                                std::optional<double> additives) {
    if (!scented && load.unsaid()) return 0;
    const Load* said = load.get();
    // One without the other is told by `scent-without-load`.
    if (!scented || said == nullptr || said->by_volume || !(said->fraction >= 0)) {
        return std::nullopt;
    }
    if (said->basis == Basis::wax) return sound(said->fraction);
    if (said->basis != Basis::total || !additives) return std::nullopt;
    return load_of_wax(said->fraction, *additives);
}

bool brings_scent(const Inputs& in) {
    const auto oils = in.oils();
    return std::any_of(oils.begin(), oils.end(),
                       [](const MatterInput& oil) { return oil.brought > 0 || !oil.weighed; });
}

void mix(Inputs& in) {
    in.mixed = {};
    const bool known = in.has_leftovers() && add_up(in);
    if (known) return;
    if (in.has_leftovers()) in.mixed.load.reset();
    for (MatterInput& matter : in.matter)
        matter.share = in.has_leftovers() ? unknown : matter.fresh;
}

} // namespace waxwright
