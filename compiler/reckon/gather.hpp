// The parts of a reckoning, in the order in which they are made. Each reads the Model and what the
// earlier ones have put into the Reckoning, and adds to it. Only this folder includes this.
#pragma once

#include <span>

#include "reckon/reckoning.hpp"

namespace waxwright {

/// What a recipe says it is made of. A blend that is unsaid or unreadable is empty.
struct Blends {
    std::span<const Share> waxes;
    std::span<const Share> additives;
    std::span<const Share> oils;
    bool waxes_whole = false;     // readable, and the fractions sum to 1
    bool oils_whole = false;      // so
    bool additives_known = false; // readable, or there are none
};
Blends gather_blends(const Model& model, BlockId recipe);

/// True if the block says nothing of the property, and nothing unreadable may have been it.
bool unsaid(const Model& model, BlockId block, Key key);

// vessel.cpp
void reckon_vessel(const Model& model, Reckoning& r);
// limits.cpp
void reckon_limits(const Model& model, const Blends& blends, Reckoning& r);
void reckon_steps(const Model& model, Reckoning& r);
// masses.cpp
void reckon_parts(const Model& model, const Blends& blends, Reckoning& r);
/// With `instead` in the place of the recipe's own load, if there is one.
void reckon_load(const Model& model, const Load* instead, Reckoning& r);
/// What goes into one vessel.
void reckon_masses(const Model& model, const Blends& blends, Reckoning& r);
// weigh_out.cpp
void reckon_pots(const Model& model, Reckoning& r);
void reckon_weigh_out(const Model& model, Reckoning& r);

} // namespace waxwright
