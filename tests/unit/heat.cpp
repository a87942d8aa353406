// Heating and cooling against published problems and values worked outside the project.
#include "reckon/heat.hpp"

#include <cmath>

#include <doctest/doctest.h>

using namespace waxwright;
using doctest::Approx;

TEST_CASE("Newton's law of cooling") {
    // A differential-equation lesson: 90 to 60 °C in a room of 20, k 0.05 a minute; it prints
    // about 11 minutes. ln(70/40)/0.05 = 11.192.
    CHECK(seconds_to_cool(90, 60, 20, 0.05 / 60).value() / 60 == Approx(11.192).epsilon(1e-4));
    // A textbook problem: 8 K a minute at 90 °C in a room of 20 is k = 8/70; 75 °C after
    // ln(70/55)/(8/70) = 2.110 min.
    CHECK(seconds_to_cool(90, 75, 20, 8.0 / 70 / 60).value() / 60 == Approx(2.110).epsilon(1e-3));
    // Another: 68 °C, room 21, k 0.017 a minute, ten minutes: 60.652 °C exactly.
    CHECK(cooled(68, 21, 0.017 / 60, 600) == Approx(60.652).epsilon(1e-5));
    // Wax at 85 °C in a room of 22, seen at 70 after 12 min: k = ln(63/48)/12 = 0.022661 a minute;
    // 55 °C at 28.535 min, 53.92 °C at 30.
    const double k = cooling_rate(85, 70, 22, 720).value();
    CHECK(k * 60 == Approx(0.022661).epsilon(1e-4));
    CHECK(seconds_to_cool(85, 55, 22, k).value() / 60 == Approx(28.535).epsilon(1e-4));
    CHECK(cooled(85, 22, k, 1800) == Approx(53.92).epsilon(1e-4));
}

TEST_CASE("a pot cools the faster the less is left in it while it is poured") {
    // Worked by hand: 6 vessels, 30 s each, 60 °C, room 18, k 0.0159 a minute. The integral of
    // 1/mass is 6 ln 6 = 10.751 times 30 s: 322.5 s, 18 + 42 e^(-0.08547) = 56.559 °C.
    CHECK(cooled_by_pouring(60, 18, 0.0159 / 60, 6, 30, 1097, 0) == Approx(56.559).epsilon(1e-4));
    // One vessel has nothing before it; with much kept back it is hardly more than Newton's law.
    CHECK(cooled_by_pouring(60, 18, 0.0159 / 60, 1, 30, 1097, 0) == Approx(60));
    CHECK(cooled_by_pouring(60, 18, 0.0159 / 60, 6, 30, 1097, 1090) ==
          Approx(cooled(60, 18, 0.0159 / 60, 150)).epsilon(1e-3));
}

TEST_CASE("cooling that can't be") {
    CHECK_FALSE(cooling_rate(60, 75, 20, 600)); // it warmed
    CHECK_FALSE(cooling_rate(75, 60, 60, 600)); // no warmer than the room
    CHECK_FALSE(cooling_rate(75, 60, 20, 0));
    CHECK_FALSE(seconds_to_cool(75, 20, 20, 0.001)); // it never gets there
    CHECK_FALSE(seconds_to_cool(75, 60, 20, 0));
    CHECK(seconds_to_cool(75, 75, 20, 0.001).value() == 0);
}

TEST_CASE("twice the wax cools half as fast") {
    CHECK(rate_at_mass(0.002, 1200, 2400) == Approx(0.001));
    CHECK(rate_at_mass(0.002, 1200, 600) == Approx(0.004));
}

TEST_CASE("heat to melt") {
    // q = m (c_s (Tm - T1) + L + c_l (T2 - Tm)), each worked with pencil and paper.
    // 10 kg of ice melting, 334 J/g: 3340 kJ (printed in an engineering table's example).
    CHECK(joules_to_melt(10000, {2, 334, 4.2, 0}, 0, 0) == Approx(3340e3));
    // 1 kg of paraffin, 20 to 58 to 80 °C: 2.1·38 + 180 + 2.2·22 = 308.2 kJ.
    CHECK(joules_to_melt(1000, {2.1, 180, 2.2, 58}, 20, 80) == Approx(308.2e3));
    // 0.4 kg of soy, 20 to 52 to 85 °C: 0.4 (2·32 + 120 + 2.1·33) = 101.3 kJ.
    CHECK(joules_to_melt(400, {2.0, 120, 2.1, 52}, 20, 85) == Approx(101.3e3).epsilon(1e-3));
    // 1 kg of stearic acid, 25 to 69.3 to 80 °C: 301.7 kJ.
    CHECK(joules_to_melt(1000, {1.763, 199, 2.3, 69.3}, 25, 80) == Approx(301.7e3).epsilon(1e-3));
    // Already over its melting point: no solid to warm.
    CHECK(joules_to_melt(100, {2, 100, 2, 50}, 60, 70) == Approx(100 * (100 + 2 * 20)));
    // 308.2 kJ by half of a kilowatt: 616.4 s.
    CHECK(seconds_to_heat(308.2e3, 1000, 0.5) == Approx(616.4));
    CHECK(usual_efficiency(Heated::melter) > usual_efficiency(Heated::water_bath));
    CHECK(usual_efficiency(Heated::unsaid) == usual_efficiency(Heated::water_bath));
}

TEST_CASE("cold scent takes heat from the pot") {
    // 1000 g of wax at 70 °C, 2.1 J/g/K, and 80 g of oil at 20 °C, 1.83: 146.4 J/K.
    // (2100·70 + 146.4·20)/2246.4 = 66.7415 °C.
    CHECK(mixed_temperature(2100, 70, 80 * oil_heat, 20) == Approx(66.7415).epsilon(1e-5));
    // Like and like meet in the middle.
    CHECK(mixed_temperature(50, 80, 50, 20) == Approx(50));
}

TEST_CASE("a cold bath takes more heat than the wax in it") {
    // 1554 g of soy from 17 to 76 °C, by hand: 1554 · 239.9 J/g = 373 kJ. Two litres of water from
    // 17 to 86 °C: 2000 · 0.9982 · 4.18 · 69 = 575.8 kJ.
    const HeatFigures soy{2.0, 120, 2.1, 57};
    const double wax = joules_to_melt(1554, soy, 17, 76);
    const double bath = joules_for_bath(2000, 17, 76);
    CHECK(wax == doctest::Approx(372'805).epsilon(1e-4));
    CHECK(bath == doctest::Approx(575'812).epsilon(1e-4));
    CHECK(seconds_to_heat(wax, 1500, 0.5) / 60 == doctest::Approx(8.28).epsilon(0.01));
    CHECK(seconds_to_heat(wax + bath, 1500, 1) / 60 == doctest::Approx(10.54).epsilon(0.01));
    CHECK(seconds_to_heat(wax + bath, 1500, 0.5) / 60 == doctest::Approx(21.08).epsilon(0.01));
    // No bath is hotter than 95 °C, and one that is hot enough takes nothing.
    CHECK(joules_for_bath(1000, 20, 94) == joules_for_bath(1000, 20, 90));
    CHECK(joules_for_bath(1000, 96, 80) == 0);
}
