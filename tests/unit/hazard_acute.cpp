// Acute toxicity, against the examples that the United Nations published.
#include "hazard_candle.hpp"

#include <doctest/doctest.h>

#include "reckon/label/acute.hpp"
#include "units/show.hpp"

using namespace waxwright;
using namespace waxwright::tests;
using doctest::Approx;

TEST_CASE("the estimate of a mixture") {
    // UN GHS ST/SG/AC.10/C.4/2008/23 annex 2, example 4: 873 mg/kg, category 4.
    const Classification swallowed = classified({with_estimate(of("a", 26, {}), Route::oral, 2737),
                                                 with_estimate(of("b", 23, {}), Route::oral, 4500),
                                                 with_estimate(of("c", 40, {}), Route::oral, 400)});
    CHECK(codes(swallowed) == "H302");
    const Worked* worked = test_for(swallowed, C::acute_tox_4_oral);
    REQUIRE(worked);
    CHECK(worked->acute->estimate == Approx(872.52).epsilon(1e-5));
    CHECK(show_number(worked->acute->estimate, 0) == "873");
    CHECK(worked->acute->unknown == 0);

    // The same, inhaled, with 11 % of which nothing is known: 6.6 mg/l, category 3.
    const Classification inhaled =
        classified({with_estimate(of("a", 26, {}), Route::vapour, 11),
                    with_estimate(of("b", 23, {}), Route::vapour, 19),
                    with_estimate(of("c", 40, {}), Route::vapour, 4), unknown("d", 11)});
    CHECK(codes(inhaled) == "H331");
    const Worked* vapour = test_for(inhaled, C::acute_tox_3_inhalation);
    REQUIRE(vapour);
    CHECK(vapour->acute->estimate == Approx(6.5566).epsilon(1e-5));
    CHECK(show_number(vapour->acute->estimate, 1) == "6.6");
    CHECK(vapour->acute->unknown == Approx(0.11));
}

TEST_CASE("10 % unknown is not yet much") {
    const auto estimate = [](double percent) {
        return classified({with_estimate(of("a", 50, {}), Route::oral, 500), unknown("b", percent)})
            .worked[0]
            .acute->estimate;
    };
    CHECK(estimate(10) == Approx(1000));
    CHECK(estimate(10.1) == Approx(899));
}

TEST_CASE("a category without an estimate has its point") {
    // 1.5 % of an Acute Tox. 4 (500 mg/kg, from memory of CLP Annex I Table 3.1.2): 33 333 mg/kg.
    const Classification little = classified({of("A", 1.5, {C::acute_tox_4_oral})});
    CHECK(codes(little) == "");
    CHECK(little.worked[0].acute->estimate == Approx(33333.3).epsilon(1e-5));
    CHECK(little.worked[0].terms[0].is_point);
    // 100 / (25 / 500) is 2000, which is within category 4 (UN GHS 2013 Table 3.1.1).
    CHECK(codes_of({of("A", 25, {C::acute_tox_4_oral})}) == "H302");
    CHECK(codes_of({of("A", 24.99, {C::acute_tox_4_oral})}) == "");
    // On the skin: 1100 and 2000, so from 55 %.
    CHECK(codes_of({of("A", 55, {C::acute_tox_4_dermal})}) == "H312");
    CHECK(codes_of({of("A", 54.9, {C::acute_tox_4_dermal})}) == "");
    // Inhaled, as dust or mist where nothing else is said: 1.5 and 5, so from 30 %; as vapour of
    // 11 mg/l from 55 %.
    CHECK(codes_of({of("A", 30, {C::acute_tox_4_inhalation})}) == "H332");
    CHECK(codes_of({of("A", 29.9, {C::acute_tox_4_inhalation})}) == "");
    const auto vapour = [](double percent) {
        return with_estimate(of("A", percent, {C::acute_tox_4_inhalation}), Route::vapour, 11);
    };
    CHECK(codes_of({vapour(55)}) == "H332");
    CHECK(codes_of({vapour(54.9)}) == "");
}

