// What the blend bears, and what the steps do to it.
#include <algorithm>

#include "reckon/gather.hpp"
#include "reckon/loads.hpp"
#include "reckon/number.hpp"

namespace waxwright {

namespace {

/// A wax's own limit as a load of wax.
std::optional<double> own_limit(const Model& model, BlockId wax) {
    const auto* limit = model.get<Load>(wax, Key::max_load);
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
std::optional<double> own_sets(const Model& model, BlockId wax) {
    if (!unsaid(model, wax, Key::sets)) return model.figure(wax, Key::sets);
    const auto* melts = model.get<Range>(wax, Key::melts);
    return melts != nullptr ? std::optional(melts->low.value) : std::nullopt;
}

/// The mass-weighted mean, nothing if one of the waxes has no value.
template <typename Own>
std::optional<double> mean_of(const Model& model, std::span<const Share> waxes, Own own) {
    Mean mean;
    for (const Share& wax : waxes) {
        const std::optional<double> value = own(model, wax.material);
        if (!value) return std::nullopt;
        mean.add(wax.fraction, *value);
    }
    return mean.value();
}

void find_extremes(const Model& model, std::span<const Share> waxes, Reckoning& r) {
    double largest = 0;
    for (const Share& wax : waxes) {
        if (wax.fraction > largest * (1 + same)) { // among equals the earlier
            largest = wax.fraction;
            r.largest_wax = wax.material;
        }
        const auto ceiling = model.figure(wax.material, Key::ceiling);
        if (ceiling && (!r.ceiling || *ceiling < *r.ceiling)) {
            r.ceiling = ceiling;
            r.ceiling_wax = wax.material;
        }
        const auto* melts = model.get<Range>(wax.material, Key::melts);
        if (melts != nullptr && (!r.melted_at || melts->high > *r.melted_at)) {
            r.melted_at = melts->high;
            r.melted_wax = wax.material;
        }
    }
}

void find_flash(const Model& model, std::span<const Share> oils, Reckoning& r) {
    for (const Share& oil : oils) {
        const auto* flash = model.get<Flash>(oil.material, Key::flash_point);
        if (flash == nullptr) { // the lowest may have been this one's
            r.scent_flash.reset();
            r.flash_oil = no_block;
            return;
        }
        if (!r.scent_flash || flash->counted < *r.scent_flash) {
            r.scent_flash = flash->counted;
            r.flash_oil = oil.material;
        }
    }
}

} // namespace

void reckon_limits(const Model& model, const Blends& blends, Reckoning& r) {
    find_extremes(model, blends.waxes, r);
    if (blends.waxes_whole) {
        r.limit_of_wax = mean_of(model, blends.waxes, own_limit);
        r.sets = mean_of(model, blends.waxes, own_sets);
    }
    find_flash(model, blends.oils, r);
}

void reckon_steps(const Model& model, Reckoning& r) {
    bool poured = false;
    bool scented = false;
    for (const Step& step : model.steps_of(r.job.recipe)) {
        std::optional<double> celsius;
        if (step.temperature) celsius = sound(step.temperature->value());
        if (celsius && step.verb != Verb::warm_vessels) {
            r.hottest = std::max(r.hottest.value_or(*celsius), *celsius);
        }
        if (step.verb == Verb::pour && !poured) {
            poured = true;
            r.pour_at = celsius;
        }
        if (step.verb == Verb::add && step.adds_scent && !scented) {
            scented = true;
            r.scent_at = celsius;
        }
        if (step.verb == Verb::second_pour && !r.second_pour) {
            r.second_pour = true;
            r.second_pour_at = celsius;
        }
    }
}

} // namespace waxwright
