// What comes in place of a statement with less scent, in words.
#include "hazard_candle.hpp"

#include <doctest/doctest.h>

#include "reckon/label/less_scent.hpp"

using namespace waxwright;
using namespace waxwright::tests;

namespace {

std::string words(std::vector<std::string> statements, const std::vector<Ingredient>& oil,
                  const std::vector<Ingredient>& rest = {}, bool some_unknown = false) {
    const auto all = less_scent(std::move(statements), some_unknown, oil, rest,
                                [](double load) { return percent_cut(load, 4); });
    std::string result;
    for (const std::string& one : all)
        result += (result.empty() ? "" : "; ") + one;
    return result;
}

} // namespace

TEST_CASE("what comes in place of a statement") {
    const std::vector<Ingredient> oil{of("A", 12.5, {C::skin_sens_1b}), of("B", 87.5, {})};
    CHECK(words({"H317"}, oil) == "below 8 % EUH208 comes in place of H317, below 0.8 % neither");
    CHECK(words({"EUH208"}, oil) == "below 0.8 % no EUH208");
    CHECK(words({"EUH208"}, oil, {}, true) == "below 0.8 % no EUH208, of what is known");
    const std::vector<Ingredient> water{of("A", 50, {C::aquatic_chronic_1}), of("B", 50, {})};
    CHECK(words({"H410"}, water) == "below 50 % H411 comes in place of H410, below 5 % H412, below "
                                    "0.5 % none of them");
}

TEST_CASE("what additives have") {
    const std::vector<Ingredient> oil{of("A", 50, {C::skin_sens_1b}), of("B", 50, {})};
    CHECK(words({"H317"}, oil, {of("A", 1, {C::skin_sens_1b})}) ==
          "no load is without H317, what the additives have is enough for it");
    CHECK(words({"EUH208"}, {}, {of("A", 1, {C::skin_sens_1b})}) == "");
}

TEST_CASE("two that go at one load don't come in each other's place") {
    const std::vector<Ingredient> oil{of("A", 40, {C::eye_dam_1}), of("B", 40, {C::resp_sens_1}),
                                      of("D", 20, {})};
    CHECK(words({"H318", "H334"}, oil) ==
          "below 7.5 % H319 comes in place of H318, below 2.5 % neither; "
          "below 2.5 % EUH208 comes in place of H334, below 0.25 % neither");
}

TEST_CASE("a limit is cut down, never to nothing") {
    CHECK(percent_cut(0.25 / 6, 4) == "4.1666 %");
    CHECK(percent_cut(0.25 / 6, 2) == "4.16 %");
    CHECK(percent_cut(0.05, 2) == "5 %");
    CHECK(percent_cut(0.0000123456, 2) == "0.0012 %");
}
