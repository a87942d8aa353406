// Worked by hand: what doubts make of one litre of wax, and what they leave as it was.
#include <algorithm>
#include <optional>
#include <string>

#include <doctest/doctest.h>

#include "pipeline/pipeline.hpp"
#include "reckon/corners.hpp"

using namespace waxwright;

namespace {

constexpr const char* wax_figures = "melts: 40 to 50 °C, max-load: 10% of wax, ceiling: 90 °C";

/// A recipe of two jars without scent.
struct Bench {
    std::string fill = "1 l";
    std::string solid = "0.9 g/ml";
    std::string liquid = "0.8 g/ml";
    std::string blend = "sand";
    std::string more{};         // lines of the recipe
    std::string second{};       // a step
    std::string pour = "60 °C"; // its temperature

    std::string text() const {
        const std::string sand = "wax sand { density: " + solid + ", liquid-density: " + liquid +
                                 " at 60 °C\n" + wax_figures + " }\n";
        const std::string reed = std::string("wax reed { density: 1 g/ml, liquid-density: "
                                             "1 g/ml at 60 °C\n") +
                                 wax_figures + " }\n";
        const std::string jar =
            "vessel jar { fill: " + fill + ", bore: 80 mm, of: tin, made-for: candles }\n";
        const std::string silt = "additive silt { density: 0.8 g/ml }\n"
                                 "pot can { brimful: 2.5 l +- 0.1, headroom: 0%, clings: 10 g }\n";
        return "language 1\n" + sand + reed + jar + silt +
               "recipe plain {\n makes: 2 jar\n wax: " + blend + "\n" + more +
               " steps {\n melt to 60 °C\n pour at " + pour + "\n" + second + " }\n}\n";
    }
};

class Worked {
public:
    explicit Worked(const Bench& bench) {
        sources_.add("bench.candle", bench.text());
        shop_.emplace(open_workshop(
            std::move(sources_), [](const std::string&) { return std::optional<std::string>(); }));
        work(*shop_);
        REQUIRE(shop_->recipes.size() == 1);
        reckoning_ = reckoning_of(*shop_, shop_->recipes[0]);
    }
    const Reckoning& reckoning() const { return reckoning_; }
    const Bounds& bounds() const { return reckoning().bounds; }
    bool finds(Rule rule) const {
        const auto& all = shop_->findings.all();
        return std::any_of(all.begin(), all.end(),
                           [rule](const Finding& finding) { return finding.rule == rule; });
    }

private:
    Sources sources_;
    std::optional<Workshop> shop_;
    Reckoning reckoning_;
};

void check_ends(const std::optional<FigureRange>& ends, double low, double high) {
    REQUIRE(ends);
    CHECK(ends->low == doctest::Approx(low).epsilon(1e-12));
    CHECK(ends->high == doctest::Approx(high).epsilon(1e-12));
}

} // namespace

TEST_CASE("without a doubt there are no ends") {
    const Worked plain(Bench{});
    CHECK(*plain.reckoning().mass_g == doctest::Approx(800));
    CHECK_FALSE(plain.bounds().mass_g);
    CHECK_FALSE(plain.bounds().wax_g);
    CHECK_FALSE(plain.bounds().fillings);
    CHECK(plain.bounds().widest.empty());
}

TEST_CASE("the doubts of a volume and a density meet at their ends") {
    const Worked worked(Bench{.fill = "1 l +- 0.1", .liquid = "0.8 g/ml +- 0.05"});
    check_ends(worked.bounds().mass_g, 900 * 0.75, 1100 * 0.85);
    check_ends(worked.bounds().first_pour_g, 900 * 0.75, 1100 * 0.85);
    check_ends(worked.bounds().wax_g, 2 * 900 * 0.75, 2 * 1100 * 0.85);
    CHECK(worked.bounds().widest == "how much goes into jar");
}

TEST_CASE("a figure that nothing hangs on has no ends") {
    const Worked worked(Bench{.solid = "0.9 g/ml +- 0.05"}); // poured once: the liquid counts
    CHECK_FALSE(worked.bounds().mass_g);
}

TEST_CASE("with a second pour the finished candle hangs on the solid") {
    const Worked worked(
        Bench{.solid = "0.9 g/ml +- 0.05", .second = "leave 2 h\n second pour at 60 °C\n"});
    check_ends(worked.bounds().mass_g, 850, 950);
    CHECK_FALSE(worked.bounds().first_pour_g);
}

