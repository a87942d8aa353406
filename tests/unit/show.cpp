#include <cmath>
#include <limits>
#include <string>

#include <doctest/doctest.h>

#include "units/figures.hpp"
#include "units/show.hpp"

using namespace waxwright;

namespace {

/// A number written in a unit, as it is shown again.
std::string again(double number, std::string_view symbol) {
    const UnitId id = find_unit(symbol);
    return show_in(to_inside(number, id), id, unit(id).dimension);
}

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double none = std::numeric_limits<double>::quiet_NaN();

} // namespace

TEST_CASE("halves go to the even digit of the text") {
    // From memory of NIST Special Publication 811, B.7.1.
    CHECK(show_number(0.5, 0) == "0");
    CHECK(show_number(1.5, 0) == "2");
    CHECK(show_number(2.5, 0) == "2");
    CHECK(show_number(0.125, 2) == "0.12");
    CHECK(show_number(0.375, 2) == "0.38");
    // As doubles these two are a hair under their text; the text is what somebody wrote.
    CHECK(show_number(2.675, 2) == "2.68");
    CHECK(show_number(1.005, 2) == "1");
    CHECK(show_number(1.015, 2) == "1.02");
    CHECK(show_number(2.6750001, 2) == "2.68");
    CHECK(show_number(2.6649999, 2) == "2.66");
    CHECK(show_number(-2.5, 0) == "-2");
    CHECK(show_number(-3.5, 0) == "-4");
}

TEST_CASE("rounding carries") {
    CHECK(show_number(9.995, 2) == "10");
    CHECK(show_number(0.999, 2) == "1");
    CHECK(show_number(99.96, 1) == "100");
    CHECK(show_number(9999.5, 0) == "10\u202F000");
    CHECK(show_number(0.06, 1) == "0.1");
    CHECK(show_number(0.05, 1) == "0");
    CHECK(show_number(0.04, 1) == "0");
    CHECK(show_number(0.96, 0) == "1");
    CHECK(show_number(0.004, 1) == "0");
}

TEST_CASE("zeros") {
    CHECK(show_number(0, 3) == "0");
    CHECK(show_number(-0.0, 3) == "0");
    CHECK(show_number(-0.0004, 3) == "0");
    CHECK(show_number(10, 2) == "10");
    CHECK(show_number(1.50, 2) == "1.5");
    CHECK(show_number(1e-300, 3) == "0");
    CHECK(show_number(0.001, 3) == "0.001");
    CHECK(figures(0, 2, Zeros::kept) == "0.00");
    CHECK(figures(1.5, 3, Zeros::kept) == "1.500");
    CHECK(figures(100, 0, Zeros::kept) == "100");
}

TEST_CASE("groups of three") {
    CHECK(show_number(1234, 0) == "1234");
    CHECK(show_number(12345, 0) == "12\u202F345");
    CHECK(show_number(123456, 0) == "123\u202F456");
    CHECK(show_number(1234567.25, 2) == "1\u202F234\u202F567.25");
    CHECK(show_number(-12345, 0) == "-12\u202F345");
    CHECK(show_number(12340000, 0) == "12\u202F340\u202F000");
}

TEST_CASE("big numbers and what is no number") {
    CHECK(show_number(999999999999999, 0) == "999\u202F999\u202F999\u202F999\u202F999");
    CHECK(show_number(1e15, 0) == "1e+15");
    CHECK(show_number(-1.5e20, 2) == "-1.5e+20");
    CHECK(show_number(std::numeric_limits<double>::max(), 2) == "1.79769e+308");
    CHECK(show_number(infinite, 2) == "∞");
    CHECK(show_number(-infinite, 2) == "-∞");
    CHECK(show_number(none, 2) == "?");
    CHECK(show_percent(none) == "? %");
    CHECK(show_in(none, find_unit("oz"), dimension::mass) == "? oz");
    CHECK(show_in(infinite, no_unit, dimension::density) == "∞ g/ml");
    CHECK(show_temperature(none) == "? °C (? °F)");
    CHECK(show_number(1.5, -3) == "2");
    CHECK(show_number(1.5, 1000) == "1.5");
}

TEST_CASE("percent") {
    CHECK(show_percent(0.0625) == "6.25 %");
    CHECK(show_percent(0.07) == "7 %");
    CHECK(show_percent(0.08 / 1.08) == "7.41 %");
    CHECK(show_percent(1) == "100 %");
    CHECK(show_percent(0.00004) == "0 %");
    for (int i = 0; i <= 1000; ++i)
        CHECK(show_percent(i / 100.0) == show_number(i, 0) + " %");
}

