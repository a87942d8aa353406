// What a batch's sheet repeats of the findings, from the text of a recipe file to the plan.
#include <algorithm>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "pipeline/pipeline.hpp"

using namespace waxwright;

namespace {

constexpr std::string_view bench = R"(
wax dune {
  density:        0.90 g/ml
  liquid-density: 0.86 g/ml at 60 °C, 0.84 g/ml at 80 °C
  melts:          48 to 54 °C
  max-load:       10% of wax
  ceiling:        90 °C
}
oil samphire {
  density:     0.92 g/ml
  flash-point: 93 °C closed cup
  limit:       12% of total
}
vessel tumbler {
  fill:     100 ml
  bore:     74 mm
  of:       glass
  made-for: candles
}
wick rush {
  suits: 65 to 80 mm
  core:  cotton
}
pot can {
  brimful: 2 l
  heated:  water-bath
}
scale coarse {
  reads: 1 g
}
recipe faint {
  makes: 3 tumbler
  wax:   dune
  load:  4% of wax
  scent: samphire
  wick:  rush
  pot:   can
  scale: coarse
  steps {
    melt to 75 °C
    off heat
    add scent at 65 °C, stir 2 min
    pour at 60 °C
  }
}
recipe strong like faint {
  load: 8% of wax
}
)";

/// The plan of the block of that name, in a file of the bench and `more`.
Plan plan_of(std::string_view more, std::string_view name) {
    Sources sources;
    sources.add("a.candle", std::string(bench) + std::string(more));
    Workshop workshop = open_workshop(
        std::move(sources), [](const std::string&) { return std::optional<std::string>(); });
    work(workshop);
    REQUIRE_FALSE(workshop.findings.has_errors());
    for (BlockId id = 0; id < workshop.model.blocks.size(); ++id) {
        if (workshop.model.name(id) == name) return waxwright::plan_of(workshop, id);
    }
    FAIL("no such block");
    return {};
}

/// The lines that tell of a weight too light, each with the recipes it names.
std::vector<std::vector<std::string>> light(const Plan& plan) {
    std::vector<std::vector<std::string>> lines;
    for (const CautionLine& line : plan.cautions) {
        if (line.rule == Rule::too_light_to_weigh) lines.push_back(line.recipes);
    }
    return lines;
}

using Lines = std::vector<std::vector<std::string>>;

} // namespace

TEST_CASE("a line that makes what its recipe makes keeps the recipe's findings of the bench") {
    CHECK(light(plan_of("", "faint")) == Lines{{}});
    CHECK(light(plan_of("batch pouring {\n  pour 3 faint\n}\n", "pouring")) == Lines{{}});
    CHECK(light(plan_of("batch pouring {\n  pour 3 faint\n  pour 9 strong\n}\n", "pouring")) ==
          Lines{{"faint"}});
}

TEST_CASE("a line of another count is told by its own weights") {
    CHECK(light(plan_of("batch pouring {\n  pour 9 faint\n}\n", "pouring")) == Lines{});
    CHECK(light(plan_of("batch pouring {\n  pour 1 faint\n}\n", "pouring")) == Lines{{}});
}

TEST_CASE("each recipe has its own numbers, though the line is one") {
    const auto text = [](std::string_view name) {
        const Plan plan = plan_of("", name);
        REQUIRE(plan.cautions.size() == 1);
        return plan.cautions[0].text;
    };
    CHECK(text("faint").find("weighed out as 10 g") != std::string::npos);
    CHECK(text("strong").find("weighed out as 19 g") != std::string::npos);
}

TEST_CASE("a recipe with several lines is named once") {
    const Plan plan =
        plan_of("batch pouring {\n  pour 3 faint\n  pour 9 strong\n  pour 3 faint\n}\n", "pouring");
    CHECK(light(plan) == Lines{{"faint"}});
    CHECK(pots_of(plan, 2).size() == 1);
    CHECK(steps_of(plan, 1).size() == 5);
    CHECK(steps_of(plan, 1).front().recipe == 1);
}
