// Leftovers in a candle: what is in it by hand, and what is weighed. The figures were worked
// outside the project, from one gram of candle on.
#include <optional>
#include <string>
#include <string_view>

#include <doctest/doctest.h>

#include "pipeline/pipeline.hpp"
#include "reckon/fire.hpp"
#include "reckon/from.hpp"
#include "reckon/label/contents.hpp"
#include "reckon/timeline.hpp"

using namespace waxwright;

namespace {

constexpr std::string_view bench = R"(
language 1
wax dune {
  density: 0.92 g/ml, liquid-density: 0.86 g/ml at 60 °C
  melts: 48 to 52 °C, max-load: 10% of wax, ceiling: 90 °C
  heat: 2.0 J/g/K, heat-liquid: 2.2 J/g/K, melting-heat: 150 J/g
}
wax reed {
  density: 0.90 g/ml, liquid-density: 0.84 g/ml at 60 °C
  melts: 46 to 54 °C, max-load: 6% of wax, ceiling: 82 °C
  heat: 2.0 J/g/K, heat-liquid: 2.2 J/g/K, melting-heat: 150 J/g
}
oil sage { density: 0.92 g/ml, flash-point: 93 °C closed cup, limit: 30% of total }
oil pine { density: 0.87 g/ml, flash-point: 57 °C closed cup, limit: 30% of total }
additive stear { density: 0.95 g/ml, limit: 5% of wax }
additive blue { limit: 1% of wax }
vessel jar { fill: 200 ml, bore: 74 mm, of: tin, made-for: candles }
wick braid { core: cotton }
pot can { brimful: 4 l, heated: water-bath, bath: 2 l hot, power: 1 kW }
pot tap { brimful: 10 l, heated: melter, power: 2 kW }
scale fine { reads: 1 g }
recipe tide {
  makes: 2 jar
  wax: 85% dune + 15% reed
  load: 8% of wax
  scent: 3 parts sage + 1 part pine
  wick: braid
  pot: can
  steps {
    melt to 75 °C
    off heat
    add scent at 65 °C, stir 2 min
    pour at 60 °C
  }
}
leftover tide-ends { of: tide }
leftover grey {
  wax: reed
  load: 6% of wax
  scent: pine
  additives: 0.2% blue
}
)";

std::string slack(std::string_view leftovers, std::string_view more = {}) {
    return std::string(
               "recipe slack {\n makes: 10 jar\n wax: dune\n load: 5% of wax\n scent: sage\n"
               " additives: 3% stear\n wick: braid\n pot: can\n scale: fine\n leftovers: ") +
           std::string(leftovers) + "\n" + std::string(more) +
           " steps {\n melt to 56 °C\n off heat\n add scent at 56 °C, stir 2 min\n pour at 60 °C\n "
           "}\n}\n";
}

Workshop worked(const std::string& text) {
    Sources sources;
    sources.add("a.candle", std::string(bench) + text);
    Workshop workshop = open_workshop(
        std::move(sources), [](const std::string&) { return std::optional<std::string>(); });
    work(workshop);
    return workshop;
}

BlockId block(const Workshop& workshop, std::string_view name) {
    for (BlockId id = 0; id < workshop.model.blocks.size(); ++id) {
        if (workshop.model.name(id) == name) return id;
    }
    return no_block;
}

Reckoning of(const Workshop& workshop, std::string_view recipe) {
    for (const Task& task : workshop.recipes) {
        if (task.job.recipe == block(workshop, recipe)) return reckoning_of(workshop, task);
    }
    FAIL("no such recipe");
    return {};
}

double share_of(const Workshop& workshop, const Reckoning& r, std::string_view material) {
    const MatterInput* matter = matter_of(r.in, block(workshop, material));
    REQUIRE(matter != nullptr);
    return matter->share;
}

double grams_of(const Workshop& workshop, const Reckoning& r, std::string_view thing) {
    for (const Part& part : r.parts) {
        if (part.material == block(workshop, thing)) return part.grams;
    }
    return 0;
}

