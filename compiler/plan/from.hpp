// What a count was worked out from, in the sheet's words.
#pragma once

#include "plan/plan.hpp"
#include "reckon/from.hpp"

namespace waxwright {

/// `asked` as the call had it; empty for a stock.
FromPlan from_part(const Model& model, std::span<const Need> needs, const Supplies& supplies,
                   const Enough& enough, std::string_view asked);
/// So much of a thing in the unit it is held in: "230 g", "14".
std::string amount_words(const Model& model, const AtHand& supply, double amount);

} // namespace waxwright
