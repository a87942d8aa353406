// The figures with a source are published ones; where the source could not be read again, it says
// "from memory of".
#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "units/dimension.hpp"
#include "units/quantity.hpp"
#include "units/show.hpp"
#include "units/unit.hpp"

using namespace waxwright;

namespace {

UnitReading read(std::string_view text) {
    const auto result = read_unit(text);
    CAPTURE(text);
    REQUIRE(std::holds_alternative<UnitReading>(result));
    return std::get<UnitReading>(result);
}

std::string unknown(std::string_view text) {
    const auto result = read_unit(text);
    CAPTURE(text);
    REQUIRE(std::holds_alternative<UnknownUnit>(result));
    return std::string(std::get<UnknownUnit>(result).part);
}

Quantity make(double number, std::string_view text) {
    const UnitReading unit = read(text);
    return {to_inside(number, unit), unit.dimension, unit.id, unit.currency, 0};
}
double inside(double number, std::string_view unit) {
    return make(number, unit).value;
}

} // namespace

TEST_CASE("weights") {
    // UK Weights and Measures Act 1985, Schedule 1, Part V; an ounce is 1/16 pound.
    CHECK(inside(1, "lb") == 453.59237);
    CHECK(inside(1, "oz") == 28.349523125);
    CHECK(inside(16, "oz") == inside(1, "lb"));
    CHECK(inside(1, "lbs") == inside(1, "lb"));
    CHECK(inside(2.5, "kg") == 2500);
    CHECK(inside(250, "mg") == 0.25);
}

TEST_CASE("volumes") {
    // US: 231 cubic inches a gallon, from memory of NIST Handbook 44, Appendix C. Imperial: 4546.09
    // ml a gallon, from memory of the UK Weights and Measures Act 1985, Schedule 1.
    CHECK(inside(1, "fl oz") == 29.5735295625);
    CHECK(inside(1, "imp fl oz") == 28.4130625);
    CHECK(inside(1, "cup") == 236.5882365);
    CHECK(inside(1, "pint") == 473.176473);
    CHECK(inside(1, "quart") == 946.352946);
    CHECK(inside(1, "gallon") == 3785.411784);
    CHECK(inside(1, "imp pint") == 568.26125);
    CHECK(inside(1, "tsp") == 4.92892159375);
    CHECK(inside(3, "tsp") == doctest::Approx(inside(1, "tbsp")).epsilon(1e-15));
    CHECK(inside(2, "tbsp") == inside(1, "fl oz"));
    CHECK(inside(30, "cl") == 300);
    // The rounded set of US nutrition labels (21 CFR 101.9) is not ours.
    CHECK(inside(1, "fl oz") != 30);
    CHECK(inside(1, "cup") != 240);
}

TEST_CASE("lengths") {
    // 16 CFR 500.19: 1 inch = 2.54 cm exactly.
    CHECK(inside(1, "in") == 25.4);
    CHECK(inside(3, "in") == doctest::Approx(76.2).epsilon(1e-15));
    CHECK(inside(1, "ft") == 304.8);
}

TEST_CASE("temperatures") {
    // t/°C = (t/°F - 32)/1.8, from memory of NIST Special Publication 811, Appendix B.8.
    CHECK(inside(185, "°F") == 85);
    CHECK(inside(200, "°F") == doctest::Approx(280.0 / 3).epsilon(1e-15));
    CHECK(inside(-40, "F") == -40);
    CHECK(inside(75, "C") == 75);
    // Whatever whole or half °C a °F figure means, it is that and not a hair over it.
    for (int halves = -200; halves <= 800; ++halves) {
        const double celsius = halves * 0.5;
        const double fahrenheit = halves * 0.9 + 32;
        CHECK(inside(fahrenheit, "°F") == doctest::Approx(celsius).epsilon(1e-14));
        if (halves % 10 == 0) CHECK(inside(std::round(fahrenheit), "°F") == celsius);
    }
}

TEST_CASE("temperature intervals") {
    // 29 CFR 1910.106: 30 °F under the flash point is 16.7 °C.
    CHECK(inside(30, "F°") == doctest::Approx(50.0 / 3).epsilon(1e-15));
    CHECK(show_in(inside(30, "F°"), find_unit("C°"), dimension::interval) == "16.7 C°");
    CHECK(inside(90, "F°") == 50);
    CHECK(read("F°").dimension == dimension::interval);
    CHECK(read("°F").dimension == dimension::point);
    CHECK(read("K").dimension == dimension::interval);
}

TEST_CASE("an ounce is not a fluid ounce") {
    // 16 CFR 500.19 lists the ounce under mass, the fluid ounce under volume.
    CHECK(read("oz").dimension == dimension::mass);
    CHECK(read("fl oz").dimension == dimension::volume);
    CHECK(std::get<Fault>(add(make(8, "oz"), make(8, "fl oz"))) == Fault::unlike);
}