std::size_t found(const Workshop& workshop, Rule rule) {
    std::size_t count = 0;
    for (const Finding& finding : workshop.findings.all())
        count += finding.rule == rule;
    return count;
}

bool near(double value, double wanted) {
    return value == doctest::Approx(wanted).epsilon(1e-9);
}

} // namespace

TEST_CASE("what is in the candle is what is weighed and what two leftovers bring") {
    const Workshop workshop = worked(slack("15% tide-ends + 5% grey"));
    const Reckoning r = of(workshop, "slack");
    CHECK(near(r.load_of_wax.value(), 0.0550042337003));
    CHECK(near(r.load_of_total.value(), 0.0509730069052));
    CHECK(near(r.additives.value(), 0.0240812870449));
    CHECK(near(share_of(workshop, r, "dune"), 0.926714648603));
    CHECK(near(share_of(workshop, r, "reed"), 0.0732853513971));
    CHECK(near(share_of(workshop, r, "sage"), 0.890086206897));
    CHECK(near(share_of(workshop, r, "pine"), 0.109913793103));
    CHECK(near(share_of(workshop, r, "stear"), 0.0239796782388));
    CHECK(near(share_of(workshop, r, "blue"), 0.000101608806097));
    CHECK(near(r.limit_of_wax.value(), 0.09706858594411517));
    CHECK(r.ceiling.value() == 82);
    CHECK(r.melted_at.value() == 54);
    CHECK(r.scent_flash.value() == 57);
    CHECK(r.brought_flash.value() == 57);
}

TEST_CASE("it is as dense as all that is in it, and what is weighed fresh is the rest") {
    const Workshop workshop = worked(slack("15% tide-ends + 5% grey"));
    const Reckoning r = of(workshop, "slack");
    CHECK(near(r.mass_g.value(), 172.60609365128033));
    CHECK(near(r.total_g(), 1726.0609365128034));
    CHECK(near(grams_of(workshop, r, "tide-ends"), 258.9091404769205));
    CHECK(near(grams_of(workshop, r, "grey"), 86.30304682564018));
    CHECK(near(r.wax_g, 1278.563657));
    CHECK(near(r.scent_g, 63.92818283));
    CHECK(near(r.additive_g, 38.3569097));
    CHECK(grams_of(workshop, r, "reed") == 0);
    CHECK(grams_of(workshop, r, "pine") == 0);
    const PotKind& pot = r.pots.at(0);
    double sum = 0;
    for (const Weighing& line : pot.lines)
        sum += line.weighed;
    CHECK(sum == doctest::Approx(1726));
    CHECK(pot.lines.at(1).kind == MatterKind::leftover);
    CHECK(pot.lines.at(1).weighed == 259);
    CHECK(pot.lines.at(2).weighed == 86);
}

TEST_CASE("a leftover of a candle with leftovers brings those too") {
    const Workshop workshop = worked(R"(
leftover old { wax: dune
 load: 10% of wax
 scent: sage }
recipe first {
  makes: 2 jar
  wax: dune
  load: 5% of wax
  scent: pine
  leftovers: 25% old
  wick: braid
  pot: can
  steps {
    melt to 56 °C
    off heat
    add scent at 56 °C, stir 2 min
    pour at 56 °C
  }
}
leftover first-ends { of: first }
recipe second like first {
  load: 6% of total
  scent: sage
  leftovers: 40% first-ends
}
)");
    const Reckoning r = of(workshop, "second");
    CHECK(near(r.load_of_wax.value(), 0.0631247583807));
    CHECK(near(r.load_of_total.value(), 0.0593766233766));
    CHECK(near(share_of(workshop, r, "pine"), 0.240594925634));
}

