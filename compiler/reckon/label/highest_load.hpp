// How much of an oil a candle may have before a statement comes onto its label.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

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
/// of the oil, or of the blend of oils. `rest`: what additives bring, as fractions of all that is
/// not oil, in which the additives keep their share; what isn't told of that is wax, and taken to
/// have no class and to be known. 0 where `rest` alone is enough for it: no smaller load helps.
/// Nothing if no load up to 100 % brings it about, or there is no such statement.
/// In closed form: at a load L there is oil × L + rest × (1 - L) of an ingredient. A single limit
/// is reached where that line is. A sum of such lines is a line too, from one load at which an
/// ingredient begins or ceases to count to the next; the first of these on which it reaches its
/// limit is looked for, and the lowest of all tests is the answer.
std::optional<LoadLimit> highest_load_without(std::span<const Ingredient> oil,
                                              std::string_view statement, const Flow& flow = {},
                                              std::span<const Ingredient> rest = {});

/// The same for who asks of one candle more than once.
class LoadLimits {
public:
    LoadLimits(std::span<const Ingredient> oil, std::span<const Ingredient> rest);
    std::optional<LoadLimit> without(std::string_view statement, const Flow& flow = {}) const;

    /// A mass fraction of the candle, by the load: what the oil has of it grows with the load, and
    /// what the rest of the candle has of it shrinks.
    struct Line {
        double at_none, slope;
        double at(double load) const { return at_none + slope * load; }
    };
    struct Part {
        Ingredient one; // what it is; its own fraction says nothing here
        Line fraction;
    };
    struct Mixture {
        std::vector<Part> parts;
        Line unknown{0, 0};
    };

private:
    Mixture all_;
};

} // namespace waxwright
