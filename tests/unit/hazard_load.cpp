// How much of an oil there may be before a statement comes: against the classification itself.
#include "hazard_candle.hpp"

#include <doctest/doctest.h>

#include "reckon/label/highest_load.hpp"

using namespace waxwright;
using namespace waxwright::tests;
using doctest::Approx;

namespace {

std::string codes_at(const std::vector<Ingredient>& oil, double load) {
    std::vector<Ingredient> in_candle = oil;
    double of_oil = 0;
    for (Ingredient& one : in_candle) {
        of_oil += one.fraction;
        one.fraction *= load;
    }
    in_candle.push_back(unknown("rest of the oil", (1 - of_oil) * load * 100));
    const Classification all = classified(in_candle);
    return codes(all) + (all.sensitisers.empty() ? "" : " EUH208");
}

/// The limit is told right if the statement is absent just below it, and there just over it; at it
/// as it says.
void check_limit(const std::vector<Ingredient>& oil, std::string_view statement, double expected,
                 bool at_it) {
    CAPTURE(statement);
    const auto limit = highest_load_without(oil, statement);
    REQUIRE(limit);
    CHECK(limit->load == Approx(expected).epsilon(1e-9));
    CHECK(limit->at_it == at_it);
    const auto has = [&](double load) {
        return codes_at(oil, load).find(statement) != std::string::npos;
    };
    CHECK_FALSE(has(limit->load * (1 - 1e-6)));
    CHECK(has(limit->load) == at_it);
    CHECK(has(limit->load * (1 + 1e-6)));
}

} // namespace

TEST_CASE("the load at which H317 comes") {
    // A is 12 % of the oil and a 1B: 1 % / 12 % = 8.333… % of total, and at that it is there.
    const std::vector<Ingredient> oil{of("A", 12, {C::skin_sens_1b}), of("rest", 88, {})};
    check_limit(oil, "H317", 0.01 / 0.12, true);
    check_limit(oil, "EUH208", 0.001 / 0.12, true);
    // B, 0.5 % and a 1A, would bring it only at 20 %; it is named from 2 % on.
    const std::vector<Ingredient> two{of("A", 12, {C::skin_sens_1b}),
                                      of("B", 0.5, {C::skin_sens_1a}), of("rest", 87.5, {})};
    check_limit(two, "H317", 0.01 / 0.12, true);
}

TEST_CASE("a sum comes in steps") {
    // 60 % of the oil irritates, 10 % more in two halves: those count from a load of 20 % on. With
    // the first alone it would be 10 / 60 = 16.67 %.
    const std::vector<Ingredient> early{of("A", 60, {C::skin_irrit_2}),
                                        of("B", 5, {C::skin_irrit_2}),
                                        of("D", 5, {C::skin_irrit_2}), of("rest", 30, {})};
    check_limit(early, "H315", 0.1 / 0.6, true);
    // 45 % alone would need 22.2 %; at 20 % the others begin to count, and 9 + 2 is over 10.
    const std::vector<Ingredient> step{of("A", 45, {C::skin_irrit_2}),
                                       of("B", 5, {C::skin_irrit_2}), of("D", 5, {C::skin_irrit_2}),
                                       of("rest", 45, {})};
    check_limit(step, "H315", 0.2, true);
    // Between two steps: 30 % and, from 10 % on, 10 %: 10 / 40 = 25 %.
    const std::vector<Ingredient> between{of("A", 30, {C::skin_irrit_2}),
                                          of("B", 10, {C::skin_irrit_2}), of("rest", 60, {})};
    check_limit(between, "H315", 0.25, true);
}

TEST_CASE("a graver statement of the same kind counts as well") {
    const std::vector<Ingredient> oil{of("A", 5, {C::aquatic_chronic_1}), of("rest", 95, {})};
    check_limit(oil, "H412", 0.0025 / 0.05, true);
    check_limit(oil, "H411", 0.025 / 0.05, true);
    CHECK_FALSE(highest_load_without(oil, "H410")); // 25 % of 5 %: at five times the candle
    // Over 50 % it is H411, and still not without.
    CHECK(codes_at(oil, 0.6) == "H411");
    CHECK(highest_load_without(oil, "H412")->load == Approx(0.05));
    const std::vector<Ingredient> organs{of("A", 20, {C::stot_re_1}), of("rest", 80, {})};
    check_limit(organs, "H372", 0.5, true);
    CHECK(highest_load_without(organs, "H373")->load == Approx(0.05));
}