TEST_CASE("what was written is shown as it was written") {
    CHECK(again(75, "°C") == "75 °C");
    CHECK(again(72.5, "C") == "72.5 °C");
    CHECK(again(185, "°F") == "185 °F");
    CHECK(again(10.75, "fl oz") == "10.75 fl oz");
    CHECK(again(12, "mm") == "12 mm");
    CHECK(again(318, "g") == "318 g");
    CHECK(again(0.1875, "oz") == "0.1875 oz");
    CHECK(again(1234.56, "g") == "1234.56 g");
    CHECK(again(30, "mL") == "30 ml");
    CHECK(again(2, "lbs") == "2 lb");
    CHECK(again(6.25, "%") == "6.25 %");
    CHECK(again(9, "F°") == "9 F°");
    CHECK(again(0.1, "mg") == "0.1 mg");
    for (std::size_t i = 0; i < all_units().size(); ++i) {
        const auto id = static_cast<UnitId>(i);
        for (const double number : {0.25, 1.3, 2.0, 7.7, 33.3, 98.6, 450.0, 1500.25}) {
            const std::string symbol(plural(id));
            CHECK(again(number, unit(id).symbol) == show_number(number, 2) + " " + symbol);
        }
    }
}

TEST_CASE("one and several") {
    CHECK(again(1, "cups") == "1 cup");
    CHECK(again(2, "cup") == "2 cups");
    CHECK(again(14, "d") == "14 days");
    CHECK(again(1, "days") == "1 day");
    CHECK(again(0.5, "gallon") == "0.5 gallons");
    CHECK(again(2, "hours") == "2 h");
    CHECK(again(2, "imp pint") == "2 imp pints");
}

TEST_CASE("a reckoned figure is cut to what it is worth") {
    const auto in = [](double value, std::string_view symbol) {
        const UnitId id = find_unit(symbol);
        return show_in(value, id, unit(id).dimension);
    };
    CHECK(in(28.349523125, "g") == "28.35 g");
    CHECK(in(453.59237, "g") == "453.59 g");
    CHECK(in(100, "oz") == "3.527 oz");
    CHECK(in(280.0 / 3, "°C") == "93.3 °C");
    CHECK(in(30 / 1.8, "C°") == "16.7 C°");
    CHECK(in(1.0 / 3, "g") == "0.333 g");
    CHECK(in(0.001234567, "g") == "0.00123 g");
    CHECK(in(0, "g") == "0 g");
    CHECK(in(1e-25, "g") == "0 g");
    CHECK(in(0.1 + 0.2, "g") == "0.3 g");
}

TEST_CASE("without a unit the bench's own is taken") {
    CHECK(show_in(0.92, no_unit, dimension::density) == "0.92 g/ml");
    CHECK(show_in(4.0 / 3600, no_unit, dimension::mass_rate) == "4 g/h");
    CHECK(show_in(2.1, no_unit, dimension::heat_capacity) == "2.1 J/g/K");
    CHECK(show_in(1000, no_unit, dimension::power) == "1000 W");
    CHECK(show_in(0.07, no_unit, dimension::ratio) == "7 %");
    CHECK(show_in(6, no_unit, dimension::count) == "6");
    CHECK(show_in(90, no_unit, dimension::time) == "1.5 min");
    CHECK(show_in(60, no_unit, dimension::point) == "60 °C");
    CHECK(show_in(5, no_unit, dimension::interval) == "5 C°");
    CHECK(show_in(8, no_unit, Dimension{.length = 3}) == "8 mm^3");
    CHECK(show_in(8, no_unit, Dimension{.mass = 1, .volume = -2}) == "8 g/ml^2");
    CHECK(show_in(8, no_unit, Dimension{.length = -2}) == "8 1/mm^2");
}

TEST_CASE("temperatures on both scales") {
    CHECK(show_temperature(75) == "75 °C (167 °F)");
    CHECK(show_temperature(75, true) == "167 °F (75 °C)");
    CHECK(show_temperature(72.5) == "72.5 °C (162.5 °F)");
    CHECK(show_temperature(71) == "71 °C (160 °F)");
    CHECK(show_temperature(280.0 / 3, true) == "200 °F (93 °C)");
    CHECK(show_temperature(-40) == "-40 °C (-40 °F)");
    CHECK(show_temperature(-0.2) == "0 °C (32 °F)");
    CHECK(show_temperature(72.499999999999) == "72.5 °C (162.5 °F)");
}
