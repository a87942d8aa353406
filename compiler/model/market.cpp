#include "model/market.hpp"

#include <algorithm>
#include <string>

namespace waxwright {

namespace {

struct MarketRow {
    std::string_view word, name, instead; // the last between bars
};
constexpr MarketRow rows[] = {
#define MARKET(identifier, word, name, instead) {word, name, instead},
#include "model/markets.def"
#undef MARKET
};
constexpr Market markets[] = {
#define MARKET(identifier, word, name, instead) Market::identifier,
#include "model/markets.def"
#undef MARKET
};

} // namespace

std::string_view word(Market market) {
    return rows[static_cast<std::size_t>(market)].word;
}

std::string_view name(Market market) {
    return rows[static_cast<std::size_t>(market)].name;
}

std::span<const Market> all_markets() {
    return markets;
}

std::optional<Market> find_market(std::string_view written) {
    const auto found =
        std::ranges::find_if(markets, [&](Market market) { return word(market) == written; });
    return found == std::end(markets) ? std::nullopt : std::optional(*found);
}

std::optional<Market> market_meant(std::string_view written) {
    std::string small(written);
    std::ranges::transform(small, small.begin(),
                           [](char c) { return 'A' <= c && c <= 'Z' ? char(c - 'A' + 'a') : c; });
    if (const auto market = find_market(small); market && small != written) return market;
    const std::string barred = "|" + small + "|";
    const auto found = std::ranges::find_if(markets, [&](Market market) {
        return rows[static_cast<std::size_t>(market)].instead.find(barred) !=
               std::string_view::npos;
    });
    return found == std::end(markets) ? std::nullopt : std::optional(*found);
}

} // namespace waxwright
