// What a recipe comes to, for the lines that say how much of what.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "editor/look.hpp"
#include "plan/plan.hpp"

namespace waxwright {

/// A recipe by itself, reckoned.
struct InNumbers {
    BlockId recipe;
    Reckoning reckoning;
    RecipePlan plan; // without its steps

    /// "412 g", in the unit and the decimals of the recipe's scale.
    std::string weight(double grams) const;
    /// How much is in one finished candle of so much for all of them: the same, but as fine as
    /// without a scale, for nobody weighs it.
    std::string weight_in_each(double grams) const;
};

/// Nothing of a recipe that an error was found in, or that can't be worked out.
std::optional<InNumbers> in_numbers(const Look& look, BlockId recipe);
/// The reckoning alone, errors or not, of a recipe of a checked look.
std::optional<Reckoning> reckoning_in(const Look& look, BlockId recipe);

/// What all candles of the recipe take of one thing, spare and what clings included.
struct Taken {
    Span at;          // a load, an item of a blend, or all of a value that is one name
    double grams;     // as the sheet for programs has it
    std::string what; // "`lavender`", "wax", "scent"
};
/// For the recipe's own lines, by place. A name within a blend that stands for a blend itself has
/// none: what it brings is weighed together with what else names the same.
std::vector<Taken> taken_by(const Look& look, const InNumbers& numbers);

/// What a `let` comes to, whatever it is used for; nothing for a blend, a load or a mistake.
std::optional<Quantity> figure_of(const Look& look, LetId id);

} // namespace waxwright
