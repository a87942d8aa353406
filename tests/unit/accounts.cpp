// What is needed, at hand, to be bought and what it costs: from the text of a file to the plan,
// against figures worked by hand.
#include <optional>
#include <string>

#include <doctest/doctest.h>

#include "emit/findings_text.hpp"
#include "emit/markdown_money.hpp"
#include "pipeline/pipeline.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

/// A jar of 100 ml at 0.86 g/ml takes 86 g. Everything is weighed to 0.1 g.
constexpr std::string_view bench = R"(
wax dune {
  density:        0.80 g/ml
  liquid-density: 0.86 g/ml at 60 °C, 0.84 g/ml at 80 °C
  melts:          48 to 54 °C
  max-load:       10% of wax
  ceiling:        90 °C
  sold:           DUNE
}
oil samphire {
  density:     0.92 g/ml
  flash-point: 93 °C closed cup
  limit:       12% of total
  sold:        100 ml for 20 KWD
}
oil rock like samphire { sold: 1 kg for 0 KWD }
vessel tumbler {
  fill: 100 ml
  bore: 74 mm
  of:   tin
  sold: 12 for 9 KWD, 6 for 4.500 KWD
}
wick rush { suits: 48 to 56 mm
  core: cotton
  sold: 10 for 0.125 KWD }
extra cork { goes: lid
  sold: 5 for 1 KWD }
pot can { brimful: 4 l
  heated: water-bath }
scale fine { reads: 0.1 g }
recipe low-tide {
  makes: 10 tumbler
  wax:   dune
  wick:  2 rush
  pot:   can
  scale: fine
  steps {
    melt to 60 °C
    pour at 60 °C
  }
}
)";

/// Holds the plan's own workshop: it points into it.
struct Shop {
    Sources sources;
    std::optional<Workshop> workshop;

    Shop(const std::string& dune, const std::string& more) {
        std::string text = "language 1\n" + std::string(bench) + more;
        text.replace(text.find("DUNE"), 4, dune);
        sources.add("shop.candle", text);
        workshop.emplace(open_workshop(
            std::move(sources), [](const std::string&) { return std::optional<std::string>(); }));
        work(*workshop);
        INFO(findings_text(workshop->findings, workshop->model.sources, {}, &workshop->model));
        REQUIRE_FALSE(workshop->findings.has_errors());
    }
    Plan plan(std::string_view name) const {
        const Model& model = workshop->model;
        for (BlockId id = 0; id < model.blocks.size(); ++id) {
            if (model.name(id) == name) return plan_of(*workshop, id);
        }
        FAIL("no such recipe");
        return {};
    }
};

const SupplyPlan& supply(const Plan& plan, std::string_view name) {
    for (const SupplyPlan& each : plan.money.supplies) {
        if (each.name == name) return each;
    }
    FAIL("it is not used: " << name);
    return plan.money.supplies.front();
}

const std::string dune = "1 kg for 2 KWD, 1 l for 1.500 KWD";

} // namespace

TEST_CASE("pro rata by the packs of the whole need, pieces and volumes") {
    const Plan plan = Shop(dune, "").plan("low-tide");
    // 10 · 86 = 860 g. A litre is 800 g: two are 3 KWD, one kilo is 2 KWD.
    const SupplyPlan& wax = supply(plan, "dune");
    CHECK(wax.need == 860);
    REQUIRE(wax.packs.size() == 1);
    CHECK(wax.packs[0].size == "1 kg");
    CHECK(*wax.cost == Approx(860 * 2.0 / 1000));
    CHECK(wax.left_over == Approx(140));
    // Two wicks in each of ten: 20, two packs of 10.
    CHECK(supply(plan, "rush").need == 20);
    CHECK(*supply(plan, "rush").cost == Approx(0.25));
    // Ten tumblers: 12 for 9, or two of 6 for the same: one pack.
    CHECK(supply(plan, "tumbler").packs.size() == 1);
    CHECK(supply(plan, "tumbler").packs[0].size == "12");
    CHECK(*supply(plan, "tumbler").cost == Approx(7.5));
    CHECK(plan.money.priced);
    CHECK(plan.money.batch == Approx(1.72 + 0.25 + 7.5));
    CHECK(plan.money.each == Approx(0.947));
    CHECK(plan.money.to_buy == Approx(2 + 0.25 + 9));
    CHECK_FALSE(plan.money.candles[0].scent_gram.has_value());
    CHECK(markdown_buy(plan).find("0.947 KWD") != std::string::npos); // three decimals
}

TEST_CASE("stock less than, just, and more than what is needed") {
    const std::string stock = "stock shed { have 1 l dune lot \"A1\"\n have 10 tumbler\n have 50 "
                              "rush\n}\n";
    const Plan plan = Shop(dune, stock).plan("low-tide");
    const SupplyPlan& wax = supply(plan, "dune"); // 1 l is 800 g
    CHECK(wax.have == Approx(800));
    CHECK(wax.missing == Approx(60));
    CHECK(*wax.to_buy == Approx(1.5)); // 60 g: a litre for 1.5
    CHECK(*wax.cost == Approx(1.72));  // the cost hangs on no stock
    CHECK(wax.left_over == Approx(740));
    CHECK(supply(plan, "tumbler").missing == 0);
    CHECK(*supply(plan, "tumbler").to_buy == 0);
    CHECK(supply(plan, "tumbler").packs.empty());
    CHECK(supply(plan, "rush").left_over == 30);
    CHECK(plan.money.to_buy == Approx(1.5));
    // One lot, but not enough of it: whoever weighs has to say.
    CHECK(plan.pots[0].lines[0].lot.empty());
    REQUIRE(plan.money.lots.size() == 1);
    CHECK(plan.money.lots[0].lots == std::vector<std::string>{"A1"});
}