TEST_CASE("a doubtful load of a leftover, and a doubtful share, move what is in the candle") {
    const Workshop load =
        worked("leftover mine { wax: 85% dune + 15% reed\n load: 8% +- 2% of wax\n "
               "scent: 3 parts sage + 1 part pine }\n" +
               slack("15% mine + 5% grey"));
    const Reckoning r = of(load, "slack");
    REQUIRE(r.bounds.load_of_wax);
    CHECK(near(r.bounds.load_of_wax->low, 0.0520293133663));
    CHECK(near(r.bounds.load_of_wax->high, 0.057886936923));
    CHECK(near(r.load_of_wax.value(), 0.0550042337003));

    const Workshop share = worked(slack("15% +- 5% tide-ends + 5% grey"));
    const Reckoning s = of(share, "slack");
    REQUIRE(s.bounds.load_of_wax);
    CHECK(near(s.bounds.load_of_wax->low, 0.0535055038103));
    CHECK(near(s.bounds.load_of_wax->high, 0.0565029635902));
    REQUIRE(s.bounds.leftover_g);
    CHECK(s.bounds.leftover_g->low < 0.16 * s.total_g());
    CHECK(s.bounds.leftover_g->high > 0.24 * s.total_g());
}

TEST_CASE("a loop of leftovers is found and ends, however long it is") {
    const Workshop own = worked(slack("10% mine") + "leftover mine { of: slack }\n");
    CHECK(found(own, Rule::leftover_loop) == 1);

    std::string chain;
    for (int i = 0; i < 300; ++i) {
        chain += "leftover l" + std::to_string(i) + "x { of: r" + std::to_string(i) + "x }\n";
        chain += "recipe r" + std::to_string(i) + "x like tide { leftovers: 10% l" +
                 std::to_string((i + 1) % 300) + "x }\n";
    }
    const Workshop long_loop = worked(chain);
    CHECK(found(long_loop, Rule::leftover_loop) + found(long_loop, Rule::nesting) > 0);
}

TEST_CASE("leftovers of leftovers, many of each, end at once") {
    std::string text = "leftover l0x { of: tide }\n";
    for (int i = 0; i < 8; ++i) {
        const std::string at = std::to_string(i);
        text += "leftover m" + at + "x { of: r" + at + "x }\n";
        text += "recipe r" + at + "x like tide { leftovers: 10% l" + at + "x";
        if (i > 0) text += " + 10% m" + std::to_string(i - 1) + "x";
        text += " }\nleftover l" + std::to_string(i + 1) + "x { of: r" + at + "x }\n";
    }
    const Workshop workshop = worked(text);
    CHECK(found(workshop, Rule::leftover_loop) == 0);
}

TEST_CASE("what leftovers bring is in the wax from the melt on") {
    // pine lights from 57 °C: 56 °C and a thermometer that may be wrong by 3 C° reach it.
    const Workshop workshop = worked(slack("15% tide-ends"));
    const Reckoning r = of(workshop, "slack");
    const HeatProfile profile = heat_profile_of(r, r.pots.at(0), std::nullopt, true);
    const FireTimes times = fire_times(r, profile, false);
    REQUIRE_FALSE(times.open.empty());
    REQUIRE_FALSE(times.adding.empty());
    CHECK(times.open.front().begins == profile.stages.front().begins);
    CHECK(times.open.front().begins < times.adding.front().begins);

    const Workshop without = worked(slack("15% plain", "") + "leftover plain { wax: dune }\n");
    const Reckoning p = of(without, "slack");
    CHECK_FALSE(brings_scent(p.in));
    CHECK(fire_times(p, heat_profile_of(p, p.pots.at(0), std::nullopt, true), false).open.empty());
}

TEST_CASE("beside a melter a recipe with leftovers melts its own wax") {
    const Workshop workshop = worked(
        slack("15% tide-ends") + "batch both {\n pour 4 tide\n pour 4 slack\n melter: tap\n}\n");
    CHECK_FALSE(workshop.findings.has_errors());
    const Plan plan = plan_of(workshop, block(workshop, "both"));
    REQUIRE(plan.melts.size() == 1);
    CHECK(plan.melts[0].recipes.size() == 1);
    REQUIRE(plan.recipes.size() == 2);
    CHECK(plan.recipes[0].drawn_from == "tap");
    CHECK(plan.recipes[1].drawn_from.empty());
    CHECK(plan.recipes[1].leftover_g > 0);
}

