// The parts of Amounts, in the order in which they are worked out. Each reads the inputs and what
// the earlier ones have found. Only this folder includes this.
#pragma once

#include <span>

#include "reckon/reckoning.hpp"

namespace waxwright {

/// What the mixture is made of, where that can be relied on: a list with an unknown material or a
/// share under 0 is empty.
struct Blends {
    std::span<const MatterInput> waxes, additives, oils;
    bool waxes_whole = false;     // the fractions sum to 1
    bool oils_whole = false;      // so
    bool additives_known = false; // all can be read, or there are none
};
Blends blends_of(const Inputs& in);

// fill.cpp
void find_fill(const Inputs& in, Amounts& a);
// blend_limits.cpp
void find_blend_limits(const Blends& blends, Amounts& a);
void find_temperatures(const Inputs& in, Amounts& a);
// masses.cpp
void find_loads(const Inputs& in, const Blends& blends, Amounts& a);
/// What goes into one vessel.
void find_masses(const Inputs& in, const Blends& blends, Amounts& a);
// weigh_out.cpp
/// What the scale reads, g; 0 where there is none, nothing where it can't be read.
std::optional<double> division_of(const Inputs& in);
void share_out(const Inputs& in, Amounts& a);
void weigh_out_pots(Reckoning& r);

} // namespace waxwright
