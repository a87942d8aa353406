// Loads and their bases against values worked by hand.
#include "reckon/loads.hpp"

#include <doctest/doctest.h>

#include <algorithm>

using namespace waxwright;
using doctest::Approx;

namespace {

constexpr double pound = 453.59237;    // g exactly: UK Weights and Measures Act 1985, Schedule 1
constexpr double ounce = 28.349523125; // g, a sixteenth of it

} // namespace

TEST_CASE("ounces a pound, the trade's way to say a load of wax") {
    // Common practice: an ounce a pound is a sixteenth, half an ounce a thirty-second.
    CHECK(ounce / pound == Approx(0.0625).epsilon(1e-12));
    CHECK(ounce / 2 / pound == Approx(0.03125).epsilon(1e-12));
    // Of total they are 1/17 and 1/33.
    CHECK(load_of_total(ounce / pound, 0) == Approx(1.0 / 17));
    CHECK(load_of_total(ounce / 2 / pound, 0) == Approx(1.0 / 33));
}

TEST_CASE("a load of wax") {
    // 1000 g of wax, 8 % of wax: 80 g of oil, 1080 g in all, 80/1080 = 7.4074 % of total. Over a
    // limit of 5 % of the finished product, as the IFRA library states its limits, under 100 %.
    CHECK(wax_in(1080, 0.08, 0) == Approx(1000));
    CHECK(0.08 * wax_in(1080, 0.08, 0) == Approx(80));
    CHECK(load_of_total(0.08, 0) == Approx(0.074074).epsilon(1e-5));
    CHECK(load_of_total(0.08, 0) > 0.05);
    CHECK(load_of_total(0.08, 0) < 1);
}

TEST_CASE("a load of total") {
    // 480 g in all, 8 % of total: 38.4 g of oil and 441.6 g of wax. The same words taken as of wax:
    // 480/1.08 = 444.4444 g of wax and 35.5556 g of oil.
    const double f = load_of_wax(0.08, 0).value();
    CHECK(wax_in(480, f, 0) == Approx(441.6));
    CHECK(f * wax_in(480, f, 0) == Approx(38.4));
    CHECK(wax_in(480, 0.08, 0) == Approx(444.4444).epsilon(1e-6));
    CHECK(0.08 * wax_in(480, 0.08, 0) == Approx(35.5556).epsilon(2e-6));
}

TEST_CASE("the pint test's loads") {
    // 349.91 g: 8 % of wax is 323.99 g of wax and 25.92 g of scent, 8 % of total 321.92 and 27.99.
    const double of_wax = wax_in(349.91, 0.08, 0);
    CHECK(of_wax == Approx(323.99).epsilon(2e-5));
    CHECK(0.08 * of_wax == Approx(25.92).epsilon(2e-4));
    const double f = load_of_wax(0.08, 0).value();
    CHECK(wax_in(349.91, f, 0) == Approx(321.92).epsilon(2e-5));
    CHECK(f * wax_in(349.91, f, 0) == Approx(27.99).epsilon(2e-4));
}

TEST_CASE("the two bases, 10 % each way") {
    // 10 % of wax is 9.0909 % of total (1/11), 10 % of total 11.1111 % of wax (1/9).
    CHECK(load_of_total(0.10, 0) == Approx(1.0 / 11));
    CHECK(load_of_wax(0.10, 0).value() == Approx(1.0 / 9));
    CHECK(limit_of_wax(0.10).value() == Approx(1.0 / 9));
}

TEST_CASE("additives count in the total") {
    // 5 % of additives, 8 % of total: f = 0.08 · 1.05/0.92 = 9.13043 % of wax. Of 1000 g that is
    // 1000/1.1413043 = 876.190 g of wax, 43.810 g of additives and 80 g of scent.
    const double f = load_of_wax(0.08, 0.05).value();
    CHECK(f == Approx(0.0913043).epsilon(1e-6));
    const double wax = wax_in(1000, f, 0.05);
    CHECK(wax == Approx(876.190).epsilon(1e-6));
    CHECK(0.05 * wax == Approx(43.8095).epsilon(1e-6));
    CHECK(f * wax == Approx(80));
}

TEST_CASE("there and back, and the three masses make the whole") {
    for (double g = 0; g < 0.995; g += 0.01) {
        for (double a = 0; a <= 1; a += 0.125) {
            const double f = load_of_wax(g, a).value();
            CHECK(load_of_total(f, a) == Approx(g).epsilon(1e-12));
            const double wax = wax_in(750, f, a);
            CHECK(wax * (1 + f + a) == Approx(750).epsilon(1e-12));
        }
    }
}

TEST_CASE("no load of total from 100 %") {
    CHECK(load_of_wax(0, 0.1).value() == 0);
    CHECK(load_of_wax(0.99, 0));
    CHECK_FALSE(load_of_wax(1, 0));
    CHECK_FALSE(load_of_wax(1.5, 0));
    CHECK_FALSE(load_of_wax(-0.1, 0));
    CHECK_FALSE(limit_of_wax(1));
}

TEST_CASE("the load at which an oil reaches its limit") {
    // Two oils, three quarters and one quarter of the scent, limits 6 % and 1 % of total: 8 % and
    // 4 %, so the scent may be 4 % of total at the most.
    CHECK(load_at_limit(0.06, 0.75) == Approx(0.08));
    CHECK(load_at_limit(0.01, 0.25) == Approx(0.04));
    CHECK(std::min(load_at_limit(0.06, 0.75), load_at_limit(0.01, 0.25)) == Approx(0.04));
}

TEST_CASE("a blend's mean") {
    CHECK_FALSE(Mean().value());
    // 80 % that bears 10 %, 20 % that bears 5 %: 8 + 1 = 9 %.
    Mean limit;
    limit.add(0.8, 0.10);
    limit.add(0.2, 0.05);
    CHECK(limit.value().value() == Approx(0.09));
    // The second's own 10 % of total is 1/9 of wax: 8 % + 20 %/9 = 10.2222 %.
    Mean mixed;
    mixed.add(0.8, 0.10);
    mixed.add(0.2, limit_of_wax(0.10).value());
    CHECK(mixed.value().value() == Approx(0.102222).epsilon(1e-5));
    // A share of nothing has no say.
    Mean none;
    none.add(0, 5);
    CHECK_FALSE(none.value());
}
