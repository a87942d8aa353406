// What the files of the family `heat` share. heat.cpp has the wax's limits and the pot,
// heat_scent.cpp the flash point of the scent, heat_order.cpp the order of the steps and
// heat_work.cpp the temperatures to work at.
#pragma once

#include <cstdint>
#include <string>

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// How a pot is heated. `untold` is where it can't be known because a line could not be read: no
/// rule says anything about it.
enum class Heated : std::uint8_t { unsaid, water_bath, melter, hotplate, flame, microwave, untold };
struct Heat {
    Heated how;
    BlockId pot = no_block; // what stands in the heat: the pot, or the batch's melter
    Span at;                // where it is named; the recipe's name where it isn't
};
Heat heat_of(const Model& model, const Job& job);

/// True for a step whose temperature is the wax's (that of `warm vessels` is not).
inline bool is_of_wax(Verb verb) {
    return verb == Verb::melt || verb == Verb::add || verb == Verb::cool || verb == Verb::pour ||
           verb == Verb::second_pour;
}

/// How far under a flash point heating counts as near it: 30 F°, 16.7 C°, inclusive. The margin is
/// that of 29 CFR 1910.106(a)(19), which treats a liquid heated to within it as the next more
/// dangerous class (seen); taking it for wax and scent oil is by analogy.
inline constexpr double flash_margin = 30 / 1.8;

/// The water of a bath that is not under pressure boils at 100 °C and is always hotter than what
/// stands in it; that about 5 C° are lost on the way is common practice.
inline constexpr double hottest_in_bath = 95;

/// The flash point of a wax or oil as rules count it, in the degrees of `like`.
std::string flash_words(const Model& model, BlockId material, const Figure& like);

void check_scent_flash(const Model& model, const Reckoning& reckoning, const Heat& heat,
                       Findings& findings);
void check_rewarming(const Model& model, const Reckoning& reckoning, const Heat& heat,
                     Findings& findings);
void check_order(const Model& model, const Reckoning& reckoning, Findings& findings);
void check_work(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
