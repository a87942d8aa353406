// What a hover may be about. Each writes what it knows of the spot to the card, and returns the
// place that is about; nothing, with the card as it was, where it knows nothing.
#pragma once

#include <optional>
#include <string>

#include "editor/hover_card.hpp"
#include "editor/spot.hpp"

namespace waxwright {

/// A name that stands for something, or is declared here.
std::optional<Span> tell_name(const Spot& spot, Card& card);
/// A word of the language: a key, a kind, a verb, a choice, a statement, a rule; or what is used.
std::optional<Span> tell_word(const Spot& spot, Card& card);
/// A key or a verb of a line that can't be read yet, by its words alone.
std::optional<Span> tell_unread(const Spot& spot, Card& card);
/// A figure in other units; a load; an item of a blend.
std::optional<Span> tell_figure(const Spot& spot, Card& card);

/// The quantity in the other units that are of use, with commas: "26.5 oz, 1.65 lb". Empty where
/// there are none.
std::string in_other_units(const Quantity& quantity);
/// "6 % of the wax, 5.66 % of all" of a recipe with scent.
std::string both_loads(const RecipePlan& plan);

} // namespace waxwright
