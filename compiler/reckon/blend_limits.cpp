// What the blend bears, and what the steps do to it.
#include <algorithm>

#include "reckon/amount_parts.hpp"
#include "reckon/loads.hpp"
#include "reckon/number.hpp"

namespace waxwright {

namespace {

/// A wax's own limit as a load of wax.
std::optional<double> own_limit(const MatterInput& wax) {
    const Load* limit = wax.limit.get();
    if (limit == nullptr || limit->by_volume) return std::nullopt;
    switch (limit->basis) {
    case Basis::wax:
        return sound(limit->fraction);
    case Basis::total:
        return limit_of_wax(limit->fraction);
    case Basis::unsaid:
        break;
    }
    return std::nullopt;
}

/// Where a wax begins to set: said, or the low end of its melting range.
std::optional<double> own_sets(const MatterInput& wax) {
    if (!wax.sets.unsaid()) return figure(wax.sets);
    return wax.melts ? std::optional(wax.melts->low.value) : std::nullopt;
}

/// The mass-weighted mean, nothing if one of the waxes has no value.
template <typename Own>
std::optional<double> mean_of(std::span<const MatterInput> waxes, Own own) {
    Mean mean;
    for (const MatterInput& wax : waxes) {
        const std::optional<double> value = own(wax);
        if (!value) return std::nullopt;
        mean.add(wax.share, *value);
    }
    return mean.value();
}

void find_extremes(std::span<const MatterInput> waxes, Amounts& a) {
    double largest = 0;
    for (const MatterInput& wax : waxes) {
        if (wax.share > largest * (1 + same)) { // among equals the earlier
            largest = wax.share;
            a.largest_wax = wax.block;
        }
        const auto ceiling = figure(wax.ceiling);
        if (ceiling && (!a.ceiling || *ceiling < *a.ceiling)) {
            a.ceiling = ceiling;
            a.ceiling_wax = wax.block;
        }
        if (wax.melts && (!a.melted_at || wax.melts->high > *a.melted_at)) {
            a.melted_at = wax.melts->high;
            a.melted_wax = wax.block;
        }
        // One unsaid is no high one: nothing follows from it.
        if (wax.flash && (!a.wax_flash || low_end(wax.flash.value) < *a.wax_flash)) {
            a.wax_flash = low_end(wax.flash.value);
            a.wax_flash_of = wax.block;
        }
    }
}

/// The lowest of them; of those that leftovers bring, where `brought`.
void find_scent_flash(std::span<const MatterInput> oils, bool brought, std::optional<double>& flash,
                      BlockId& of) {
    for (const MatterInput& oil : oils) {
        if (brought && !(oil.brought > 0)) continue;
        if (!oil.flash) { // the lowest may have been this one's
            flash.reset();
            of = no_block;
            return;
        }
        if (!flash || low_end(oil.flash.value) < *flash) {
            flash = low_end(oil.flash.value);
            of = oil.block;
        }
    }
}

} // namespace

void find_blend_limits(const Blends& blends, Amounts& a) {
    find_extremes(blends.waxes, a);
    if (blends.waxes_whole) {
        a.limit_of_wax = mean_of(blends.waxes, own_limit);
        a.sets = mean_of(blends.waxes, own_sets);
    }
    find_scent_flash(blends.oils, false, a.scent_flash, a.flash_oil);
    find_scent_flash(blends.oils, true, a.brought_flash, a.brought_flash_oil);
}

void find_temperatures(const Inputs& in, Amounts& a) {
    bool poured = false;
    bool scented = false;
    for (const Step& step : in.steps) {
        std::optional<double> celsius;
        if (step.temperature()) celsius = sound(step.temperature()->value());
        if (celsius && step.verb != Verb::warm_vessels) {
            a.hottest = std::max(a.hottest.value_or(*celsius), *celsius);
        }
        if (step.verb == Verb::pour && !poured) {
            poured = true;
            a.pour_at = celsius;
        }
        if (step.verb == Verb::add && step.adds_scent && !scented) {
            scented = true;
            a.scent_at = celsius;
        }
        if (step.verb == Verb::second_pour && !a.second_pour) {
            a.second_pour = true;
            a.second_pour_at = celsius;
        }
    }
}

} // namespace waxwright
