// The heat plan as a curve: points of it worked by hand, and what it doesn't invent.
#include "plan/picture.hpp"

#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "pipeline/pipeline.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

constexpr std::string_view bench = R"(
wax dune {
  density:        0.90 g/ml
  liquid-density: 0.86 g/ml at 60 °C, 0.84 g/ml at 80 °C
  melts:          50 °C to 54 °C
  max-load:       10% of wax
  ceiling:        90 °C
  pour-at:        58 °C to 64 °C
  heat:           2.0 J/g/K
  heat-liquid:    2.2 J/g/K
  melting-heat:   150 J/g
}
oil samphire {
  density:     0.92 g/ml
  flash-point: 93 °C closed cup
}
vessel tumbler {
  fill: 100 ml
  bore: 74 mm
}
pot can {
  brimful: 1 l
  heated:  water-bath
  bath:    2 l hot
  power:   1 kW
  cools:   75 °C to 60 °C over 20 min with 1 kg in-room 20 °C
}
pot bare {
  brimful: 1 l
}
)";

std::string recipe(std::string_view pot) {
    return "recipe light {\n  makes: 4 tumbler\n  wax: dune\n  load: 4% of wax\n  scent: samphire\n"
           "  pot: " +
           std::string(pot) +
           "\n  steps {\n    melt to 75 °C\n    off heat\n    add scent at 70 °C, stir 2 min\n"
           "    pour at 60 °C\n  }\n}\n";
}

HeatPicture picture(std::string_view pot) {
    Sources sources;
    sources.add("marsh.candle", std::string(bench) + recipe(pot));
    Workshop workshop = open_workshop(
        std::move(sources), [](const std::string&) { return std::optional<std::string>(); });
    work(workshop);
    REQUIRE(workshop.recipes.size() == 1);
    return picture_of(workshop.model, reckoning_of(workshop, workshop.recipes[0]), std::nullopt);
}

} // namespace

TEST_CASE("half way down, the pot is where Newton's law has it") {
    const HeatPicture made = picture("can");
    // melt, off heat, cools, add, stir, cools, pour
    REQUIRE(made.stretches.size() == 7);
    const HeatStretch& melts = made.stretches[0];
    CHECK(celsius_at(melts, made.room_c, melts.ends_min / 2).value() == Approx((20 + 75) / 2.0));
    const HeatStretch& cools = made.stretches[2];
    const double middle = (cools.begins_min + cools.ends_min) / 2;
    // 55 C° over the room, then 50: half the time leaves their geometric mean.
    CHECK(celsius_at(cools, made.room_c, middle).value() == Approx(20 + std::sqrt(55.0 * 50.0)));
    CHECK(celsius_at(cools, made.room_c, cools.ends_min).value() == Approx(70));
    CHECK_FALSE(celsius_at(cools, made.room_c, cools.ends_min + 1));
    CHECK(made.length_min == Approx(made.stretches.back().ends_min));
}

TEST_CASE("the cold scent drops the curve at once") {
    const HeatPicture made = picture("can");
    REQUIRE(made.stretches.size() == 7);
    CHECK(made.stretches[2].to_c.value() == Approx(70));
    const double dropped = (2.2 * 70 + 0.04 * 1.83 * 20) / (2.2 + 0.04 * 1.83);
    CHECK(made.stretches[3].from_c.value() == Approx(dropped));
}

TEST_CASE("a time that isn't known has no point of the curve") {
    const HeatPicture made = picture("bare");
    REQUIRE_FALSE(made.stretches.empty());
    CHECK_FALSE(made.stretches[0].known);
    CHECK_FALSE(celsius_at(made.stretches[0], made.room_c, 0));
}

TEST_CASE("what the curve is held against") {
    const HeatPicture made = picture("can");
    REQUIRE(made.marks.size() == 4);
    CHECK(made.marks[0].name == "ceiling");
    CHECK(made.marks[0].low_c == 90);
    CHECK(made.marks[1].low_c == 93);
    CHECK(made.marks[2].low_c == 50);
    CHECK(made.marks[2].high_c == 54);
    CHECK(made.marks[3].low_c == 58);
    CHECK(made.marks[3].high_c == 64);
}
