// The other way round: how many vessels there is enough for. g, and pieces.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "reckon/reckoning.hpp"

namespace waxwright {

/// What there is of a thing: g of a wax, oil or additive, pieces of anything else.
struct AtHand {
    BlockId thing;
    double amount;
    Quantity held; // as the line has it that says so first: its unit is the one to print in
};

struct Supplies {
    std::vector<AtHand> all;
    /// Of a stock: what it doesn't list is not there, if it lists anything of that kind (wax, oil,
    /// additive, vessel, wick, extra). Else, and of kinds it says nothing of, it counts as at hand.
    bool lists_kinds = false;
    std::vector<BlockKind> kinds;         // that are listed
    std::vector<BlockId> without_density; // held by volume, and can't be weighed: not counted
};

/// Adds the lines up. A volume is turned into weight with the thing's density, of a wax the solid
/// one, as the language does for parts by volume.
Supplies add_up(const Model& model, std::span<const Have> haves, bool of_stock);

/// What a job takes of a thing, as it is weighed out or counted.
struct Need {
    BlockId thing;
    double amount; // g, or pieces
};
/// Every thing of the recipe. An oil of a blended scent is taken as the blend is weighed; the pots
/// then take it from that.
std::vector<Need> needs_of(const Model& model, const Reckoning& reckoning);
/// What there is of it; nothing where it is taken to be at hand.
std::optional<double> supply_of(const Model& model, const Supplies& supplies, BlockId thing);

/// The most vessels one call makes.
inline constexpr std::int64_t most_made = 1'000'000'000;

struct Enough {
    std::int64_t count = 0;          // 0: not enough for one
    bool unlimited = false;          // nothing the recipe takes is limited
    bool too_many_tries = false;     // it could not be found
    std::vector<Need> short_at_next; // what is short for one vessel more, with what that would take
};
/// The largest count whose weigh-out, rounded to the scale, fits. Rounding, spreading over pots and
/// what clings make a need jump, down as well as up, so each count from a bound down is tried. The
/// bound is proved from the method of largest remainders: a line is never weighed a whole division
/// under its exact mass.
Enough enough_for(const Model& model, BlockId recipe, const Supplies& supplies);

/// The same of a batch's lines together, the wax of its melter as that is weighed.
std::vector<Need> needs_of_batch(const Model& model, BlockId batch,
                                 std::span<const Reckoning> lines);
/// How many times the smallest set of whole vessels in the batch's own proportions there is enough
/// for: of 24 and 12 that set is 2 and 1.
Enough enough_for_batch(const Model& model, BlockId batch, const Supplies& supplies);

} // namespace waxwright
