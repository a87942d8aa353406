// Acute toxicity of a mixture: the estimate (ATE) of all, from those of its ingredients.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "reckon/label/ingredient.hpp"
#include "reckon/label/worked.hpp"

namespace waxwright {

/// A row of routes.def.
struct RouteFacts {
    Route route;
    std::string_view words, unit;
    HazardClass gravest; // its four classes follow one another
    std::array<double, 4> limits, points;
};

std::span<const RouteFacts> all_routes();
const RouteFacts& facts(Route route);

/// The category, 1 to 4, of an estimate; the limit itself is within. Nothing over the fourth's.
std::optional<int> category_of(const RouteFacts& route, double estimate);

/// An ingredient's estimate on a route: its own, or the point of its category. A class for what is
/// inhaled doesn't say as what: dust or mist is taken, which gives a class soonest.
struct Estimate {
    double value;
    double from; // mass fraction from which it counts
    bool is_point;
};
std::optional<Estimate> estimate_of(const RouteFacts& route, const Ingredient& one);

/// The unknown fraction over which it is taken out of the mixture first (UN GHS ST/SG/AC.10/C.4/
/// 2008/23, annex 2, example 4). All that is unknown counts, however little each of it is.
inline constexpr double much_unknown = 0.1;

/// For each route on which an ingredient has an estimate: (1 - unknown) / sum of fraction/estimate.
/// Estimates over the fourth category's limit are in the sum too, as in that example; the
/// regulation (from memory of CLP Annex I 3.1.3.6.1) lets them be left out, which gives a class
/// less soon. Ingredients are merged().
std::vector<Worked> work_acute(std::span<const Ingredient> ingredients);

} // namespace waxwright
