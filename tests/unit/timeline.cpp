// The day of a batch, from the text of a recipe file to the line of time.
#include "reckon/timeline.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "day_run.hpp"
#include "reckon/heat.hpp"

using namespace waxwright;
using doctest::Approx;

TEST_CASE("one filling, by hand") {
    const DayRun run("");
    const Reckoning light = reckoning_of(*run.workshop, run.workshop->recipes[0]);
    REQUIRE(light.pots.size() >= 1);
    const HeatProfile profile = heat_profile_of(light, light.pots[0], std::nullopt, true);
    const double wax = light.pots[0].grams / 1.04;
    const double scent = light.pots[0].grams - wax;

    // melt, off heat, wait, add, stir, wait, pour, leave, warm, second pour
    REQUIRE(profile.stages.size() == 10);
    const Stage& melt = profile.stages[0];
    // (2.0·34 + 150 + 2.2·21) J/g by half of 1000 W.
    CHECK(melt.ends == Approx(wax * (68 + 150 + 46.2) / 500));
    CHECK(melt.known);

    // k of the wax alone, then with the scent in it, each by its mass against the measured 1 kg.
    const double k = std::log(55.0 / 40.0) / 1200 * 1000;
    const Stage& cools = profile.stages[2];
    CHECK(cools.ends - cools.begins == Approx(std::log(55.0 / 50.0) / (k / wax)));
    const Stage& add = profile.stages[3];
    const double dropped = (wax * 2.2 * 70 + scent * 1.83 * 20) / (wax * 2.2 + scent * 1.83);
    CHECK(add.dropped.value() == Approx(dropped));
    CHECK(add.from.value() == Approx(70));
    const Stage& stir = profile.stages[4];
    CHECK(stir.ends - stir.begins == 120);
    const double both = k / (wax + scent);
    CHECK(stir.to.value() == Approx(20 + (dropped - 20) * std::exp(-both * 180)));
    const Stage& second_wait = profile.stages[5];
    CHECK(second_wait.ends - second_wait.begins == Approx(std::log((*stir.to - 20) / 40) / both));
    const Stage& pour = profile.stages[6];
    CHECK(pour.attended);
    CHECK(pour.ends - pour.begins == Approx(30.0 * static_cast<double>(light.pots[0].vessels)));
    CHECK(profile.stages[7].ends - profile.stages[7].begins == 7200);
    // What was kept back has set and is melted again; the pot and its bath with it, which takes
    // longer than the wax alone.
    CHECK_FALSE(profile.stages[8].known);
    CHECK(profile.unknowns.kept);
    CHECK(profile.stages[8].ends > profile.stages[8].begins);
}

TEST_CASE("a pot is busy till its second pour, and two stand at a time") {
    const DayRun run(R"(
batch saturday {
  pour 32 light
}
)");
    const Timeline time = run.of_batch();
    REQUIRE(time.fillings.size() >= 4);
    for (const Filling& filling : time.fillings) {
        CHECK(filling.unit <= 2);
        for (const Filling& other : time.fillings) {
            if (&other == &filling || other.unit != filling.unit) continue;
            const double ends = filling.begins + time.profiles[filling.profile].length();
            CHECK((other.begins >= ends - 1e-6 || other.begins < filling.begins));
        }
    }
    // The third has to wait for the first one's second pour, two hours and more later.
    CHECK(time.fillings[2].begins > 7200);
    CHECK_FALSE(hands_clash(time));
    CHECK(time.known_till > 7200); // known to the first second pour
    REQUIRE(time.shared_steps.size() == 2);
    CHECK_FALSE(
        time.shared_steps[0].known); // a wick is trimmed cold, and nobody knows when that is
    CHECK_FALSE(time.done[0].known);
}

