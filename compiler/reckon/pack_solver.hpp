// The cheapest way to buy enough: whole packs, as many of each as you like. Exact, in whole
// numbers.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace waxwright {

/// A pack as whole numbers: an amount in whatever fine unit the need is in, a price in a currency's
/// minor units.
struct WholePack {
    std::int64_t amount; // 1 or more
    std::int64_t price;  // 0 or more
};

struct PackChoice {
    std::vector<std::int64_t> counts; // one for each pack, in their order
    double price = 0;                 // minor units
    double amount = 0;
    bool proven = true; // false where the search was cut short: no cheaper one was found
};

/// The counts x ≥ 0 with Σ x·amount ≥ need and the least Σ x·price; among equals the fewest packs,
/// then the least left over. All counts 0 for a need of 0 or less; nothing without packs, or out of
/// range.
///
/// An integer knapsack turned over (cover instead of fill), solved by branch and bound: the packs
/// stand by price per amount, the best first, and what is still missing costs at least as much as
/// at the price of the best pack left (the linear relaxation, Dantzig 1957, from memory). That
/// bound only grows as a pack is taken less often, so a branch that is dearer ends its loop.
///
/// A huge need costs no more time than a small one. Of the other packs fewer are taken than the
/// best one holds units (of the amounts' common divisor): among that many, some add up to a whole
/// number of best packs, since two of their running sums leave the same remainder, and exchanging
/// them buys the same amount for no more money and, as the best of one price is the largest, in no
/// more packs. So all but a bounded rest is best packs.
///
/// Only prices and amounts made up against it can make the search long; it stops after
/// `most_branches` with the best found by then, and says so.
std::optional<PackChoice> cheapest_packs(std::span<const WholePack> packs, std::int64_t need);

/// Looked at before the search is cut short: some hundredths of a second.
inline constexpr std::int64_t most_branches = 1'000'000;
/// No need, amount or price may be over this.
inline constexpr std::int64_t most_units = 4'000'000'000'000'000'000;

} // namespace waxwright
