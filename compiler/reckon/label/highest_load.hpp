// How much of an oil a candle may have before a statement comes onto its label.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "reckon/label/ingredient.hpp"
#include "reckon/label/sums.hpp"

namespace waxwright {

/// A load of total. Over it there is the statement, or a graver one; at it too, where `at_it`.
struct LoadLimit {
    double load;
    bool at_it;
};

/// The load of total, a mass fraction, below which neither a statement ("H317", or "EUH208": what
/// sets off who is sensitised) nor a graver one of the same kind is brought about. `oil`: fractions
/// of the oil, or of the blend of oils; the wax is taken to have no class and to be known. Nothing
/// if no load up to 100 % brings it about, or there is no such statement.
/// In closed form: a single limit is reached at limit/share. A sum grows with the load, in steps at
/// which one more ingredient begins to count, at cut-off/share; between two steps it is linear, and
/// reaches its limit at limit / sum of weight × share. The lowest of these is the answer.
std::optional<LoadLimit> highest_load_without(std::span<const Ingredient> oil,
                                              std::string_view statement, const Flow& flow = {});

} // namespace waxwright
