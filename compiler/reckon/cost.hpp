// What a recipe or a batch uses, what of it is at hand, what has to be bought and what it costs.
// Masses in g, things by the piece, money in a currency's major unit.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "model/model.hpp"
#include "reckon/pack_solver.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Vessels, wicks and extras are bought by the piece, all else by weight.
bool by_the_piece(const Model& model, BlockId thing);
/// True if there is a pack of it that can be counted: any of a thing by the piece or by weight; one
/// by volume only where its density is known.
bool has_price(const Model& model, BlockId thing);

/// A thing that is used, summed over all recipes that use it.
struct Supply {
    BlockId thing = no_block;
    bool pieces = false;
    bool kept = false;         // a leftover: nobody sells it, and it is counted at no cost
    double need = 0;           // what the scale shows, spare and clings included; or pieces
    double have = 0;           // of every `stock` block of the run; a volume by the thing's density
    bool have_unknown = false; // some is at hand by volume, and its density is unknown
    double missing = 0;        // need - have, or 0
    std::vector<Pack> packs;   // those that can be counted, in the order written
    std::vector<double> sizes; // g or pieces of each
    // Nothing without packs.
    std::optional<PackChoice> all;    // the cheapest cover of the need, as from an empty shelf
    std::optional<PackChoice> to_buy; // of what is missing
    std::optional<double> price;      // of 1 g or 1 piece: that of `all`, price over amount; 0 for
                                      // what comes from no shop
};

/// So much of a thing in one recipe's line.
struct Usage {
    std::size_t supply;                  // index of Accounts::supplies
    MatterKind matter = MatterKind::wax; // of what is weighed
    double amount = 0;
};

struct Accounts {
    std::vector<Supply> supplies; // waxes, leftovers, additives, oils, wicks, vessels, extras
    std::vector<std::vector<Usage>> uses; // a list for each reckoning
    Currency currency = no_money;         // of the first thing with a price
    bool priced = false;                  // everything that is used has one
};

/// A wax of a batch's melter, all its fillings together: what is weighed into it, and the lines
/// that are poured from it. What clings to the melter is in it.
struct Drawn {
    BlockId wax;
    double grams;
    std::vector<std::size_t> lines; // index of the reckonings
};

/// The reckonings of a recipe by itself, or of all lines of a batch: needs are summed before they
/// are covered. All weights are worked out. Prices are taken to be of one currency. With a melter
/// `drawn` has all waxes, shared out over their lines by what each pours.
Accounts accounts_of(const Model& model, std::span<const Reckoning> reckonings,
                     std::span<const Drawn> drawn = {});

/// g of a material as the scale shows it, over all pots of the recipe.
double weighed_of(const Reckoning& reckoning, const Part& part);

/// What a batch says of its price and of costs other than materials, for one candle.
struct Selling {
    Currency currency = no_money;
    std::optional<double> price;
    std::optional<double> fees;     // price · the shares
    std::optional<double> labour;   // time · wage / candles
    std::optional<double> overhead; // its money / candles, or its share of materials and labour
};
/// `materials`: what those of one candle cost, if that is known; a share of an unknown cost is
/// unknown. `count` is over 0.
Selling selling_of(const Model& model, BlockId batch, double count,
                   std::optional<double> materials);

} // namespace waxwright
