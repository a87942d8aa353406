// A batch's melter: one vessel that melts the wax of all recipes, from which the pots are drawn.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "reckon/timeline.hpp"

namespace waxwright {

struct Melter {
    std::vector<Melting> meltings; // one for each blend of waxes, in the order of work
    Unknowns unknowns;

    /// How hot a line's wax is drawn; nothing where its pots melt their own.
    std::optional<double> celsius_for(std::size_t line) const;
    /// Which melting a line's wax is of.
    std::optional<std::size_t> melting_of(std::size_t line) const;
};

/// Groups the lines by their blend of waxes. A melting has the wax of all its lines and what clings
/// to the melter, in the fewest even fillings that its usable volume takes; it is as hot as the
/// hottest melt step of its lines. Lines that are not drawn are in none; empty for a batch without
/// a melter.
Melter melter_of(const PotInput& pot, std::span<const Reckoning> lines,
                 std::span<const std::size_t> order);

} // namespace waxwright
