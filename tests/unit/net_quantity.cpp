// The net quantity, against figures worked from the statutory factors by hand.
#include "reckon/label/net_quantity.hpp"

#include <doctest/doctest.h>

using namespace waxwright;
using doctest::Approx;

TEST_CASE("ounces and grams by the label's own factors, never up") {
    // 16 CFR 500.19: 8 oz is 226.796 g, 10 oz 283.495, 12 oz 340.194.
    CHECK(label_grams(8) == 226);
    CHECK(label_grams(10) == 283);
    CHECK(label_grams(12) == 340);
    CHECK(label_grams(3) == 85);    // 85.0485
    CHECK(label_grams(3.5) == 99);  // 99.22: two digits under 100 g
    CHECK(label_grams(0.25) == 7);  // 7.087, and a final zero need not be shown
    CHECK(label_grams(40) == 1130); // 1133.98: three digits
    // 300 g is 10.5822 oz, 180 g 6.34932.
    CHECK(label_ounces(300) == 10.5);
    CHECK(label_ounces(300, 2) == 10.58);
    CHECK(label_ounces(180) == 6.3);
    CHECK(label_ounces(180, 2) == 6.34);
}

TEST_CASE("cutting down leaves what is on a step") {
    CHECK(cut_down(0.3, 1) == 0.3);
    CHECK(cut_down(0.1 + 0.2, 1) == 0.3);
    CHECK(cut_down(2.5 * 1.2, 0) == 3);
    CHECK(cut_down(2.9999, 0) == 2);
    CHECK(cut_down(1133.98, -1) == 1130);
}

TEST_CASE("the larger of the two figures is enforced") {
    const auto down = declared_in_ounces(8);
    REQUIRE(down);
    CHECK(down->words == "Net Wt 8 oz (226 g)");
    CHECK(down->ounces_enforced);
    CHECK_FALSE(down->grams_enforced);
    CHECK(down->must_hold == Approx(226.796185).epsilon(1e-9)); // 8 × 28.349523125 g exactly

    // 227 g is the nearest, but then 227 g is what has to be in it.
    const auto nearest = declared_in_both(8, 227);
    CHECK(nearest->grams_enforced);
    CHECK_FALSE(nearest->ounces_enforced);
    CHECK(nearest->must_hold == 227);

    const auto metric = declared_in_grams(300);
    CHECK(metric->words == "Net Wt 10.5 oz (300 g)");
    CHECK(metric->grams_enforced);
    CHECK(metric->must_hold == 300);
    CHECK_FALSE(declared_in_ounces(0));
    CHECK_FALSE(declared_in_grams(-1));
}

TEST_CASE("a pound and more") {
    // From memory of 16 CFR 500.9: the largest whole unit, and what is left.
    CHECK(declared_in_ounces(21)->words == "Net Wt 1 lb 5 oz (595 g)"); // 595.34
    CHECK(inch_pound_words(16) == "1 lb");
    CHECK(inch_pound_words(15.9) == "15.9 oz");
    CHECK(inch_pound_words(17.6) == "1 lb 1.6 oz");
    CHECK(inch_pound_words(40) == "2 lb 8 oz");
    CHECK(metric_words(1130) == "1.13 kg");
    CHECK(metric_words(999) == "999 g");
}

TEST_CASE("how high the figures are") {
    // From memory of 16 CFR 500.21(b).
    CHECK(us_type_height(5) == 1.0 / 16);
    CHECK(us_type_height(5.1) == 1.0 / 8);
    CHECK(us_type_height(25) == 1.0 / 8);
    CHECK(us_type_height(100) == 3.0 / 16);
    CHECK(us_type_height(400) == 1.0 / 4);
    CHECK(us_type_height(401) == 1.0 / 2);
    // From memory of Directive 76/211/EEC Annex I 3.1.
    CHECK(nominal_quantity(50)->figure_height == 2);
    CHECK(nominal_quantity(51)->figure_height == 3);
    CHECK(nominal_quantity(200)->figure_height == 3);
    CHECK(nominal_quantity(1000)->figure_height == 4);
    CHECK(nominal_quantity(1001)->figure_height == 6);
}

TEST_CASE("tolerable negative errors") {
    // Directive 76/211/EEC Annex I 2.4.
    const double rows[][2] = {{40, 3.6},  {60, 4.5}, {150, 6.75}, {200, 9},  {220, 9},
                              {300, 9},   {400, 12}, {600, 15},   {5, 0.45}, {50, 4.5},
                              {100, 4.5}, {500, 15}, {1000, 15},  {2000, 30}};
    for (const auto& row : rows) {
        CAPTURE(row[0]);
        CHECK(nominal_quantity(row[0])->tolerable == Approx(row[1]));
    }
    CHECK_FALSE(nominal_quantity(4.9));
    CHECK_FALSE(nominal_quantity(10001));
    CHECK(nominal_quantity(10000));
}

TEST_CASE("twice the tolerable error is the end of the e-mark") {
    // 220 g: 9 g, twice is 18 g (Annex I 1.3).
    const NominalQuantity of_220 = *nominal_quantity(220);
    CHECK(of_220.average == 220);
    CHECK(of_220.least_of_most == Approx(211));
    CHECK(of_220.least_of_any == Approx(202));
    CHECK_FALSE(may_bear_e_mark(of_220, 201.9));
    CHECK(may_bear_e_mark(of_220, 202));
}