TEST_CASE("acute toxicity, with and without what is unknown") {
    // 2000 mg/kg: 500 / 2000 = 25 % of a 50 % share is a load of 50 %.
    const std::vector<Ingredient> known{of("A", 50, {C::acute_tox_4_oral}), of("rest", 50, {})};
    check_limit(known, "H302", 0.5, true);
    // With half of the oil unknown: 1 - 0.5 L = 2000 · 0.5 L / 500, L = 40 %, of which 20 %
    // unknown.
    const std::vector<Ingredient> unknown_half{of("A", 50, {C::acute_tox_4_oral})};
    check_limit(unknown_half, "H302", 0.4, true);
    // 30 % unknown of an oil of 350 mg/kg: without it 2000 · 0.7 L / 350 = 1 would be a load of 25
    // %; with it 1 / (4 + 0.3) = 23.3 %, where only 7 % are unknown: too few to be taken out.
    const std::vector<Ingredient> little{with_estimate(of("A", 70, {}), Route::oral, 350)};
    check_limit(little, "H302", 0.25, true);
    // 39.9 % unknown: at a load of 25.06… % they are just over 10 %, and it is there from then on.
    const std::vector<Ingredient> just{with_estimate(of("A", 60, {}), Route::oral, 305),
                                       of("rest", 0.1, {})};
    check_limit(just, "H302", 0.1 / 0.399, false);
}

TEST_CASE("no load brings it") {
    const std::vector<Ingredient> oil{of("A", 50, {C::skin_irrit_2, C::asp_tox_1, C::flam_liq_3})};
    CHECK_FALSE(highest_load_without(oil, "H317"));
    CHECK_FALSE(highest_load_without(oil, "EUH208"));
    CHECK_FALSE(highest_load_without(oil, "H304")); // the candle is solid
    CHECK(highest_load_without(oil, "H304", {.liquid = true, .viscosity = {}})->load ==
          Approx(0.2));
    CHECK_FALSE(highest_load_without(oil, "H999"));
    CHECK_FALSE(highest_load_without({}, "H317"));
}

TEST_CASE("each class from just where it says") {
    // One substance of each class with a test, 40 % of an oil: the load told is where it comes.
    for (int i = 0; i <= static_cast<int>(C::ozone_1); ++i) {
        const auto hazard = static_cast<HazardClass>(i);
        CAPTURE(word(hazard));
        const std::vector<Ingredient> oil{of("A", 40, {hazard}), of("rest", 60, {})};
        const std::string statement(code(facts(hazard).statement));
        const auto limit = highest_load_without(oil, statement);
        if (limit) {
            CHECK(codes_at(oil, limit->load).find(statement) != std::string::npos);
            CHECK(codes_at(oil, limit->load * (1 - 1e-6)).find(statement) == std::string::npos);
        } else {
            CHECK(codes_at(oil, 1).find(statement) == std::string::npos);
        }
    }
}

namespace {

/// "H317 H411 EUH208" of a candle with so much oil; the rest of it keeps its shares.
std::string codes_with(const std::vector<Ingredient>& oil, const std::vector<Ingredient>& rest,
                       double load) {
    std::vector<Ingredient> in_candle;
    double sum = 1 - load;
    for (Ingredient one : oil) {
        one.fraction *= load;
        in_candle.push_back(one);
    }
    for (Ingredient one : rest) {
        one.fraction *= 1 - load;
        sum -= one.fraction;
        in_candle.push_back(one);
    }
    in_candle.push_back(of("the waxes", sum * 100, {}));
    const Classification all = classify(in_candle);
    return codes(all) + (all.sensitisers.empty() ? "" : " EUH208");
}

} // namespace

TEST_CASE("what an additive has comes first") {
    // 0.8 % of all that isn't oil, and 30 % of the oil: 0.8 (1 - L) + 30 L = 1, L = 0.2 / 29.2.
    const std::vector<Ingredient> oil{of("A", 30, {C::skin_sens_1b}), of("B", 70, {})};
    std::vector<Ingredient> rest{of("A", 0.8, {C::skin_sens_1b})};
    const auto limit = highest_load_without(oil, "H317", {}, rest);
    REQUIRE(limit);
    CHECK(limit->load == Approx(0.2 / 29.2));
    CHECK(codes_with(oil, rest, limit->load * (1 - 1e-6)) == " EUH208");
    CHECK(codes_with(oil, rest, limit->load * (1 + 1e-6)) == "H317");
    // By itself it is enough for the words, and a little more of it for the statement.
    CHECK(highest_load_without(oil, "EUH208", {}, rest)->load == 0);
    rest[0].fraction = 0.01;
    CHECK(highest_load_without(oil, "H317", {}, rest)->load == 0);
}

TEST_CASE("an additive that is unknown makes acute toxicity come sooner") {
    // 20 % of all that isn't oil is unknown: 0.2 (1 - L) + 2000 · 0.5 L / 500 = 1, L = 0.8 / 1.8.
    const std::vector<Ingredient> oil{of("A", 50, {C::acute_tox_4_oral}), of("B", 50, {})};
    const std::vector<Ingredient> rest{unknown("C", 20)};
    CHECK(highest_load_without(oil, "H302", {}, rest)->load == Approx(0.8 / 1.8));
}
