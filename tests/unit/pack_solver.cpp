// The cheapest packs against every choice there is, and against cases worked by hand.
#include "reckon/pack_solver.hpp"

#include <doctest/doctest.h>

#include <array>
#include <limits>
#include <random>
#include <tuple>

using namespace waxwright;

namespace {

/// Price, packs, amount.
using Worth = std::tuple<std::int64_t, std::int64_t, std::int64_t>;

/// Tries every choice: of each pack from none to as many as cover the need by themselves.
void try_all(std::span<const WholePack> packs, std::int64_t need, Worth so_far, Worth& best) {
    if (packs.empty()) {
        if (std::get<2>(so_far) >= need && so_far < best) best = so_far;
        return;
    }
    const WholePack& pack = packs.front();
    for (std::int64_t i = 0; i <= (need + pack.amount - 1) / pack.amount; ++i) {
        const auto [price, count, amount] = so_far;
        try_all(packs.subspan(1), need,
                {price + i * pack.price, count + i, amount + i * pack.amount}, best);
    }
}

Worth best_of_all(std::span<const WholePack> packs, std::int64_t need) {
    Worth best{std::numeric_limits<std::int64_t>::max(), 0, 0};
    try_all(packs, need, {0, 0, 0}, best);
    return best;
}

Worth worth_of(std::span<const WholePack> packs, const PackChoice& choice) {
    Worth worth{0, 0, 0};
    for (std::size_t i = 0; i < packs.size(); ++i) {
        std::get<0>(worth) += choice.counts[i] * packs[i].price;
        std::get<1>(worth) += choice.counts[i];
        std::get<2>(worth) += choice.counts[i] * packs[i].amount;
    }
    return worth;
}

} // namespace

TEST_CASE("packs by hand") {
    // 10 kg for 64.00, 1 kg for 8.90: 7 kg by the kilo are 62.30, 8 kg are 71.20.
    const std::array<WholePack, 2> soy{{{10, 6400}, {1, 890}}};
    CHECK(cheapest_packs(soy, 7)->counts == std::vector<std::int64_t>{0, 7});
    CHECK(cheapest_packs(soy, 8)->counts == std::vector<std::int64_t>{1, 0});
    CHECK(cheapest_packs(soy, 17)->counts == std::vector<std::int64_t>{1, 7});
    CHECK(cheapest_packs(soy, 18)->counts == std::vector<std::int64_t>{2, 0});
    CHECK(cheapest_packs(soy, 18)->price == 12800);
    CHECK(cheapest_packs(soy, 18)->amount == 20);
}

TEST_CASE("among equals fewer packs, then less left over") {
    const std::array<WholePack, 2> same_rate{{{1, 5}, {4, 20}}};
    CHECK(cheapest_packs(same_rate, 8)->counts == std::vector<std::int64_t>{0, 2});
    const std::array<WholePack, 3> one_price{{{9, 30}, {6, 30}, {5, 30}}};
    CHECK(cheapest_packs(one_price, 6)->counts == std::vector<std::int64_t>{0, 1, 0});
    CHECK(cheapest_packs(one_price, 5)->counts == std::vector<std::int64_t>{0, 0, 1});
    const std::array<WholePack, 2> twice{{{6, 30}, {6, 30}}};
    CHECK(cheapest_packs(twice, 6)->counts == std::vector<std::int64_t>{1, 0}); // the first written
    const std::array<WholePack, 2> free{{{2, 0}, {7, 0}}};
    CHECK(cheapest_packs(free, 8)->counts == std::vector<std::int64_t>{1, 1});
}

TEST_CASE("nothing needed, nothing on offer, out of range") {
    const std::array<WholePack, 1> pack{{{10, 100}}};
    CHECK(cheapest_packs(pack, 0)->counts == std::vector<std::int64_t>{0});
    CHECK(cheapest_packs(pack, -5)->price == 0);
    CHECK_FALSE(cheapest_packs({}, 5).has_value());
    CHECK_FALSE(cheapest_packs(pack, most_units + 1).has_value());
    const std::array<WholePack, 1> empty{{{0, 100}}};
    CHECK_FALSE(cheapest_packs(empty, 5).has_value());
    const std::array<WholePack, 1> given{{{10, -1}}};
    CHECK_FALSE(cheapest_packs(given, 5).has_value());
}

TEST_CASE("packs against every choice") {
    std::mt19937 random(20261125); // NOLINT: the same cases each time
    const auto up_to = [&](std::int64_t most) {
        return static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(most));
    };
    for (int i = 0; i < 4000; ++i) {
        std::vector<WholePack> packs(static_cast<std::size_t>(1 + up_to(4)));
        const std::int64_t prices = i % 2 == 0 ? 6 : 60; // few prices make many ties
        for (WholePack& pack : packs)
            pack = {1 + up_to(20), up_to(prices)};
        const std::int64_t need = 1 + up_to(45);
        const auto choice = cheapest_packs(packs, need);
        REQUIRE(choice.has_value());
        CHECK(choice->proven);
        CHECK(worth_of(packs, *choice) == best_of_all(packs, need));
        CHECK(choice->price == static_cast<double>(std::get<0>(worth_of(packs, *choice))));
    }
}

TEST_CASE("a huge need is best packs and a bounded rest") {
    const std::array<WholePack, 3> packs{{{7, 100}, {5, 75}, {3, 46}}};
    constexpr std::int64_t cycle = 7; // of the best pack
    for (std::int64_t need = 1; need <= 60; ++need) {
        const auto small = cheapest_packs(packs, need + 15 * cycle);
        const auto huge = cheapest_packs(packs, need + 100'000'000'000'015 * cycle);
        CHECK(huge->proven);
        CHECK(huge->counts[0] - small->counts[0] == 100'000'000'000'000);
        CHECK(huge->counts[1] == small->counts[1]);
        CHECK(huge->counts[2] == small->counts[2]);
    }
}

TEST_CASE("made to be long, it stops and says so") {
    // One price a unit for all, and amounts without a common divisor.
    std::vector<WholePack> packs;
    for (std::int64_t i = 0; i < 30; ++i) {
        const std::int64_t amount = 1'000'000'007 + i * i * 7919 + i;
        packs.push_back({amount, amount});
    }
    const auto choice = cheapest_packs(packs, 999'999'999'999'989);
    REQUIRE(choice.has_value());
    CHECK_FALSE(choice->proven);
    CHECK(std::get<2>(worth_of(packs, *choice)) >= 999'999'999'999'989);
}