TEST_CASE("the limits of each category, and what they are called") {
    struct {
        double estimate;
        const char* code;
    } rows[] = {{5, "H300"},   {5.01, "H300"},  {50, "H300"},   {50.1, "H301"},
                {300, "H301"}, {300.1, "H302"}, {2000, "H302"}, {2000.1, ""}};
    for (const auto& row : rows) {
        CAPTURE(row.estimate);
        CHECK(codes_of({with_estimate(of("A", 100, {}), Route::oral, row.estimate)}) == row.code);
    }
    CHECK(category_of(facts(Route::gas), 20000) == 4);
    CHECK(category_of(facts(Route::vapour), 0.5) == 1);
    CHECK_FALSE(category_of(facts(Route::dust_mist), 5.001));
}

TEST_CASE("a strong poison counts from a tenth of a percent") {
    // From memory of CLP Annex I Table 1.1: 0.1 % for categories 1 to 3, else 1 % (3.1.3.3(a)).
    CHECK(codes_of({of("A", 0.1, {C::acute_tox_1_oral})}) == "H302"); // 0.5 / 0.001 = 500
    CHECK(codes_of({of("A", 0.099, {C::acute_tox_1_oral})}) == "");
    CHECK_FALSE(classified({of("A", 0.99, {C::acute_tox_4_oral})}).worked[0].terms[0].counts);
    CHECK(classified({of("A", 1, {C::acute_tox_4_oral})}).worked[0].terms[0].counts);
}

TEST_CASE("of what is inhaled the graver category stands") {
    const Classification all = classified({with_estimate(of("A", 40, {}), Route::vapour, 4),
                                           with_estimate(of("B", 40, {}), Route::dust_mist, 1.8)});
    CHECK(codes(all) == "H331"); // vapour 10 mg/l: 3; dust 4.5 mg/l: 4
}

TEST_CASE("the arithmetic can be followed line by line") {
    const Classification all =
        classified({of("linalool", 7, {C::skin_irrit_2}), of("an aldehyde", 1, {C::skin_corr_1}),
                    of("a trace", 0.999999, {C::skin_irrit_2})});
    const auto lines = lines_of(*std::ranges::find_if(
        all.worked, [](const Worked& one) { return one.gives == C::skin_irrit_2; }));
    REQUIRE(lines.size() == 6);
    CHECK(lines[0] == "10 × Skin Corr. 1 + Skin Irrit. 2");
    CHECK(lines[1] == "a trace: 0.999999 %, under 1 %, does not count");
    CHECK(lines[2] == "an aldehyde: 1 % × 10 = 10 %");
    CHECK(lines[3] == "linalool: 7 %");
    CHECK(lines[4] == "sum 17 %; Skin Irrit. 2 from 10 %: reached");
    CHECK(lines[5] == "CLP Annex I Table 3.2.3, as an ECHA Helpdesk exercise of 2012 has it");

    const Classification poison = classified({of("A", 25, {C::acute_tox_4_oral})});
    const auto acute = lines_of(poison.worked[0]);
    REQUIRE(acute.size() == 4);
    CHECK(acute[1] == "A: 25 / 500 mg/kg (point of its category) = 0.05");
    CHECK(acute[2] == "(100 - 0) / 0.05 = 2000 mg/kg; Acute Tox. 4 (oral) from 2000 mg/kg down: "
                      "reached");

    const Classification sensitiser = classified({of("A", 0.96, {C::skin_sens_1b})});
    const auto each = lines_of(sensitiser.worked[0]);
    CHECK(each[1] == "A: 0.96 %, under 1 %");
    CHECK(each[2] == "Skin Sens. 1: not reached");
    CHECK(each[3] == "from memory of CLP Annex I Table 3.4.5");
}
