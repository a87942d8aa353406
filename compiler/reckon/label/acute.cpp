#include "reckon/label/acute.hpp"

#include <algorithm>
#include <limits>

#include "reckon/compare.hpp"
#include "reckon/label/class_facts.hpp"

namespace waxwright {

namespace {

constexpr RouteFacts routes[] = {
#define ROUTE(identifier, word, unit, gravest, ...)                                                \
    {Route::identifier, word, unit, HazardClass::gravest, __VA_ARGS__},
#include "reckon/label/routes.def"
#undef ROUTE
};

HazardClass class_of(const RouteFacts& route, int category) {
    return static_cast<HazardClass>(static_cast<int>(route.gravest) + category - 1);
}

static_assert(static_cast<int>(HazardClass::acute_tox_4_oral) ==
                  static_cast<int>(HazardClass::acute_tox_1_oral) + 3 &&
              static_cast<int>(HazardClass::acute_tox_4_dermal) ==
                  static_cast<int>(HazardClass::acute_tox_1_dermal) + 3 &&
              static_cast<int>(HazardClass::acute_tox_4_inhalation) ==
                  static_cast<int>(HazardClass::acute_tox_1_inhalation) + 3);

/// A value's own category says from how much on it counts; what is over the fourth, as the fourth.
double counts_from(const RouteFacts& route, double estimate) {
    return facts(class_of(route, category_of(route, estimate).value_or(4))).counts_from;
}

/// True if it says, by an estimate, in which form it is harmful when inhaled.
bool form_is_said(const RouteFacts& route, const Ingredient& one) {
    return std::ranges::any_of(one.estimates, [&](const AcuteEstimate& estimate) {
        return facts(estimate.route).gravest == route.gravest;
    });
}

std::optional<Estimate> point_of(const RouteFacts& route, const Ingredient& one) {
    const bool inhaled = route.gravest == HazardClass::acute_tox_1_inhalation;
    if (inhaled && (route.route != Route::dust_mist || form_is_said(route, one)))
        return std::nullopt;
    for (int category = 1; category <= 4; ++category) {
        if (std::ranges::count(one.classes, class_of(route, category)) == 0) continue;
        const double point = route.points[static_cast<std::size_t>(category - 1)];
        return Estimate{point, facts(class_of(route, category)).counts_from, true};
    }
    return std::nullopt;
}

} // namespace

std::span<const RouteFacts> all_routes() {
    return routes;
}

const RouteFacts& facts(Route route) {
    return routes[static_cast<std::size_t>(route)];
}

std::optional<int> category_of(const RouteFacts& route, double estimate) {
    if (!sound(estimate)) return std::nullopt; // infinite where nothing counts
    for (int category = 1; category <= 4; ++category)
        if (!over(estimate, route.limits[static_cast<std::size_t>(category - 1)])) return category;
    return std::nullopt;
}

std::optional<Estimate> estimate_of(const RouteFacts& route, const Ingredient& one) {
    std::optional<double> lowest;
    for (const AcuteEstimate& estimate : one.estimates)
        if (estimate.route == route.route && estimate.value > 0)
            lowest = std::min(estimate.value, lowest.value_or(estimate.value));
    if (lowest) return Estimate{*lowest, counts_from(route, *lowest), false};
    return point_of(route, one);
}

namespace {

Worked work(const RouteFacts& route, std::span<const Ingredient> ingredients) {
    Worked result;
    AcuteSum acute{route.route, 0, unknown_in(ingredients),
                   std::numeric_limits<double>::infinity()};
    if (!over(acute.unknown, much_unknown)) acute.unknown = 0;
    result.evidence = Evidence::read;
    for (const Ingredient& one : ingredients) {
        const auto estimate = estimate_of(route, one);
        if (!estimate) continue;
        const double value = one.fraction / estimate->value;
        const bool counts = at_least(one.fraction, estimate->from);
        result.terms.push_back({one.name, one.fraction, estimate->value, value, counts,
                                estimate->from, false, false, estimate->is_point});
        if (estimate->is_point) result.evidence = Evidence::memory;
        if (counts) acute.sum += value;
    }
    if (acute.sum > 0) acute.estimate = (1 - acute.unknown) / acute.sum;
    const auto category = category_of(route, acute.estimate);
    result.gives = class_of(route, category.value_or(4));
    result.test = route.words;
    result.limit = route.limits[static_cast<std::size_t>(category.value_or(4) - 1)];
    result.outcome = category ? TestOutcome::reached : TestOutcome::not_reached;
    result.source = "UN GHS ST/SG/AC.10/C.4/2008/23 annex 2, limits of UN GHS 2013 Table 3.1.1";
    result.acute = acute;
    return result;
}

} // namespace

std::vector<Worked> work_acute(std::span<const Ingredient> ingredients) {
    std::vector<Worked> result;
    for (const RouteFacts& route : routes) {
        Worked worked = work(route, ingredients);
        if (!worked.terms.empty()) result.push_back(std::move(worked));
    }
    return result;
}

} // namespace waxwright
