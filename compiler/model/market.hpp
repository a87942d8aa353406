// Where candles are sold, and whose rules a label goes by: the table of markets.def.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace waxwright {

enum class Market : std::uint8_t {
#define MARKET(identifier, word, name, instead) identifier,
#include "model/markets.def"
#undef MARKET
};

std::string_view word(Market market); // "us"
std::string_view name(Market market); // "the United States"
std::span<const Market> all_markets();
/// Nothing if no market is written like that.
std::optional<Market> find_market(std::string_view word);

/// The market that somebody means who writes `EU`, `uk` or `USA`: another word or other letters
/// than its own.
std::optional<Market> market_meant(std::string_view written);

/// True where hazards go by the CLP regulation, or by what Great Britain made of it.
inline bool has_clp(Market market) {
    return market != Market::us;
}

} // namespace waxwright
