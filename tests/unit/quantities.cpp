#include <limits>
#include <string>

#include <doctest/doctest.h>

#include "units/quantity.hpp"
#include "units/show.hpp"

using namespace waxwright;

namespace {

Quantity make(double number, std::string_view text, double doubt = 0) {
    const auto unit = std::get<UnitReading>(read_unit(text));
    return {to_inside(number, unit), unit.dimension, unit.id,
            unit.currency,           doubt,          unit.of_volumes};
}
Quantity bare(double number) {
    return {number, dimension::count, no_unit, no_money, 0, false};
}

Quantity good(const Outcome& outcome) {
    REQUIRE(std::holds_alternative<Quantity>(outcome));
    return std::get<Quantity>(outcome);
}
Fault fault(const Outcome& outcome) {
    REQUIRE(std::holds_alternative<Fault>(outcome));
    return std::get<Fault>(outcome);
}
std::string shown(const Outcome& outcome) {
    return show(good(outcome));
}

} // namespace

TEST_CASE("sums of likes keep the first unit") {
    CHECK(shown(add(make(2, "lb"), make(8, "oz"))) == "2.5 lb");
    CHECK(shown(subtract(make(1, "kg"), make(250, "g"))) == "0.75 kg");
    CHECK(shown(add(make(7, "%"), make(1.5, "%"))) == "8.5 %");
    CHECK(shown(add(bare(2), bare(3))) == "5");
    CHECK(shown(add(make(7.25, "EUR"), make(1, "EUR"))) == "8.25 EUR");
}

TEST_CASE("unlikes don't add") {
    CHECK(fault(add(make(2, "lb"), make(8, "fl oz"))) == Fault::unlike);
    CHECK(fault(subtract(make(2, "lb"), bare(1))) == Fault::unlike);
    CHECK(fault(add(make(7, "%"), bare(1))) == Fault::unlike);
    CHECK(fault(add(make(7, "EUR"), make(1, "USD"))) == Fault::currencies);
    CHECK(fault(add(make(7, "EUR"), make(1, "g"))) == Fault::unlike);
    CHECK(fault(add(make(7, "°C"), make(1, "g"))) == Fault::unlike);
}

TEST_CASE("points and intervals") {
    CHECK(shown(add(make(60, "°C"), make(5, "C°"))) == "65 °C");
    CHECK(shown(add(make(5, "F°"), make(60, "°F"))) == "65 °F");
    CHECK(shown(add(make(5, "K"), make(60, "°C"))) == "65 °C");
    CHECK(shown(subtract(make(60, "°C"), make(9, "F°"))) == "55 °C");
    CHECK(shown(subtract(make(75, "°C"), make(60, "°C"))) == "15 C°");
    CHECK(shown(subtract(make(185, "°F"), make(60, "°C"))) == "45 F°");
    CHECK(good(subtract(make(75, "C"), make(60, "C"))).dimension == dimension::interval);
    CHECK(fault(add(make(60, "°C"), make(5, "°C"))) == Fault::point_arithmetic);
    CHECK(fault(subtract(make(5, "C°"), make(60, "°C"))) == Fault::point_arithmetic);
    CHECK(fault(multiply(make(60, "°C"), bare(2))) == Fault::point_arithmetic);
    CHECK(fault(multiply(bare(2), make(60, "°C"))) == Fault::point_arithmetic);
    CHECK(fault(divide(make(60, "°C"), bare(2))) == Fault::point_arithmetic);
    CHECK(fault(divide(make(60, "°C"), make(60, "°C"))) == Fault::point_arithmetic);
    CHECK(shown(multiply(make(5, "C°"), bare(2))) == "10 C°");
}

TEST_CASE("products and quotients") {
    CHECK(shown(multiply(bare(3), make(2, "lb"))) == "6 lb");
    CHECK(shown(multiply(make(2, "lb"), make(50, "%"))) == "1 lb");
    CHECK(shown(divide(make(6, "oz"), bare(4))) == "1.5 oz");
    CHECK(shown(divide(make(80, "g"), make(1, "kg"))) == "8 %");
    CHECK(good(divide(make(80, "g"), make(1, "kg"))).dimension == dimension::ratio);
    CHECK(shown(divide(make(92, "g"), make(100, "ml"))) == "0.92 g/ml");
    CHECK(shown(divide(make(92, "g"), make(0.92, "g/ml"))) == "100 ml");
    CHECK(shown(multiply(make(18, "USD/h"), make(90, "min"))) == "27.00 USD");
    CHECK(shown(make(18, "USD/h")) == "18.00 USD/h");
    CHECK(shown(make(4, "g/h")) == "4 g/h");
    CHECK(shown(make(2.1, "J/g/K")) == "2.1 J/g/K");
    CHECK(fault(divide(make(1, "EUR"), make(1, "USD"))) == Fault::currencies);
    CHECK(fault(multiply(make(1, "EUR"), make(1, "USD"))) == Fault::currencies);
    const Quantity share = good(divide(make(1, "EUR"), make(4, "EUR")));
    CHECK(share.dimension == dimension::ratio);
    CHECK(share.currency == no_money);
    CHECK(fault(divide(make(1, "g"), bare(0))) == Fault::by_zero);
    CHECK(fault(divide(bare(0), bare(0))) == Fault::by_zero);
}