TEST_CASE("drops are no unit") {
    // USP 32, chapter 1101: drops differ with the liquid, and a good dropper is 15 % off.
    CHECK(unknown("drops") == "drops");
    CHECK(unit_hint("drops").find("weigh them: a drop is no measure") == 0);
    CHECK(unit_hint("drop") == unit_hint("drops"));
}

TEST_CASE("a share and a time that are written are those that are meant") {
    for (int i = 0; i <= 10000; ++i)
        CHECK(inside(i / 100.0, "%") == doctest::Approx(i / 10000.0));
    for (int i = 0; i <= 100; ++i)
        CHECK(inside(i, "%") == i / 100.0);
    for (int i = 0; i <= 1000; ++i)
        CHECK(inside(i, "mg") == i / 1000.0);
    CHECK(inside(1.5, "h") == 5400);
    CHECK(inside(14, "days") == 14 * 86400);
    CHECK(inside(2, "weeks") == inside(14, "d"));
}

TEST_CASE("every spelling is found, and its plain one is the same unit") {
    for (std::size_t i = 0; i < all_units().size(); ++i) {
        const auto id = static_cast<UnitId>(i);
        CAPTURE(unit(id).symbol);
        CHECK(find_unit(unit(id).symbol) == id);
        const Unit& printed = unit(plain(id));
        CHECK(printed.dimension == unit(id).dimension);
        CHECK(printed.factor == unit(id).factor);
        CHECK(plain(plain(id)) == plain(id));
        CHECK(find_unit(plural(id)) != no_unit);
        CHECK(unit(find_unit(plural(id))).factor == unit(id).factor);
        CHECK(from_inside(to_inside(12.5, id), id) == doctest::Approx(12.5).epsilon(1e-15));
    }
    CHECK(unit(plain(find_unit("mL"))).symbol == "ml");
    CHECK(unit(plain(find_unit("C"))).symbol == "°C");
    CHECK(unit(plain(find_unit("lbs"))).symbol == "lb");
    CHECK(plain(no_unit) == no_unit);
}

TEST_CASE("blanks inside a unit count as one") {
    const UnitId id = find_unit("fl oz");
    CHECK(find_unit("fl   oz") == id);
    CHECK(find_unit("fl \t oz") == id);
    CHECK(find_unit("imp  fl  oz") == find_unit("imp fl oz"));
    CHECK(find_unit("floz") == no_unit);
    CHECK(find_unit("") == no_unit);
    CHECK(find_unit(" ") == no_unit);
    CHECK(find_unit("imp fl oz imp fl oz") == no_unit);
    CHECK(find_unit("G") == no_unit);
    CHECK(find_unit("part") == no_unit);
}

TEST_CASE("quotients") {
    CHECK(read("g/ml").dimension == dimension::density);
    CHECK(read("g / ml").dimension == dimension::density);
    CHECK(read("kg per l").factor == 1);
    CHECK(read("J/g/K").dimension == dimension::heat_capacity);
    CHECK(read("g/h").dimension == dimension::mass_rate);
    CHECK(read("g/h").factor == doctest::Approx(1 / 3600.0).epsilon(1e-15));
    CHECK(read("oz per lb").dimension == dimension::ratio);
    CHECK(read("oz per lb").factor == 0.0625);
    CHECK(read("oz\tper  lb").factor == 0.0625);
    CHECK(read("fl oz per lb").dimension == dimension::volume_per_mass);
    CHECK(read("USD/h").dimension == dimension::wage);
    CHECK(read("USD/h").currency == find_currency("USD"));
    CHECK(read("g/ml").id == no_unit);
    CHECK(read("USD/USD").currency == no_money);
    CHECK(read("%").dimension == dimension::ratio);
    CHECK(to_inside(18, read("USD/h")) * 3600 == doctest::Approx(18).epsilon(1e-15));
}

TEST_CASE("degrees in a quotient are intervals") {
    for (const char* kelvin : {"J/g/K", "J/g/°C", "J/g/C", "J/g/C°"}) {
        CHECK(read(kelvin).dimension == dimension::heat_capacity);
        CHECK(read(kelvin).factor == 1);
    }
    for (const char* rankine : {"J/g/°F", "J/g/F", "J/g/F°"}) {
        CHECK(read(rankine).dimension == dimension::heat_capacity);
        CHECK(read(rankine).factor == doctest::Approx(1.8).epsilon(1e-15));
        CHECK(read(rankine).offset == 0);
    }
    CHECK(read("°C/min").dimension == Dimension{.time = -1, .interval = 1});
    CHECK(read("°F/min").offset == 0);
}

