// What a market asks a label to say of who makes the candle.
#pragma once

#include <span>
#include <string_view>

#include "model/market.hpp"
#include "model/schema.hpp"

namespace waxwright {

/// The properties of a `maker` that its label needs there. European Union, Great Britain: name,
/// address and telephone number of the supplier (Article 17 of Regulation (EC) No 1272/2008, as a
/// ministry's page has it). United States: name and place of business (16 CFR 500, by its summary;
/// what counts as a place from memory of 16 CFR 500.5).
std::span<const Key> maker_needs(Market market);

/// True if an address ends, as far as letters can show, in a city, a state and a ZIP code: "Little
/// Creek, ME 04999". What a place of business has: from memory of 16 CFR 500.5.
bool looks_like_us_place(std::string_view address);

} // namespace waxwright