TEST_CASE("what is a count and what is a share") {
    const auto is = [](const Outcome& outcome) { return good(outcome).dimension; };
    CHECK(is(divide(bare(6), bare(2))) == dimension::count);
    CHECK(is(multiply(bare(6), bare(2))) == dimension::count);
    CHECK(is(multiply(bare(2), make(7, "%"))) == dimension::ratio);
    CHECK(is(divide(make(7, "%"), bare(2))) == dimension::ratio);
    CHECK(is(divide(make(7, "%"), make(2, "%"))) == dimension::ratio);
    CHECK(is(multiply(make(7, "%"), make(2, "%"))) == dimension::ratio);
    CHECK(is(divide(bare(6), make(50, "%"))) == dimension::count);
    const Quantity per_hour = good(divide(bare(12), make(1, "h")));
    CHECK(is(multiply(per_hour, make(3, "h"))) == dimension::count);
    CHECK(shown(multiply(per_hour, make(3, "h"))) == "36");
}

TEST_CASE("a share of volumes stays one until a density makes weights of it") {
    const Quantity spoon = make(2, "tsp per cup");
    CHECK(spoon.of_volumes);
    CHECK(make(2, "tsp \tper  cup").of_volumes);
    CHECK(make(1, "fl oz/gallon").of_volumes);
    CHECK(make(1, "oz per lb").of_volumes == false);
    CHECK(make(1, "g/ml").of_volumes == false);
    CHECK(good(add(make(1, "%"), spoon)).of_volumes);
    CHECK(good(subtract(spoon, make(1, "%"))).of_volumes);
    CHECK(good(multiply(bare(2), spoon)).of_volumes);
    CHECK(good(divide(spoon, bare(2))).of_volumes);
    CHECK(good(divide(make(10, "ml"), make(250, "ml"))).of_volumes);
    CHECK(good(multiply(make(10, "ml"), make(5, "ml"))).of_volumes == false);
    const Quantity weight = good(multiply(make(10, "ml"), make(0.9, "g/ml")));
    CHECK(good(divide(weight, make(250, "g"))).of_volumes == false);
}

TEST_CASE("doubts") {
    CHECK(good(add(make(10, "g", 1), make(20, "g", 2))).doubt == 3);
    CHECK(good(subtract(make(10, "g", 1), make(20, "g", 2))).doubt == 3);
    // 10 % of doubt and 5 % of doubt are 15 %.
    CHECK(good(multiply(make(10, "g", 1), make(20, "g", 1))).doubt == doctest::Approx(30));
    CHECK(good(divide(make(10, "g", 1), make(20, "ml", 1))).doubt == doctest::Approx(0.075));
    CHECK(good(multiply(make(-10, "g", 1), make(20, "g", 1))).doubt == doctest::Approx(30));
    CHECK(shown(make(0.92, "g/ml", 0.02)) == "0.92 g/ml ± 0.02");
}

TEST_CASE("what is too large is said, and no exponent wraps") {
    CHECK(fault(multiply(bare(1e200), bare(1e200))) == Fault::too_large);
    CHECK(fault(add(bare(1e300), bare(1e300))) == Fault::too_large);
    CHECK(fault(divide(bare(1e300), bare(1e-300))) == Fault::too_large);
    Quantity power = make(1, "mm");
    for (int i = 0; i < 6; ++i)
        power = good(multiply(power, power));
    CHECK(power.dimension.length == 64);
    CHECK(fault(multiply(power, power)) == Fault::too_large);
}

TEST_CASE("numbers") {
    CHECK(read_number("14.5") == 14.5);
    CHECK(read_number("0") == 0);
    CHECK(read_number("-3") == -3);
    CHECK(read_number("3/4") == 0.75);
    CHECK(read_number("1 1/2") == 1.5);
    CHECK(read_number("1 \t 1/2") == 1.5);
    CHECK(read_number("-1 1/2") == -1.5);
    CHECK(read_number("007") == 7);
    CHECK(read_number("0.1") == 0.1);
    CHECK(std::to_string(read_number("-0").value()) == "0.000000");
    CHECK(read_number("0." + std::string(400, '0') + "1") == 0);
    for (const char* bad :
         {"",      "-",      ".5",   "5.",  "1e3", "1,5",    "+3",   "- 3", "1.5/2", "1/2.5",
          "1/0",   "1 /2",   "1/ 2", "1/",  "/2",  "1 2",    "1 ",   " 1",  "1 1/0", "1.5 1/2",
          "1/2/3", "1 -1/2", "0x10", "inf", "nan", "1 1/2 ", "1..2", "--1"}) {
        CAPTURE(bad);
        CHECK_FALSE(read_number(bad));
    }
    CHECK(read_number("1" + std::string(300, '0')) == 1e300);
    CHECK_FALSE(read_number("2" + std::string(300, '0')));
    CHECK_FALSE(read_number(std::string(400, '9')));
    CHECK_FALSE(read_number("1/" + std::string(400, '9')));
}
