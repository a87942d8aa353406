// Densities and pours against values worked by hand or printed elsewhere.
#include "reckon/mixture.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <initializer_list>
#include <limits>

#include "reckon/volumes.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

/// Off by less than `distance`, in the value's own unit.
Approx within(double value, double distance) {
    return Approx(value).epsilon(distance / (1 + std::abs(value)));
}

struct Amount {
    double grams;
    double density;
};

double density_of(std::initializer_list<Amount> amounts) {
    Mixture mixture;
    for (const Amount& amount : amounts) {
        mixture.add(amount.grams, amount.density);
    }
    REQUIRE(mixture.density());
    return *mixture.density();
}

constexpr double ounce = 28.349523125; // g, a sixteenth of the pound of the UK Act of 1985

} // namespace

TEST_CASE("a mixture's density by volume additivity") {
    // Equal masses: 2ab/(a + b), as an article on the density of a mixture has it: 1.6/1.8.
    CHECK(density_of({{1, 0.8}, {1, 1.0}}) == within(0.88889, 0.000005));
    // A school's worked example with three equal masses prints 0.8926: 3/(1.25 + 1.1111 + 1).
    CHECK(density_of({{1, 0.8}, {1, 0.9}, {1, 1.0}}) == within(0.89256, 0.000005));
    // 92 % soy and 8 % of an oil: 1/(0.92/0.920 + 0.08/0.885) = 1/1.0903955.
    CHECK(density_of({{92, 0.920}, {8, 0.885}}) == within(0.91710, 0.000005));
    // 80 % soy, 20 % beeswax: 1/(0.869565 + 0.208333).
    CHECK(density_of({{80, 0.920}, {20, 0.960}}) == within(0.92773, 0.000005));
    // Orange, clove, patchouli: 1/(0.591017 + 0.285714 + 0.207684); the plain mean would say
    // 0.9306.
    CHECK(density_of({{50, 0.846}, {30, 1.050}, {20, 0.963}}) == within(0.92216, 0.000005));
}

TEST_CASE("equal volumes give the plain mean (volume fraction averaging)") {
    // Law of Mixtures, ρ = Σ vi ρi: a ml of each of 0.8 and 1.0 g/ml weighs 1.8 g.
    CHECK(density_of({{0.8, 0.8}, {1.0, 1.0}}) == Approx(0.9));
    // And generally: grams from ml, whatever the shares.
    for (double v = 0.05; v < 1; v += 0.05) {
        CHECK(density_of({{v * 0.79, 0.79}, {(1 - v) * 1.05, 1.05}}) ==
              Approx(v * 0.79 + (1 - v) * 1.05).epsilon(1e-12));
    }
}

TEST_CASE("a mixture lies between its parts, and what is alike changes nothing") {
    Mixture mixture;
    CHECK_FALSE(mixture.density());
    mixture.add(3, 0.9);
    mixture.add(1, 1.0);
    const double before = *mixture.density();
    CHECK(before > 0.9);
    CHECK(before < 1.0);
    mixture.add(0.25, before);
    CHECK(*mixture.density() == Approx(before).epsilon(1e-12));
}

TEST_CASE("a liquid's density at another temperature") {
    // Two points: tristearin, 0.862 at 80 °C and 0.8559 at 90 °C (an encyclopedia citing the CRC
    // Handbook); half way 0.85895, and 10 C° below the first 0.8681.
    const DensityLine two = line_through(0.862, 80, 0.8559, 90);
    CHECK(*two.at(80) == Approx(0.862));
    CHECK(*two.at(90) == Approx(0.8559));
    CHECK(*two.at(85) == Approx(0.85895));
    CHECK(*two.at(70) == Approx(0.8681));
    // The order in which they are said doesn't count.
    CHECK(*line_through(0.8559, 90, 0.862, 80).at(70) == Approx(0.8681));
    // One point: 0.870 (1 - 0.0008 · (-15)) = 0.88044 at 60 °C, and 0.8526 at 100 °C.
    const DensityLine one = line_through(0.870, 75);
    CHECK(*one.at(75) == Approx(0.870));
    CHECK(*one.at(60) == Approx(0.88044));
    CHECK(*one.at(100) == Approx(0.8526));
    // One temperature said twice is one point.
    CHECK(*line_through(0.870, 75, 0.9, 75).at(60) == Approx(0.88044));
}

TEST_CASE("a density out of all bounds is none") {
    const DensityLine steep = line_through(0.9, 60, 0.1, 70);
    CHECK(steep.at(65));
    CHECK_FALSE(steep.at(80)); // -0.7 g/ml
    CHECK_FALSE(line_through(0.9, 60).at(std::numeric_limits<double>::infinity()));
    CHECK_FALSE(line_through(0.9, std::numeric_limits<double>::quiet_NaN()).at(60));
}