TEST_CASE("what waits in a pot of its own leaves the big one free") {
    constexpr std::string_view jugs = R"(
pot jug { brimful: 400 ml, heated: water-bath }
recipe moved like light {
  pot: 1 can
  keep-in: JUGS jug
}
batch saturday {
  pour 24 moved
}
)";
    const auto day_with = [&](std::string_view many) {
        std::string text(jugs);
        text.replace(text.find("JUGS"), 4, many);
        return DayRun(text).of_batch();
    };
    const Timeline enough = day_with("9");
    REQUIRE(enough.fillings.size() >= 3);
    const HeatProfile& profile = enough.profiles[enough.fillings[0].profile];
    REQUIRE(profile.moved);
    CHECK(profile.in_pot() == *profile.moved);
    CHECK(profile.length() > *profile.moved + 7200);
    // The next filling goes on as soon as the first is poured, long before its second pour.
    CHECK(enough.fillings[1].begins >= *profile.moved - 1e-6);
    CHECK(enough.fillings[1].begins < 7200);
    CHECK(enough.fillings[0].keeps == 1);
    CHECK(enough.fillings[1].keeps == 2);
    CHECK_FALSE(hands_clash(enough));
    // With one jug it has to be empty by the time the next is poured.
    const Timeline one = day_with("1");
    const Filling& second = one.fillings[1];
    CHECK(second.keeps == 1);
    CHECK(second.begins + *one.profiles[second.profile].moved >= profile.length() - 1e-6);
    CHECK_FALSE(hands_clash(one));
}

TEST_CASE("unscented first, light before strong, washed between") {
    const DayRun run(R"(
batch saturday {
  pour 8 strong
  pour 8 light
  pour 4 plain
  pot: 1 can
}
)");
    const Timeline time = run.of_batch();
    REQUIRE(time.order.size() == 3);
    CHECK(run.name(time.order[0]) == "plain");
    CHECK(run.name(time.order[1]) == "light");
    CHECK(run.name(time.order[2]) == "strong");
    std::size_t last = time.fillings.front().line;
    CHECK(time.fillings.front().washes_from < 0);
    for (const Filling& filling : time.fillings) {
        // Unscented wax is wiped out, and that is enough.
        const bool other_scent = filling.line != last && run.name(last) != "plain";
        CHECK((filling.washes_from >= 0) == other_scent);
        last = filling.line;
    }
    CHECK_FALSE(hands_clash(time));
}

TEST_CASE("what stands on the heat doesn't cool") {
    const DayRun run(R"(
recipe hot like light {
  steps {
    melt to 75 °C
    add scent at 70 °C, stir 2 min
    pour at 60 °C
  }
}
)");
    const Reckoning hot = reckoning_of(*run.workshop, run.workshop->recipes.back());
    const HeatProfile profile = heat_profile_of(hot, hot.pots[0], std::nullopt, true);
    CHECK(profile.unknowns.on_heat);
}

TEST_CASE("what is not known is said, and the rest counts on") {
    const DayRun run(R"(
pot bare {
  brimful: 1 l
}
batch saturday {
  pour 8 light
  pot: bare
}
)");
    const Timeline time = run.of_batch();
    CHECK(time.unknowns.power);
    CHECK(time.unknowns.cools);
    CHECK(time.known_till == 0);
    CHECK(time.worked >= 7200);
}

TEST_CASE("no time is given below the melting point") {
    const DayRun run(R"(
recipe cold like plain {
  steps {
    melt to 75 °C
    off heat
    pour at 50 °C
  }
}
)");
    const Reckoning cold = reckoning_of(*run.workshop, run.workshop->recipes.back());
    const HeatProfile profile = heat_profile_of(cold, cold.pots[0], std::nullopt, true);
    const auto wait = std::find_if(profile.stages.begin(), profile.stages.end(),
                                   [](const Stage& stage) { return !stage.known; });
    REQUIRE(wait != profile.stages.end());
    CHECK(profile.unknowns.setting);
    // Down to 54 °C it is liquid, and that much time it takes at least.
    const double k = std::log(55.0 / 40.0) / 1200 * 1000 / cold.pots[0].grams;
    CHECK(wait->ends - wait->begins == Approx(std::log(55.0 / 34.0) / k));
}

TEST_CASE("too many fillings get no line of time") {
    const DayRun run("batch fair { pour 100000 light }\n");
    const Timeline time = run.of_batch();
    CHECK(time.too_many);
    CHECK(time.fillings.empty());
}
