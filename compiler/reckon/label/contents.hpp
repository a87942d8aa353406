// What is in a finished candle, as the arithmetic of its label wants it: from what its oils and
// additives say that they contain. Fractions are by mass.
#pragma once

#include <optional>
#include <vector>

#include "reckon/label/ingredient.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Percents on a sheet are rounded: what an oil or additive lacks up to this, of itself, counts as
/// known and without a class (common practice). 0.05 %, half of the last digit of one decimal.
inline constexpr double most_rounding = 0.0005;

/// An oil or additive of which more than that isn't said; it counts as unknown.
struct UnsaidPart {
    BlockId material;
    Span at;          // where the recipe names it
    double of_it;     // fraction of the material, 1 where nothing is said
    double of_candle; // fraction of the candle
};

/// A substance whose classes nobody says: what an oil or additive has of it counts as unknown.
struct UnclassedPart {
    BlockId substance, material;
    double of_candle; // fraction of the candle
};

struct Contents {
    /// Of the candle. The waxes are one ingredient that is known and has no class: common practice,
    /// and the wax's own sheet goes before it. What isn't said is an ingredient that is unknown.
    std::vector<Ingredient> candle;
    // The substances that the oils tell, as fractions of their blend; empty where leftovers bring
    // another scent than the fresh one: with less of that it is another blend.
    std::vector<Ingredient> scent;
    std::vector<Ingredient> rest; // what the additives bring, as fractions of all but the scent
    std::vector<UnsaidPart> unsaid;
    std::vector<UnclassedPart> unclassed;
    std::vector<BlockId> typical; // oils whose contents are the standard library's, of no lot
    bool additives_have_class = false;
    double load_of_wax = 0, load_of_total = 0; // the high ends, where the load is doubtful
};

/// Nothing where the load can't be worked out. Where a share of a substance is doubtful its high
/// end counts.
std::optional<Contents> contents_of(const Model& model, const Reckoning& reckoning);

/// Whether the label that an oil's supplier gives may be used for this candle.
enum class SupplierUse : std::uint8_t {
    unsaid,  // no oil has one
    usable,  // one oil alone, no stronger than that label is for, and nothing else of unknown class
    no_load, // it doesn't say for how much oil it is
    blended, // a label is for one oil in wax: two oils together are another mixture
    too_much, // there is more oil than it is for
    other,    // something besides the oil is unknown or has a class
};
SupplierUse supplier_use(const Model& model, const Reckoning& reckoning, const Contents& contents);
/// Why it may not be, without a capital and a full stop; empty where it may, or there is none.
std::string_view why_not(SupplierUse use);

} // namespace waxwright