TEST_CASE("shrinkage: what a liquid leaves hollow when it has set") {
    // Stearic acid, 0.847 at 70 °C and 0.9408 at 20 °C (an encyclopedia citing CRC and NIST):
    // 1 - 0.847/0.9408 = 9.97 % of the volume.
    CHECK(hollow_ml(100, 84.7, 0.9408) == within(9.97, 0.005));
    // Paraffin, 0.790 at 65 °C and 0.916 at 24 °C (from memory of Zalba et al. 2003): 13.76 %.
    CHECK(hollow_ml(100, 79.0, 0.916) == within(13.76, 0.005));
    // Soy, 0.870 at 75 °C and 0.920: 5.43 % (typical figures).
    CHECK(hollow_ml(100, 87.0, 0.920) == within(5.43, 0.005));
}

TEST_CASE("the pint test") {
    // A US pint of 473.176 ml filled to 85 % is 402.20 ml; at 0.870 g/ml it takes 349.91 g. Set at
    // 0.920 g/ml that is 380.34 ml, and in a 75 mm bore the surface sinks 21.86/4.418 = 4.95 mm.
    const double fill = 473.176473 * 0.85;
    CHECK(fill == within(402.20, 0.005));
    const Pours once = one_pour(fill, 0.870);
    CHECK(once.mass == within(349.91, 0.005));
    CHECK(once.first == once.mass);
    CHECK(once.second == 0);
    CHECK_FALSE(once.no_shrinkage);
    CHECK(fill - hollow_ml(fill, once.first, 0.920) == within(380.34, 0.005));
    CHECK(level_mm(hollow_ml(fill, once.first, 0.920), 75) == within(4.95, 0.005));
}

TEST_CASE("two pours: solid to the line, the rest kept back") {
    // The same pint: 402.2 · 0.920 = 370.024 g in all, 349.914 g first, 20.11 g kept back.
    // 300 ml, 0.9 and 0.8 g/ml: 240 g, of which 240 k / (1 - k) is kept; 30 g sink away.
    CHECK(kept_of_melted(240, 0.2) == doctest::Approx(60));
    const Pours much = with_kept(two_pours(300, 0.9, 0.8), 60);
    CHECK(much.kept == doctest::Approx(60));
    CHECK(much.second == doctest::Approx(30));
    CHECK(much.mass == doctest::Approx(270));
    const Pours little = with_kept(two_pours(300, 0.9, 0.8), 12);
    CHECK(little.second == doctest::Approx(12));
    CHECK(little.mass == doctest::Approx(252));
    CHECK(little.sunk == doctest::Approx(30));
    const Pours twice = two_pours(402.2, 0.920, 0.870);
    CHECK(twice.mass == Approx(370.024));
    CHECK(twice.first == Approx(349.914));
    CHECK(twice.second == Approx(20.11));
    CHECK_FALSE(twice.no_shrinkage);
}

TEST_CASE("a wax that doesn't shrink is poured once") {
    for (const double liquid : {0.92, 0.92 * (1 - 0.5e-9), 0.95}) {
        const Pours pours = two_pours(400, 0.92, liquid);
        CHECK(pours.no_shrinkage);
        CHECK(pours.second == 0);
        CHECK(pours.mass == pours.first);
        CHECK(pours.first == Approx(400 * liquid));
    }
    CHECK_FALSE(two_pours(400, 0.92, 0.92 * (1 - 1e-8)).no_shrinkage);
}

TEST_CASE("a pint jar takes about 14 1/2 oz of a soft wax, what is kept back included") {
    // Common practice. It makes sense for a regular pint jar of 515 ml to the brim with a 60 mm
    // mouth, 3/4 in (19.05 mm) of it empty: 515 - π · 60² · 19.05/4000 = 515 - 53.86 = 461.14 ml.
    // Solid at 0.90 g/ml (paraffin of container grade) that is 415.0 g = 14.64 oz; of these, at
    // 0.78 g/ml liquid, 359.7 g go in first and 55.3 g, not quite 2 oz, are kept back.
    const double fill = 515 - cylinder_ml(60, 19.05);
    CHECK(fill == within(461.14, 0.005));
    const Pours pours = two_pours(fill, 0.90, 0.78);
    CHECK(pours.mass / ounce == within(14.64, 0.005));
    CHECK(pours.mass / ounce == within(14.5, 0.25));
    CHECK(pours.first == within(359.7, 0.05));
    CHECK(pours.second == within(55.3, 0.05));
    CHECK(pours.second / ounce == within(1.95, 0.005));
}
