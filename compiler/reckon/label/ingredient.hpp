// What the arithmetic of a label reckons with: the ingredients of a candle as flat values. All
// fractions are by mass.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "model/hazard_class.hpp"

namespace waxwright {

/// A way of acute toxicity, by routes.def.
enum class Route : std::uint8_t {
#define ROUTE(identifier, ...) identifier,
#include "reckon/label/routes.def"
#undef ROUTE
};

/// An acute toxicity estimate, in the unit of its route: mg/kg, mg/l or ppmV, over 0.
struct AcuteEstimate {
    Route route;
    double value;
};

/// From this fraction of the ingredient on the mixture has the class; instead of the general limit.
struct SpecificLimit {
    HazardClass hazard;
    double from;
};

struct Ingredient {
    std::string name;
    double fraction = 0;            // of the finished candle; or of the oil, where that is said
    bool unknown = false;           // its classes are not known; else no class means none
    bool not_additive = false;      // its effect on skin and eyes does not add up (strong acids and
                                    // bases, aldehydes, phenols, …: from memory of CLP 3.2.3.3.4)
    bool additivity_unsaid = false; // nobody says whether it does, and it is summed
    std::vector<HazardClass> classes;
    std::optional<double> m_acute, m_chronic; // for the aquatic environment; 1 where not given
    std::vector<SpecificLimit> limits;
    std::vector<AcuteEstimate> estimates; // where none is given, the point of its category
};

/// The same with one entry for each name, sorted by it: what two oils share is added up before it
/// is held against a limit. Its classes, limits and estimates are put together, it is unknown,
/// not additive or nobody says whether it is, if that holds of any of its entries, and its
/// M-factors are the highest. What is no more than nothing is left out.
std::vector<Ingredient> merged(std::span<const Ingredient> ingredients);

/// The fraction of which nothing is known: ingredients that are unknown, and what no ingredient
/// accounts for. 0 to 1.
double unknown_in(std::span<const Ingredient> ingredients);

} // namespace waxwright