TEST_CASE("lots") {
    const auto lot_of = [](const std::string& haves) {
        return Shop(dune, "stock shed {\n" + haves + "}\n").plan("low-tide").pots[0].lines[0].lot;
    };
    CHECK(lot_of("have 1 kg dune lot \"A1\"\n") == "A1");
    CHECK(lot_of("have 1 kg dune lot \"A1\"\n have 1 kg dune lot \"A1\"\n") == "A1");
    CHECK(lot_of("have 1 kg dune lot \"A1\"\n have 1 kg dune lot \"A2\"\n").empty());
    CHECK(lot_of("have 1 kg dune lot \"A1\"\n have 1 kg dune\n").empty());
    CHECK(lot_of("have 1 kg dune lot \"A1\"\n have 0 kg dune lot \"A2\"\n") == "A1");
    CHECK(lot_of("have 1 kg dune\n").empty());
}

TEST_CASE("a batch adds up before it buys") {
    const std::string more = R"(
recipe high-tide like low-tide { makes: 2 tumbler }
wax other like dune {}
recipe spring-tide like low-tide { wax: other }
batch tides { pour 6 low-tide
 pour 2 high-tide }
batch likes { pour 2 low-tide
 pour 2 spring-tide }
stock shed { have 1 kg dune }
)";
    const Shop shop(dune, more);
    const Plan plan = shop.plan("tides");
    CHECK(plan.money.supplies.size() == 3);
    CHECK(supply(plan, "tumbler").need == 8); // one pack of 12 and not two of 6 and 6
    CHECK(supply(plan, "dune").need == Approx(688));
    CHECK(supply(plan, "dune").missing == 0);
    REQUIRE(plan.money.candles.size() == 3);
    double sum = 0;
    sum += 6 * plan.money.candles[0].materials + 2 * plan.money.candles[1].materials;
    CHECK(sum == Approx(plan.money.batch));
    CHECK(plan.money.candles[2].materials == Approx(plan.money.batch / 8));
    // Another wax by `like` is another thing: nobody has any of it.
    CHECK(supply(shop.plan("likes"), "other").have == 0);
    CHECK(supply(shop.plan("likes"), "other").missing == Approx(172));
}

TEST_CASE("what is left of the price") {
    const std::string more = R"(
batch fair { pour 10 low-tide
 labour: 2 h at 3 KWD/h
 overhead: 10%
 fees: 2.5%, 10%
 price: 4 KWD }
)";
    const CandlePlan candle = Shop(dune, more).plan("fair").money.candles.at(0);
    CHECK(*candle.labour == Approx(0.6));
    CHECK(*candle.overhead == Approx(0.1 * (0.947 + 0.6)));
    CHECK(*candle.fees == Approx(0.5));
    CHECK(*candle.left == Approx(4 - 0.947 - 0.6 - 0.1547 - 0.5));
}

TEST_CASE("what has no price is left out and named; a price of nothing is one") {
    const std::string scented = R"(
recipe ebb like low-tide { load: 6% of wax
 scent: 2 parts samphire + 1 part rock
 extras: 2 cork
 steps {
  melt to 60 °C
  off heat
  add scent at 60 °C, stir 2 min
  pour at 60 °C
 } }
vessel bare like tumbler {}
)";
    const Plan plan = Shop(dune, scented).plan("ebb");
    CHECK(plan.money.priced);
    CHECK(supply(plan, "cork").need == 20);
    CHECK(*supply(plan, "rock").cost == 0);
    // Two thirds of the scent at 20 / 92 a gram, one third for nothing; to 0.1 g of rounding.
    CHECK(*plan.money.candles[0].scent_gram == Approx(2.0 / 3 * 20 / 92).epsilon(0.01));

    const Plan without = Shop("1 kg for 2 KWD", R"(
extra twine { goes: outside }
recipe ebb like low-tide { extras: twine }
)")
                             .plan("ebb");
    CHECK_FALSE(plan.money.so_far);
    CHECK(without.money.so_far);
    CHECK(without.money.candles.size() == 1);
    CHECK_FALSE(supply(without, "twine").on_offer);
    CHECK(supply(without, "twine").missing == 10);
    CHECK(markdown_buy(without).find("**So far:** no price is known for twine, so it is not in "
                                     "these figures.") != std::string::npos);
}

TEST_CASE("what the melter takes is what is used") {
    const std::string more = R"(
pot tap { brimful: 12 l
 clings: 35 g
 heated: melter }
batch fair { pour 5 low-tide
 melter: tap }
)";
    // 5 · 86 = 430 g are poured, and 35 g stay in the melter.
    const Plan plan = Shop(dune, more).plan("fair");
    CHECK(supply(plan, "dune").need == Approx(465));
    CHECK(plan.money.candles.at(0).materials ==
          Approx(465 * 1.5 / 800 / 5 + 0.025 + 0.75)); // a litre covers it: 800 g for 1.5
}

TEST_CASE("counts past all reason") {
    const Plan plan =
        Shop(dune, "recipe sea like low-tide { makes: 1000000000 tumbler }").plan("sea");
    // 8.6e10 g is more than whole nanograms can count: nothing is bought of it.
    CHECK_FALSE(supply(plan, "dune").on_offer);
    CHECK(plan.money.so_far);
    CHECK(*supply(plan, "tumbler").to_buy == Approx(750'000'000));
}