namespace {

/// 5 % fresh of an oil with a supplier's label for 5.3 % of total, and 20 % leftovers with 8 %.
Workshop labelled(std::string_view scent_of_leftover, std::string_view most) {
    return worked("substance linn { hazards: skin-sens-1b }\noil told like sage {\n contains: 30% "
                  "linn\n supplier-label: \"EUH208 Contains linn.\"\n supplier-label-load: " +
                  std::string(most) +
                  " of total\n}\nleftover mine {\n wax: dune\n load: 8% of wax\n scent: " +
                  std::string(scent_of_leftover) +
                  "\n}\nrecipe sold like tide {\n wax: dune\n load: 5% of wax\n scent: told\n "
                  "leftovers: 20% mine\n}\n");
}

} // namespace

TEST_CASE(
    "a label is of all that is in the candle, and a supplier's of one oil at its whole load") {
    const Workshop one = labelled("told", "5.3%");
    const Reckoning r = of(one, "sold");
    const auto contents = contents_of(one.model, r);
    REQUIRE(contents);
    // 0.20 × 0.08 / 1.08 + 0.80 × 0.05 / 1.05 of the candle is oil, and 30 % of that is linn.
    CHECK(near(contents->load_of_total, 0.0529100529101));
    CHECK(near(contents->candle.at(1).fraction, 0.015873015873));
    CHECK(contents->candle.at(1).name == "linn");
    CHECK(supplier_use(one.model, r, *contents) == SupplierUse::usable);
    CHECK_FALSE(contents->scent.empty());

    const Workshop less = labelled("told", "5.2%");
    const Reckoning l = of(less, "sold");
    CHECK(supplier_use(less.model, l, contents_of(less.model, l).value()) == SupplierUse::too_much);

    const Workshop other = labelled("pine", "5.3%");
    const Reckoning o = of(other, "sold");
    const auto mixed = contents_of(other.model, o);
    REQUIRE(mixed);
    CHECK(supplier_use(other.model, o, *mixed) == SupplierUse::blended);
    CHECK(mixed->scent.empty()); // less of one of them is another blend
    CHECK(mixed->unsaid.size() == 2);
}

TEST_CASE("there is enough for as many as the box gives, and none of it is bought") {
    const Workshop workshop =
        worked(slack("15% tide-ends") + "stock box { have 300 g tide-ends }\n");
    const Supplies supplies = add_up(workshop.model, workshop.model.haves, true);
    const Enough enough = enough_for(workshop.model, block(workshop, "slack"), supplies);
    // A candle takes 25.9 g of it, and 11 take 285 g.
    CHECK(enough.count == 11);
    const Plan plan = plan_of(workshop, block(workshop, "slack"));
    bool found_it = false;
    for (const SupplyPlan& supply : plan.money.supplies) {
        if (supply.name != "tide-ends") continue;
        found_it = true;
        CHECK(supply.kept);
        CHECK(supply.cost == 0);
        CHECK(supply.packs.empty());
    }
    CHECK(found_it);
}

TEST_CASE("a melt that only the thermometer keeps under a flash point is named on the sheet") {
    const auto said = [](std::string_view step) {
        std::string text = slack("15% tide-ends");
        const std::string_view old = "melt to 56 °C";
        text.replace(text.find(old), old.size(), step);
        const Workshop workshop = worked(text);
        std::size_t count = 0;
        for (const CautionLine& line : plan_of(workshop, block(workshop, "slack")).cautions)
            count += line.rule == Rule::scent_over_flash_in_bath && !line.finding;
        return std::pair(count, found(workshop, Rule::scent_over_flash_in_bath));
    };
    // pine lights from 57 °C
    CHECK(said("melt to 53 °C") == std::pair<std::size_t, std::size_t>(0, 0));
    CHECK(said("melt to 54 °C") == std::pair<std::size_t, std::size_t>(1, 0));
    CHECK(said("melt to 57 °C") == std::pair<std::size_t, std::size_t>(0, 1));
}
