// Burning: hours and melt pools worked by hand, and which test burns count.
#include "reckon/burning.hpp"

#include <doctest/doctest.h>

#include <string>

#include "model/build.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

constexpr const char* bench = R"(language 1
wax dune {
  density: 0.90 g/ml, liquid-density: 0.86 g/ml at 60 °C, 0.84 g/ml at 80 °C
  melts: 48 to 54 °C, max-load: 10% of wax, ceiling: 90 °C
}
vessel tumbler { fill: 240 ml, bore: 74 mm, of: glass }
wick rush { core: cotton, burns: 5 g/h }
wick sedge { core: cotton, burns: 6 g/h }
recipe tide {
  makes: 1 tumbler, wax: dune, wick: rush
  steps {
    melt to 75 °C
    pour at 60 °C
  }
}
)";

/// The bench, the recipe and some test burns of it, read and reckoned.
class Burnt {
public:
    explicit Burnt(const std::string& tests) {
        sources_.add("tide.candle", bench + tests);
        const ReadFile none = [](const std::string&) { return std::optional<std::string>(); };
        model_.emplace(build_model(std::move(sources_), none, findings_));
        REQUIRE(!findings_.has_errors());
        for (BlockId id = 0; id < model_->blocks.size(); ++id) {
            if (model_->blocks[id].kind == BlockKind::recipe) recipe_ = id;
        }
        tests_ = burned(*model_, reckoned());
    }

    Reckoning reckoned() const { return reckon(gather(*model_, job_of_recipe(*model_, recipe_))); }
    const Burned& tests() const { return tests_; }
    /// The tests that count, by name.
    std::string names() const {
        std::string names;
        for (const TestBurn& test : tests_.counting)
            names += std::string(names.empty() ? "" : " ").append(model_->name(test.burn));
        return names;
    }
    double hours() const { return burn_hours(*model_, reckoned()).value().hours; }
    bool measured() const { return burn_hours(*model_, reckoned()).value().measured; }

private:
    Sources sources_;
    Findings findings_;
    std::optional<Model> model_;
    BlockId recipe_ = no_block;
    Burned tests_;
};

} // namespace

TEST_CASE("hours are down to whole five") {
    CHECK(hours_of(249.9, 0, 5) == 45);
    CHECK(hours_of(250, 0, 5) == 50);
    CHECK(hours_of(300, 50, 5) == 50);
    CHECK(hours_of(0.1 * 3 * 150, 0, 1) == 45); // 45.00000000000001 or a hair under
    CHECK(hours_of(20, 50, 5) == 0);
    CHECK(hours_of(24, 0, 5) == 0);
}

TEST_CASE("wax at the wall round a melt pool") {
    CHECK(at_the_wall(74, 68) == 3);
    CHECK(at_the_wall(74, 74) == 0);
    CHECK(at_the_wall(74, 75) == 0);
}

TEST_CASE("days are compared without their hours") {
    const Date morning{2026, 4, 18, 8, 0, true};
    const Date evening{2026, 4, 18, 20, 0, true};
    const Date next{2026, 4, 19};
    CHECK(!later_day(evening, morning));
    CHECK(later_day(next, evening));
    CHECK(!later_day(morning, next));
    CHECK(later_day(morning, std::nullopt));
    CHECK(!later_day(std::nullopt, morning));
    CHECK(!later_day(std::nullopt, std::nullopt));
}

TEST_CASE("no test burn") {
    const Burnt tide("");
    CHECK(tide.tests().none());
    CHECK(!tide.tests().stale());
    // 240 ml · 0.86 g/ml = 206.4 g; the last 12 mm are π/4 · 74² · 12 = 51.61 ml, 46.45 g; 31.99 h
    CHECK(tide.hours() == 30);
    CHECK(!tide.measured());
}

TEST_CASE("the latest day of today's candle counts, all its tests") {
    const Burnt tide(R"(
test-burn one { of: tide, on: 2026-04-18 09:00, burns: 4 g/h, verdict: fail }
test-burn two { of: tide, on: 2026-04-18 10:00, wick: rush, burns: 3 g/h, left: 12 mm }
test-burn tried { of: tide, on: 2026-05-01, wick: sedge, burns: 9 g/h }
test-burn old { of: tide, on: 2025-01-01, cracked: yes, left: 5 mm }
test-burn undated { of: tide, burns: 8 g/h }
)");
    CHECK(tide.names() == "one two");
    CHECK(!tide.tests().stale());
    CHECK(tide.tests().failed() != nullptr);
    CHECK(tide.tests().to_end);
    CHECK(tide.tests().counting[1].differences.empty());
    // 159.95 g at 3 g/h, which the later written of that day measured: 53.3 h
    CHECK(tide.hours() == 50);
    CHECK(tide.measured());
}

TEST_CASE("none of today's candle: the latest is stale") {
    const Burnt tide(R"(
test-burn one { of: tide, on: 2026-04-18, wick: sedge, left: 8 mm, burns: 9 g/h }
test-burn two { of: tide, on: 2026-06-18, load: 6% of wax, left: 30 mm }
)");
    CHECK(tide.names() == "two");
    CHECK(tide.tests().stale());
    REQUIRE(tide.tests().counting[0].differences.size() == 1);
    CHECK(tide.tests().counting[0].differences[0].key == Key::load);
    CHECK(!tide.measured());
}

TEST_CASE("what a failed test went to is no end") {
    CHECK(!Burnt("test-burn one { of: tide, left: 8 mm, relit: yes }").tests().to_end);
    CHECK(Burnt("test-burn one { of: tide, left: 8 mm, relit: no }").tests().to_end);
    CHECK(!Burnt("test-burn one { of: tide, verdict: pass }").tests().to_end);
    // 46.45 g of wax are in the last 12 mm
    CHECK(Burnt("test-burn one { of: tide, left: 46.4 g }").tests().to_end);
    CHECK(!Burnt("test-burn one { of: tide, left: 46.5 g }").tests().to_end);
}