TEST_CASE("where it may not shrink the larger weight counts at both ends") {
    // solid 800 to 900, liquid 790 to 870: at least 800, at most 900
    const Worked worked(Bench{.solid = "0.85 g/ml +- 0.05",
                              .liquid = "0.83 g/ml +- 0.04",
                              .second = "leave 2 h\n second pour at 60 °C\n"});
    check_ends(worked.bounds().mass_g, 800, 900);
    check_ends(worked.bounds().first_pour_g, 790, 870);
}

TEST_CASE("what one share of a whole has more the others have less") {
    // 1/density: 0.6/0.8 + 0.4/1 = 1.15 and 0.4/0.8 + 0.6/1 = 1.1
    const Worked worked(Bench{.blend = "(50% +- 10) sand + rest reed"});
    check_ends(worked.bounds().mass_g, 1000 / 1.15, 1000 / 1.1);
}

TEST_CASE("the sense of an additive is that of its density beside the wax's") {
    // 1.02 / (1/0.8 ± … + 0.02/0.8): as dense as the wax, an additive doesn't count by itself
    const Worked worked(Bench{.liquid = "0.8 g/ml +- 0.1", .more = " additives: (2% +- 1) silt\n"});
    const auto mass = [](double share, double wax) {
        return 1000 * (1 + share) / (1 / wax + share / 0.8);
    };
    check_ends(worked.bounds().mass_g, mass(0.01, 0.7), mass(0.01, 0.9));
}

TEST_CASE("a doubt may add a filling of a pot") {
    // 2.5 l hold two vessels of 1.2 l, 2.4 l one
    const Worked worked(Bench{.fill = "1.2 l", .more = " pot: can\n"});
    check_ends(worked.bounds().fillings, 1, 2);
    check_ends(worked.bounds().most_vessels, 1, 2);
    check_ends(worked.bounds().wax_g, 1930, 1940); // what clings to each
}

TEST_CASE("a reading in a doubtful step moves the density") {
    const Worked worked(Bench{.pour = "60 °C +- 5"});
    check_ends(worked.bounds().mass_g, 800 * (1 - 0.004), 800 * (1 + 0.004));
}

TEST_CASE("an end at which nothing can be worked out is told") {
    const Worked worked(Bench{.liquid = "0.8 g/ml +- 0.1", .more = " headspace: 9 mm +- 3\n"});
    CHECK_FALSE(worked.bounds().unknown); // the vessel's own line counts
    const Worked pot(Bench{.fill = "2.45 l", .more = " pot: can\n"});
    CHECK(pot.bounds().unknown);
    CHECK(pot.finds(Rule::within_doubt));
    CHECK_FALSE(pot.finds(Rule::pot_too_small));
}

TEST_CASE("at the ends of its doubts a recipe is worked out on a copy") {
    const Worked worked(
        Bench{.fill = "1 l +- 0.1", .blend = "(50% +- 10) sand + rest reed", .pour = "60 °C +- 5"});
    const Inputs& as_written = worked.reckoning().in;
    UncertainInputs uncertain(as_written);
    REQUIRE(uncertain.all().size() == 3); // a share, the pour, the fill; the pot is not named
    const Ends high(uncertain.all().size(), 1);
    CHECK(amounts_of(uncertain.at(high)).fill_ml.value() == doctest::Approx(1100));
    const Ends none(uncertain.all().size(), 0);
    CHECK(amounts_of(uncertain.at(none)).fill_ml.value() == 1000);
    CHECK(amounts_of(as_written).mass_g.value() == worked.reckoning().mass_g.value());
    for (const MatterInput& wax : uncertain.at(none).waxes())
        CHECK(wax.share == 0.5);
}

TEST_CASE("a range without its first unit takes the doubt in the second one's") {
    Sources sources;
    sources.add("a.candle", "language 1\nwax sand { density: 0.9 g/ml, max-load: 9% of wax\n"
                            "ceiling: 90 °C, melts: 104 +- 9 to 122 °F +- 18 }\n");
    const Workshop shop = open_workshop(
        std::move(sources), [](const std::string&) { return std::optional<std::string>(); });
    const auto* melts = shop.model.get<Range>(0, Key::melts);
    REQUIRE(melts != nullptr);
    CHECK(melts->low.value == 40);
    CHECK(melts->low.doubt == doctest::Approx(5));
    CHECK(melts->high == doctest::Approx(50));
    CHECK(melts->high_doubt == doctest::Approx(10));
}
