// What the day of a batch keeps apart: a melter and its fillings, work and wax that melts.
#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "day_run.hpp"

using namespace waxwright;
using doctest::Approx;

TEST_CASE("a melter melts the wax of all recipes in one line") {
    const DayRun run(R"(
batch saturday {
  pour 16 light
  pour 16 strong
  pot:    2 can
  melter: tap
}
)");
    const BatchTasks& batch = run.workshop->batches.front();
    const std::vector<Reckoning> lines = reckonings_of(*run.workshop, batch);
    const Timeline time = run.of_batch();
    REQUIRE(time.meltings.size() == 1);
    const Melting& melting = time.meltings[0];
    CHECK(melting.fillings == 1);
    CHECK(melting.grams == Approx(lines[0].wax_g + lines[1].wax_g));
    CHECK(melting.celsius == 75);
    // 264.2 J/g by eight tenths of 2 kW.
    CHECK(melting.seconds.value() == Approx(melting.grams * 264.2 / 1600));
    for (const Filling& filling : time.fillings)
        CHECK(filling.begins >= *melting.seconds - 1e-6);
    // A pot's wax is one line: nothing is melted in it.
    for (const PotKind& pot : lines[0].pots)
        CHECK(std::count_if(pot.lines.begin(), pot.lines.end(), [](const Weighing& line) {
                  return line.kind == MatterKind::wax;
              }) == 1);
    CHECK_FALSE(hands_clash(time));
}

TEST_CASE("a melter too small for all is filled again") {
    const DayRun run(R"(
pot little {
  brimful: 2 l
  clings:  10 g
  heated:  melter
  power:   2 kW
}
batch saturday {
  pour 32 light
  pot:    2 can
  melter: little
}
)");
    const Timeline time = run.of_batch();
    REQUIRE(time.meltings.size() == 1);
    const Melting& melting = time.meltings[0];
    // 1600 ml usable at 0.845 g/ml (75 °C) are 1352 g; filled again, it still has 10 g that cling
    // and what was too little for a pot. What clings is melted once, in whatever many fillings.
    const Reckoning line = reckoning_of(*run.workshop, run.workshop->batches.front().lines[0]);
    const double wax = line.wax_g;
    const double pot = line.pots[0].lines[0].exact;
    CHECK(melting.fillings == static_cast<std::int64_t>(std::ceil((wax + 10) / (1342 - pot))));
    REQUIRE(time.melter.size() == static_cast<std::size_t>(melting.fillings));
    for (std::size_t i = 1; i < time.melter.size(); ++i) {
        CHECK(time.melter[i].begins >= time.melter[i - 1].ready); // never two at a time
        CHECK_FALSE(time.melter[i].wiped);
    }
    CHECK(melting.volume_ml <= 1600 + 1e-6);
    CHECK(melting.grams == Approx((wax + 10) / static_cast<double>(melting.fillings)));
    for (const MelterFilling& filling : time.melter)
        CHECK(filling.left + melting.grams <= 1352 + 1e-6);
    CHECK(time.melter_top_ups.empty()); // it has no bath
}

TEST_CASE("a melter's bath is topped up as long as it is on") {
    const DayRun run(R"(
pot kettle {
  brimful: 10 l
  heated:  water-bath
  bath:    1 l
  power:   2 kW
}
batch saturday {
  pour 32 light
  pot:    2 can
  melter: kettle
}
)");
    const Timeline time = run.of_batch();
    REQUIRE(time.melter.size() == 1);
    // A third of 1 l: 332.7 g by 2257 J/g are 751 kJ, which 2 kW give in 6 min 15 s.
    double last = time.melter[0].begins;
    for (const double top_up : time.melter_top_ups) {
        CHECK(top_up > last);
        CHECK(top_up - last < 2 * 375.5); // two thirds, if somebody was pouring just then
        last = top_up;
    }
    CHECK(time.melter_off - last < 2 * 375.5);
    CHECK(time.melter_top_ups.size() >= 3);
    CHECK_FALSE(hands_clash(time));
}

TEST_CASE("wax wants two hours before it is cold") {
    const DayRun run(R"(
recipe soon {
  makes: 4 tumbler
  wax:   dune
  pot:   1 can
  steps {
    melt to 75 °C
    pour at 60 °C
    leave 10 min
    trim wick to 6 mm
  }
}
recipe late like soon {
  steps {
    melt to 75 °C
    pour at 60 °C
    leave 1 h
    smooth top
    leave 2 h
    trim wick to 6 mm
  }
}
batch saturday {
  pour 4 soon
  pour 4 late
}
)");
    const Timeline time = run.of_batch();
    REQUIRE(time.shared_steps.size() == 6); // the waits are among them
    for (const SharedStep& shared : time.shared_steps) {
        const bool trims = shared.step == (run.name(shared.line) == "soon" ? 3U : 5U);
        CHECK(shared.known == !(trims && run.name(shared.line) == "soon"));
    }
    // What was smoothed two hours ago is cold again. Hot air on one recipe's tops, and nothing of
    // the other melts.
    CHECK_FALSE(hands_clash(time));
}

TEST_CASE("all vessels are ready before anything is lit, and nobody washes while wax melts") {
    const DayRun run(R"(
recipe wicked like light {
  steps {
    set wick
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 60 °C
  }
}
recipe wicked-too like wicked {
  load: 8% of wax
}
batch saturday {
  pour 32 wicked
  pour 32 wicked-too
}
)");
    const Timeline time = run.of_batch();
    REQUIRE(time.shared_steps.size() == 2);
    int washed = 0;
    for (const Filling& filling : time.fillings) {
        const Stage& melt = time.profiles[filling.profile].stages.front();
        CHECK(filling.begins >=
              std::max(time.shared_steps[0].ends, time.shared_steps[1].ends) - 1e-6);
        for (const Filling& other : time.fillings) {
            if (other.washes_from < 0) continue;
            ++washed;
            const bool apart = other.begins <= filling.begins + melt.begins + 1e-6 ||
                               other.washes_from >= filling.begins + melt.ends - 1e-6;
            CHECK(apart);
        }
    }
    CHECK(washed > 0);
}

TEST_CASE("a melter holds one blend at a time") {
    const DayRun run(R"(
wax silt like dune {
  melts: 50 °C
}
recipe of-silt like strong {
  wax: silt
}
batch saturday {
  pour 8 light
  pour 8 of-silt
  pour 8 plain
  pot:    1 can
  melter: tap
}
)");
    const Timeline time = run.of_batch();
    REQUIRE(time.meltings.size() == 2);
    REQUIRE(time.melter.size() == 2);
    CHECK(time.melter[1].wiped);
    // The recipes of one blend come together: plain, light, then the other wax.
    CHECK(run.name(time.order[0]) == "plain");
    CHECK(run.name(time.order[1]) == "light");
    CHECK(run.name(time.order[2]) == "of-silt");
    double last_draw = 0;
    for (const Filling& filling : time.fillings) {
        if (run.name(filling.line) != "of-silt") last_draw = std::max(last_draw, filling.begins);
    }
    CHECK(time.melter[1].begins >= last_draw + draw_seconds - 1e-6);
}
