// The day of a batch, from the text of a recipe file to the line of time.
#include "reckon/timeline.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "driver/pipeline.hpp"
#include "reckon/heat.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

constexpr std::string_view bench = R"(
wax dune {
  density:        0.90 g/ml
  liquid-density: 0.86 g/ml at 60 °C, 0.84 g/ml at 80 °C
  melts:          54 °C
  max-load:       10% of wax
  ceiling:        90 °C
  heat:           2.0 J/g/K
  heat-liquid:    2.2 J/g/K
  melting-heat:   150 J/g
}
oil samphire {
  density:     0.92 g/ml
  flash-point: 93 °C closed cup
}
vessel tumbler {
  fill:     100 ml
  bore:     74 mm
}
pot can {
  brimful: 1 l
  heated:  water-bath
  bath:    2 l hot
  power:   1 kW
  cools:   75 °C to 60 °C over 20 min with 1 kg in-room 20 °C
}
pot tap {
  brimful: 10 l
  heated:  melter
  power:   2 kW
}
recipe light {
  makes: 16 tumbler
  wax:   dune
  load:  4% of wax
  scent: samphire
  pot:   2 can
  steps {
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 60 °C
    leave 2 h
    second pour at 62 °C
    trim wick to 6 mm
    cure 7 days
  }
}
recipe strong like light {
  load: 8% of wax
}
recipe plain {
  makes: 4 tumbler
  wax:   dune
  pot:   2 can
  steps {
    melt to 70 °C
    pour at 60 °C
  }
}
)";

struct Run {
    explicit Run(std::string text) {
        sources.add("marsh.candle", std::string(bench) + std::move(text));
        workshop.emplace(open_workshop(
            sources, [](const std::string&) { return std::optional<std::string>(); }));
        work(*workshop);
    }
    const Model& model() const { return workshop->model; }
    Timeline of_batch() const {
        const std::vector<Reckoning> lines = reckonings_of(*workshop, workshop->batches.front());
        return timeline_of(
            lines, gather_pot(model(), melter_block(model(), workshop->batches.front().batch)));
    }
    std::string_view name(std::size_t line) const {
        return model().name(workshop->batches.front().lines[line].job.recipe);
    }

    Sources sources;
    std::optional<Workshop> workshop;
};

bool hands_clash(const Timeline& time) {
    std::vector<std::pair<double, double>> busy;
    for (const Filling& filling : time.fillings) {
        if (filling.washes_from >= 0) busy.emplace_back(filling.washes_from, filling.begins);
        for (const Stage& stage : time.courses[filling.course].stages) {
            if (stage.hands) {
                busy.emplace_back(filling.begins + stage.begins, filling.begins + stage.ends);
            }
        }
    }
    for (const Deed& deed : time.deeds) {
        if (deed.hands) busy.emplace_back(deed.begins, deed.ends);
    }
    std::sort(busy.begin(), busy.end());
    for (std::size_t i = 1; i < busy.size(); ++i) {
        if (busy[i].first < busy[i - 1].second - 1e-3) return true;
    }
    return false;
}

} // namespace

TEST_CASE("one filling, by hand") {
    const Run run("");
    const Reckoning light = reckoning_of(*run.workshop, run.workshop->recipes[0]);
    REQUIRE(light.pots.size() >= 1);
    const Course course = course_of(light, light.pots[0], std::nullopt, true);
    const double wax = light.pots[0].grams / 1.04;
    const double scent = light.pots[0].grams - wax;

    // melt, off heat, wait, add, stir, wait, pour, leave, warm, second pour
    REQUIRE(course.stages.size() == 10);
    const Stage& melt = course.stages[0];
    // (2.0·34 + 150 + 2.2·21) J/g by half of 1000 W.
    CHECK(melt.ends == Approx(wax * (68 + 150 + 46.2) / 500));
    CHECK(melt.known);

    // k of the wax alone, then with the scent in it, each by its mass against the measured 1 kg.
    const double k = std::log(55.0 / 40.0) / 1200 * 1000;
    const Stage& cools = course.stages[2];
    CHECK(cools.ends - cools.begins == Approx(std::log(55.0 / 50.0) / (k / wax)));
    const Stage& add = course.stages[3];
    const double dropped = (wax * 2.2 * 70 + scent * 1.83 * 20) / (wax * 2.2 + scent * 1.83);
    CHECK(add.dropped.value() == Approx(dropped));
    CHECK(add.from.value() == Approx(70));
    const Stage& stir = course.stages[4];
    CHECK(stir.ends - stir.begins == 120);
    const double both = k / (wax + scent);
    CHECK(stir.to.value() == Approx(20 + (dropped - 20) * std::exp(-both * 180)));
    const Stage& second_wait = course.stages[5];
    CHECK(second_wait.ends - second_wait.begins == Approx(std::log((*stir.to - 20) / 40) / both));
    const Stage& pour = course.stages[6];
    CHECK(pour.hands);
    CHECK(pour.ends - pour.begins == Approx(30.0 * static_cast<double>(light.pots[0].vessels)));
    CHECK(course.stages[7].ends - course.stages[7].begins == 7200);
    // What was kept back has set and is melted again; the pot and its bath with it, which takes
    // longer than the wax alone.
    CHECK_FALSE(course.stages[8].known);
    CHECK(course.unknowns.kept);
    CHECK(course.stages[8].ends > course.stages[8].begins);
}

