// The blended scent beside what the pots take of it.
#include <optional>
#include <random>
#include <string>
#include <string_view>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "pipeline/pipeline.hpp"

using namespace waxwright;

namespace {

struct Made {
    Reckoning reckoning;
    Plan plan;
};

Made made(int count, double load, int brimful, double fill) {
    Sources sources;
    sources.add("a.candle",
                fmt::format("language 1\nwax dune {{ density: 0.9 g/ml, liquid-density: 0.86 g/ml "
                            "at 60 °C\n melts: 48 to 54 °C, max-load: 12% of wax, ceiling: 95 °C "
                            "}}\noil sage {{ density: 0.9 g/ml, flash-point: 93 °C closed cup }}\n"
                            "oil pine {{ density: 0.9 g/ml, flash-point: 93 °C closed cup }}\n"
                            "vessel jar {{ fill: {} ml, bore: 74 mm, of: tin, made-for: candles "
                            "}}\nwick braid {{ core: cotton }}\npot can {{ brimful: {} ml, heated: "
                            "water-bath }}\nscale coarse {{ reads: 1 g }}\nrecipe ebb {{\n makes: "
                            "{} jar\n wax: dune\n load: {}% of wax\n scent: 2 parts sage + 1 part "
                            "pine\n wick: braid\n pot: can\n scale: coarse\n steps {{\n melt to 75 "
                            "°C\n off heat\n add scent at 65 °C, stir 2 min\n pour at 60 °C\n }}\n"
                            "}}\n",
                            fill, brimful, count, load));
    Workshop workshop = open_workshop(
        std::move(sources), [](const std::string&) { return std::optional<std::string>(); });
    work(workshop);
    REQUIRE_FALSE(workshop.findings.has_errors());
    const Task& task = workshop.recipes.at(0);
    return {reckoning_of(workshop, task), plan_of(workshop, task)};
}

bool says(const Plan& plan, std::string_view words) {
    return plan.recipes[0].premix_note.find(words) != std::string::npos;
}

double blended(const Reckoning& r) {
    double sum = 0;
    for (const Weighing& line : r.premix)
        sum += line.weighed;
    return sum;
}

double asked(const Reckoning& r) {
    double sum = 0;
    for (const PotKind& pot : r.pots)
        sum += static_cast<double>(pot.pots) * pot.lines.back().weighed;
    return sum;
}

} // namespace

TEST_CASE("a last pot that would be short of scent gets a blend of its own") {
    std::mt19937 random(20261127);
    const auto pick = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    int own = 0;
    int rounding = 0;
    for (int round = 0; round < 300; ++round) {
        const Made each = made(pick(1, 40), pick(30, 110) / 10.0, pick(300, 2500), pick(60, 220));
        const Reckoning& r = each.reckoning;
        if (r.pots.empty()) continue;
        const double last = r.pots.back().lines.back().weighed;
        const bool is_short = asked(r) - blended(r) > 0.02 * last;
        CHECK(says(each.plan, "Blend ") == is_short);
        CHECK(says(each.plan, "That is rounding") == (!is_short && asked(r) != blended(r)));
        own += is_short;
        rounding += says(each.plan, "That is rounding");
    }
    CHECK(own > 5);
    CHECK(rounding > 5);
}
