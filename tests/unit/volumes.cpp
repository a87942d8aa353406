// Volumes against values worked by hand or printed elsewhere.
#include "reckon/volumes.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace waxwright;
using doctest::Approx;

namespace {

/// Off by less than `distance`, in the value's own unit.
Approx within(double value, double distance) {
    return Approx(value).epsilon(distance / (1 + std::abs(value)));
}

} // namespace

TEST_CASE("water weighed at 20 °C gives the capacity") {
    // The water density tables print 998.2071 kg/m³ at 20 °C; we keep four digits of it.
    CHECK(water_at_20 == doctest::Approx(0.9982071).epsilon(1e-5));
    CHECK(water_ml(0) == 0);
    CHECK(water_ml(99.82) == Approx(100));
    // 318 / 0.9982 = 318.5734: 0.9982 × 318.5734 = 317.99997.
    CHECK(water_ml(318) == Approx(318.5734).epsilon(1e-6));
    // A gram of water at 20 °C is 1.0018 ml (the inverse, to four decimals).
    CHECK(water_ml(1) == Approx(1.0018).epsilon(1e-5));
}

TEST_CASE("a straight vessel") {
    // One mm of depth, π d²/4000: d = 70 mm 3.85 ml, 75 mm 4.42 ml, 80 mm 5.03 ml.
    CHECK(cylinder_ml(70, 1) == within(3.85, 0.005));
    CHECK(cylinder_ml(75, 1) == within(4.42, 0.005));
    CHECK(cylinder_ml(80, 1) == within(5.03, 0.005));
    // 100 mm across and deep: 250 π ml = 785.398 ml.
    CHECK(cylinder_ml(100, 100) == Approx(785.39816).epsilon(1e-8));
    // A US liquid pint (473.176473 ml, a gallon of 231 in³ over 8) in a 75 mm bore stands
    // 473176.473 / (π/4 · 5625) = 107.1 mm high.
    CHECK(level_mm(473.176473, 75) == within(107.1, 0.05));
    // Tins: 4 fl oz (118.3 ml) at 64 mm stand 36.8 mm high, 8 fl oz (236.6 ml) at 78 mm 49.5 mm.
    CHECK(level_mm(118.3, 64) == within(36.8, 0.05));
    CHECK(level_mm(236.6, 78) == within(49.5, 0.05));
}

TEST_CASE("a tapered vessel is a frustum") {
    // π h (R² + R r + r²)/3 with R 4.0 cm, r 3.5 cm, h 9.0 cm: 3 π (16 + 14 + 12.25) = 398.20 ml;
    // a cylinder of the mean radius would have 9 π 3.75² = 397.61 ml, 0.15 % less.
    CHECK(taper_ml(80, 70, 90) == within(398.20, 0.005));
    CHECK(cylinder_ml(75, 90) == within(397.61, 0.005));
    CHECK(taper_ml(70, 80, 90) == Approx(taper_ml(80, 70, 90)));
    // Without taper it is the cylinder; down to a point it is a cone, a third of it.
    CHECK(taper_ml(74, 74, 90) == Approx(cylinder_ml(74, 90)));
    CHECK(taper_ml(74, 0, 90) == Approx(cylinder_ml(74, 90) / 3));
}

TEST_CASE("the empty top of a taper") {
    // 80 mm to 70 mm across, 90 mm deep, 12 mm down: 80 - 10 · 12/90 = 78.6667 mm across;
    // π/12 · 12 · (6400 + 6293.333 + 6188.444) mm³ = π · 18881.78 mm³ = 59.3189 ml.
    CHECK(diameter_at(80, 70, 90, 12) == Approx(78.6666667).epsilon(1e-8));
    CHECK(top_of_taper_ml(80, 70, 90, 12) == Approx(59.3189).epsilon(1e-6));
    // 12 mm of the mouth's full width would be 60.32 ml: the taper is the smaller.
    CHECK(top_of_taper_ml(80, 70, 90, 12) < cylinder_ml(80, 12));
    CHECK(top_of_taper_ml(80, 70, 90, 0) == 0);
    CHECK(top_of_taper_ml(80, 70, 90, 90) == Approx(taper_ml(80, 70, 90)));
    CHECK(top_of_taper_ml(80, 70, 90, 200) == Approx(taper_ml(80, 70, 90)));
}

TEST_CASE("the headspace of a straight glass") {
    // 74 mm across and 12 mm deep: π · 74² · 12/4000 = 51.610 ml; of 318.573 ml, 266.963 are left.
    CHECK(cylinder_ml(74, 12) == within(51.610, 0.0005));
    CHECK(water_ml(318) - cylinder_ml(74, 12) == within(266.963, 0.0005));
}

TEST_CASE("diameters keep to the vessel") {
    CHECK(diameter_at(80, 70, 90, 0) == 80);
    CHECK(diameter_at(80, 70, 90, 90) == 70);
    CHECK(diameter_at(80, 70, 90, 45) == Approx(75));
    CHECK(diameter_at(80, 70, 90, 91) == 70);
    CHECK(diameter_at(80, 70, 90, -1) == 80);
    CHECK(diameter_at_fill(80, 70, 90, 0) == Approx(70));
    CHECK(diameter_at_fill(80, 70, 90, taper_ml(80, 70, 90)) == Approx(80));
    CHECK(diameter_at_fill(80, 70, 90, 1000) == 80);
}

TEST_CASE("top and bottom of a taper make the whole, at any depth and either way round") {
    const double ends[][2] = {{80, 70}, {60, 76}, {75, 74.999}, {50, 10}};
    for (const auto& [mouth, base] : ends) {
        const double whole = taper_ml(mouth, base, 90);
        for (double depth = 0; depth <= 90; depth += 1.5) {
            const double line = diameter_at(mouth, base, 90, depth);
            const double top = top_of_taper_ml(mouth, base, 90, depth);
            CHECK(top + taper_ml(line, base, 90 - depth) == Approx(whole).epsilon(1e-12));
            // The line found from the volume is the line found from the depth.
            CHECK(diameter_at_fill(mouth, base, 90, whole - top) == Approx(line).epsilon(1e-9));
        }
    }
}