TEST_CASE("a pot is busy till its second pour, and two stand at a time") {
    const Run run(R"(
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
            const double ends = filling.begins + time.courses[filling.course].length();
            CHECK((other.begins >= ends - 1e-6 || other.begins < filling.begins));
        }
    }
    // The third has to wait for the first one's second pour, two hours and more later.
    CHECK(time.fillings[2].begins > 7200);
    CHECK_FALSE(hands_clash(time));
    CHECK(time.known_till > 7200); // known to the first second pour
    REQUIRE(time.deeds.size() == 2);
    CHECK_FALSE(time.deeds[0].known); // a wick is trimmed cold, and nobody knows when that is
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
        return Run(text).of_batch();
    };
    const Timeline enough = day_with("9");
    REQUIRE(enough.fillings.size() >= 3);
    const Course& course = enough.courses[enough.fillings[0].course];
    REQUIRE(course.moved);
    CHECK(course.in_pot() == *course.moved);
    CHECK(course.length() > *course.moved + 7200);
    // The next filling goes on as soon as the first is poured, long before its second pour.
    CHECK(enough.fillings[1].begins >= *course.moved - 1e-6);
    CHECK(enough.fillings[1].begins < 7200);
    CHECK(enough.fillings[0].keeps == 1);
    CHECK(enough.fillings[1].keeps == 2);
    CHECK_FALSE(hands_clash(enough));
    // With one jug it has to be empty by the time the next is poured.
    const Timeline one = day_with("1");
    const Filling& second = one.fillings[1];
    CHECK(second.keeps == 1);
    CHECK(second.begins + *one.courses[second.course].moved >= course.length() - 1e-6);
    CHECK_FALSE(hands_clash(one));
}

TEST_CASE("unscented first, light before strong, washed between") {
    const Run run(R"(
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
        CHECK((filling.washes_from >= 0) == (filling.line != last));
        last = filling.line;
    }
    CHECK_FALSE(hands_clash(time));
}

TEST_CASE("a melter melts the wax of all recipes in one line") {
    const Run run(R"(
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
    const Run run(R"(
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
    // 1600 ml usable at 0.845 g/ml (75 °C) are 1352 g, 10 of which stay behind; and there is room
    // for what was too little for a pot.
    const Reckoning line = reckoning_of(*run.workshop, run.workshop->batches.front().lines[0]);
    const double wax = line.wax_g;
    const double pot = line.pots[0].lines[0].exact;
    CHECK(melting.fillings == static_cast<std::int64_t>(std::ceil(wax / (1342 - pot))));
    REQUIRE(time.melter.size() == static_cast<std::size_t>(melting.fillings));
    for (std::size_t i = 1; i < time.melter.size(); ++i) {
        CHECK(time.melter[i].begins >= time.melter[i - 1].ready); // never two at a time
        CHECK_FALSE(time.melter[i].wiped);
    }
    CHECK(melting.volume_ml <= 1600 + 1e-6);
    CHECK(melting.grams == Approx(wax / static_cast<double>(melting.fillings) + 10));
}

TEST_CASE("a melter holds one blend at a time") {
    const Run run(R"(
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

TEST_CASE("what stands on the heat doesn't cool") {
    const Run run(R"(
recipe hot like light {
  steps {
    melt to 75 °C
    add scent at 70 °C, stir 2 min
    pour at 60 °C
  }
}
)");
    const Reckoning hot = reckoning_of(*run.workshop, run.workshop->recipes.back());
    const Course course = course_of(hot, hot.pots[0], std::nullopt, true);
    CHECK(course.unknowns.on_heat);
}

TEST_CASE("what is not known is said, and the rest counts on") {
    const Run run(R"(
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
    const Run run(R"(
recipe cold like plain {
  steps {
    melt to 75 °C
    off heat
    pour at 50 °C
  }
}
)");
    const Reckoning cold = reckoning_of(*run.workshop, run.workshop->recipes.back());
    const Course course = course_of(cold, cold.pots[0], std::nullopt, true);
    const auto wait = std::find_if(course.stages.begin(), course.stages.end(),
                                   [](const Stage& stage) { return !stage.known; });
    REQUIRE(wait != course.stages.end());
    CHECK(course.unknowns.setting);
    // Down to 54 °C it is liquid, and that much time it takes at least.
    const double k = std::log(55.0 / 40.0) / 1200 * 1000 / cold.pots[0].grams;
    CHECK(wait->ends - wait->begins == Approx(std::log(55.0 / 34.0) / k));
}

TEST_CASE("too many fillings get no line of time") {
    const Run run("batch fair { pour 100000 light }\n");
    const Timeline time = run.of_batch();
    CHECK(time.too_many);
    CHECK(time.fillings.empty());
}