TEST_CASE("the part that is no unit") {
    CHECK(unknown("grams") == "grams");
    CHECK(unknown("g/drop") == "drop");
    CHECK(unknown("drops per lb") == "drops");
    CHECK(unknown("g/") == "g/");
    CHECK(unknown("/g") == "/g");
    CHECK(unknown("per") == "per");
    CHECK(unknown("g per per lb") != "");
    CHECK(unknown("USD/EUR") == "EUR");
    CHECK(unknown("") == "");
    std::string many = "g";
    for (int i = 0; i < 300; ++i)
        many += "/ml";
    CHECK(unknown(many) == "ml");
}

TEST_CASE("hints for other ways to write a unit") {
    CHECK(unit_hint("ounces") == "write `oz` for a weight, `fl oz` for a volume");
    CHECK(unit_hint("pounds").find("`lb`") != std::string::npos);
    // clang-format off
    const char* habits[][2] = {
        {"grams", "g"}, {"gram", "g"}, {"G", "g"}, {"Kg", "kg"}, {"KG", "kg"}, {"ML", "ml"},
        {"Ml", "ml"}, {"OZ", "oz"}, {"oz.", "oz"}, {"Fl Oz", "fl oz"}, {"fl. oz.", "fl oz"},
        {"floz", "fl oz"}, {"fluid  ounces", "fl oz"}, {"liter", "l"}, {"litres", "l"},
        {"inch", "in"}, {"inches", "in"}, {"hr", "h"}, {"Hrs", "h"}, {"mins", "min"},
        {"teaspoon", "tsp"}, {"tablespoons", "tbsp"}, {"celsius", "°C"}, {"Fahrenheit", "°F"},
        {"℃", "°C"}, {"℉", "°F"}, {"ºC", "°C"}, {"º C", "°C"}, {"˚F", "°F"}, {"° C", "°C"},
        {"°c", "°C"}, {"Cº", "C°"}, {"usd", "USD"}, {"percent", "%"}, {"feet", "ft"},
        {"WATTS", "W"}, {"Days", "days"}, {"f", "°F"}, {"k", "K"},
    };
    // clang-format on
    for (const auto& habit : habits) {
        CAPTURE(habit[0]);
        CHECK(unit_hint(habit[0]) == "write `" + std::string(habit[1]) + "`");
    }
    CHECK(unit_hint("degrees").find("`°C` or `°F`") != std::string::npos);
    CHECK(unit_hint("c").find("`cup`") != std::string::npos);
    CHECK(unit_hint("galons") == "did you mean `gallons`?");
    CHECK(unit_hint("minuts") == "did you mean `minute`?");
    CHECK(unit_hint("lavender") == "");
    CHECK(unit_hint("x") == "");
    CHECK(unit_hint("") == "");
    CHECK(unit_hint("|") == "");
    CHECK(unit_hint("gm|gms") == "");
}

TEST_CASE("a hint never offers what is no unit") {
    for (const char* word : {"grams", "tons", "feet", "kelvin", "gals", "imp oz", "imperial pints",
                             "kilojoules", "wks", "secs", "cc", "#"}) {
        const std::string hint = unit_hint(word);
        CAPTURE(word);
        const std::size_t open = hint.find('`');
        REQUIRE(open != std::string::npos);
        const std::string meant = hint.substr(open + 1, hint.find('`', open + 1) - open - 1);
        CHECK(find_unit(meant) != no_unit);
    }
}

TEST_CASE("names of dimensions") {
    CHECK(name_of(dimension::mass) == "a mass");
    CHECK(name_of(dimension::energy) == "an energy");
    CHECK(name_of(dimension::point) == "a temperature");
    CHECK(name_of(dimension::density) == "a density (g/ml)");
    CHECK(name_of(Dimension{.mass = 1, .length = -1}) == "a mass per length");
    CHECK(name_of(Dimension{.length = 3}) == "a length cubed");
    CHECK(name_of(Dimension{.mass = -1, .money = 1}) == "money per mass");
    CHECK(name_of(Dimension{.time = -2}) == "a number per time squared");
    CHECK(name_of(Dimension{.mass = 1, .energy = 1}) == "an energy times mass");
    CHECK(example_unit(dimension::mass) == "g");
    CHECK(example_unit(dimension::count) == "");
    CHECK(example_unit(Dimension{.length = 3}) == "");
    // What a hint offers can be written.
    for (const Dimension d :
         {dimension::ratio, dimension::mass, dimension::volume, dimension::length, dimension::time,
          dimension::point, dimension::interval, dimension::money, dimension::energy,
          dimension::power, dimension::density, dimension::mass_rate, dimension::heat_capacity,
          dimension::latent_heat, dimension::wage, dimension::volume_per_mass}) {
        CHECK(read(example_unit(d)).dimension == d);
    }
}
