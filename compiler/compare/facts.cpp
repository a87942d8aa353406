#include "compare/facts.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <span>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "compare/fact_list.hpp"
#include "plan/wording.hpp"
#include "units/date.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr AspectInfo aspects[] = {
#define ASPECT(identifier, slug, words) {slug, words},
#include "compare/aspects.def"
#undef ASPECT
};

/// What goes into one vessel, as its scale shows it.
SheetValue poured(double grams, const ScalePlan& scale) {
    const double division = pour_division(scale, grams);
    return weight_value(down_to_divisions(grams, division), division, scale.unit);
}

void put_masses(Facts& facts, const RecipePlan& recipe) {
    facts.put(Aspect::count, count_value(recipe.count));
    facts.put_text(Aspect::vessel, recipe.vessel);
    if (recipe.fill_ml > 0) {
        facts.put(Aspect::fill, figure_value(ValueKind::volume, recipe.fill_ml));
    }
    if (recipe.to_the_line) {
        facts.put_text(Aspect::first_pour, "to the line, not to a weight");
        return;
    }
    const DoubtPlan& doubt = recipe.doubt;
    SheetValue first = poured(recipe.first_pour_g, recipe.scale);
    first.text = show_pour_ends(recipe.first_pour_g, doubt.first_pour_g, recipe.scale);
    facts.put(Aspect::first_pour, first);
    // With one pour only they are the same figure.
    if (recipe.second_pour_g <= 0) return;
    SheetValue finished = poured(recipe.mass_g, recipe.scale);
    finished.text = show_pour_ends(recipe.mass_g, doubt.mass_g, recipe.scale);
    facts.put(Aspect::finished, finished);
    // As on the sheet, so that its three figures add up.
    facts.put(Aspect::second_pour, weight_value(std::max(finished.number - first.number, 0.0),
                                                first.division_g, first.unit));
    if (recipe.keep_said) facts.put(Aspect::kept, poured(recipe.kept_g, recipe.scale));
    if (recipe.keep_in) facts.put_text(Aspect::keep_in, recipe.keep_in->name);
}

void put_load(Facts& facts, const RecipePlan& recipe) {
    facts.put(Aspect::limit_of_wax, ValueKind::share, recipe.limit_of_wax);
    if (recipe.load_of_total <= 0) return;
    const auto put = [&](Aspect aspect, double load, const std::optional<FigureRange>& ends) {
        SheetValue value = figure_value(ValueKind::share, load);
        value.text = show_percent_ends(load, ends);
        facts.put(aspect, std::move(value));
    };
    put(Aspect::load_of_wax, recipe.load_of_wax, recipe.doubt.load_of_wax);
    put(Aspect::load_of_total, recipe.load_of_total, recipe.doubt.load_of_total);
}

void put_blends(Facts& facts, const RecipePlan& recipe) {
    for (const ExactLine& line : recipe.exact) {
        // An additive's share of all additives would say nothing.
        const bool additive = line.kind == PlanKind::additive;
        facts.put(additive                          ? Aspect::additive
                  : line.kind == PlanKind::wax      ? Aspect::wax
                  : line.kind == PlanKind::leftover ? Aspect::leftover
                                                    : Aspect::oil,
                  figure_value(ValueKind::share, additive ? line.of_wax : line.share), line.name);
    }
    for (const ScaleLine& line : recipe.premix) {
        facts.put(Aspect::premix,
                  weight_value(line.grams, recipe.premix_division_g, recipe.scale.unit), line.name);
    }
}

std::string_view heated_words(Choice heated) {
    if (heated == Choice::water_bath) return "in a water bath";
    if (heated == Choice::melter) return "as a melter";
    if (heated == Choice::hotplate) return "on a hotplate";
    if (heated == Choice::flame) return "on a flame";
    return "";
}

void put_bench(Facts& facts, const RecipePlan& recipe) {
    facts.put(Aspect::ceiling, ValueKind::temperature, recipe.ceiling_c);
    if (recipe.load_of_total > 0) facts.put(Aspect::flash, ValueKind::temperature, recipe.flash_c);
    if (recipe.wick) {
        facts.put_text(Aspect::wick, fmt::format("{} {}", recipe.wick->count, recipe.wick->name));
    }
    for (const Item& extra : recipe.extras)
        facts.put(Aspect::extra, count_value(extra.count), extra.name);
    const ScalePlan& scale = recipe.scale;
    if (!scale.name.empty()) {
        facts.put_text(Aspect::scale,
                       fmt::format("{}, reads {}", scale.name,
                                   show_weight(scale.division_g, scale.division_g, scale.unit)));
    }
    if (recipe.spare > 0) facts.put(Aspect::spare, figure_value(ValueKind::share, recipe.spare));
    facts.put_text(Aspect::heated, heated_words(recipe.heated));
}

void put_pots(Facts& facts, const RecipePlan& recipe, std::span<const PotPlan> pots) {
    if (recipe.pots_at_once > 1) {
        facts.put(Aspect::pots_at_once, count_value(recipe.pots_at_once));
    }
    for (const PotPlan& pot : pots) {
        const std::string label = fmt::format("{} ({} {})", pot.name.empty() ? "the pot" : pot.name,
                                              pot.vessels, pot.vessels == 1 ? "vessel" : "vessels");
        facts.put(Aspect::filling, count_value(pot.pots), label);
        for (const ScaleLine& line : pot.lines) {
            facts.put(Aspect::weigh, weight_value(line.grams, pot.division_g, recipe.scale.unit),
                      line.name, label);
        }
    }
}

/// Of which delivery a material is, where the stock says so.
void put_lots(Facts& facts, const RecipePlan& recipe, std::span<const PotPlan> pots) {
    std::set<std::string_view> told;
    const auto put = [&](const std::vector<ScaleLine>& lines) {
        for (const ScaleLine& line : lines) {
            if (line.lot.empty() || !told.insert(line.name).second) continue;
            facts.put(Aspect::supply_lot, text_value(line.lot), line.name);
        }
    };
    put(recipe.premix);
    for (const PotPlan& pot : pots)
        put(pot.lines);
}

/// What the whole sheet goes by.
void put_surroundings(Facts& facts, const Plan& plan, bool us_units) {
    const double error = plan.thermometer_error;
    facts.put_text(Aspect::thermometer, fmt::format("{} C° ({} F°)", show_number(error, 1),
                                                    show_number(error * 1.8, 1)));
    facts.put(Aspect::room, figure_value(ValueKind::temperature, plan.room));
    for (const BathPlan& bath : plan.baths) {
        const std::string water =
            bath.ml > 0 ? ", " + show_volume(bath.ml, us_units) : std::string();
        facts.put(
            Aspect::bath,
            text_value(fmt::format("{} {}{}{}", bath.count, bath.count == 1 ? "bath" : "baths",
                                   water, bath.hot ? ", filled hot" : "")),
            bath.pot.empty() ? "the pot" : bath.pot);
    }
}

std::string ready_words(const RecipePlan& recipe) {
    if (!recipe.ready_on) return {};
    return show(*recipe.ready_on) + (recipe.ready_at_least ? " at the earliest" : "");
}

std::string burns_words(const RecipePlan& recipe) {
    if (!recipe.burn_h) return {};
    if (*recipe.burn_h < 5) return "less than 5 h";
    return fmt::format("at least {} h", show_number(*recipe.burn_h, 0));
}

void put_ends(Facts& facts, const RecipePlan& recipe) {
    facts.put(Aspect::cure, ValueKind::minutes, recipe.cure_minutes);
    facts.put_text(Aspect::cure_wanted, recipe.cure_wanted);
    facts.put_text(Aspect::ready, ready_words(recipe));
    facts.put_text(Aspect::burns, burns_words(recipe));
    if (recipe.test) put_test_burn(facts, *recipe.test);
    facts.put_text(Aspect::notes, recipe.notes);
}

/// Some of what it is made of may have no price.
void put_candle(Facts& facts, const MoneyPlan& money, std::size_t index) {
    if (!money.priced || index >= money.candles.size()) return;
    const CandlePlan& candle = money.candles[index];
    facts.put(money.so_far ? Aspect::cost_so_far : Aspect::cost,
              money_value(candle.in_all, money.currency));
    if (candle.left) facts.put(Aspect::left, money_value(*candle.left, money.currency));
}

PartFacts part_of(const Plan& plan, std::size_t index, bool us_units) {
    const RecipePlan& recipe = plan.recipes[index];
    PartFacts part{recipe.name, recipe.title, {}, {}};
    Facts facts(part.facts);
    put_masses(facts, recipe);
    put_load(facts, recipe);
    put_blends(facts, recipe);
    put_bench(facts, recipe);
    put_pots(facts, recipe, pots_of(plan, index));
    put_lots(facts, recipe, pots_of(plan, index));
    if (!plan.is_batch) put_surroundings(facts, plan, us_units);
    put_ends(facts, recipe);
    put_candle(facts, plan.money, index);
    const auto steps = steps_of(plan, index);
    part.steps.assign(steps.begin(), steps.end());
    return part;
}

void put_melts(Facts& facts, const Plan& plan) {
    for (const MeltPlan& melt : plan.melts) {
        const ScalePlan& scale = plan.recipes[melt.recipes.front()].scale;
        std::string label = melt.name; // a melter may be filled with several blends
        for (const std::size_t recipe : melt.recipes)
            label += (recipe == melt.recipes.front() ? " for " : ", ") + plan.recipes[recipe].name;
        facts.put(Aspect::filling, count_value(melt.fillings), label);
        facts.put(Aspect::melt_at, figure_value(ValueKind::temperature, melt.celsius), label);
        for (const ScaleLine& line : melt.lines) {
            facts.put(Aspect::weigh, weight_value(line.grams, melt.division_g, scale.unit),
                      line.name, label);
        }
    }
}

/// What is said of the batch as a whole.
void put_batch(Facts& facts, const Plan& plan, bool us_units) {
    facts.put_text(Aspect::lot, plan.lot);
    if (plan.starts) facts.put_text(Aspect::starts, show(*plan.starts));
    facts.put(Aspect::count, count_value(plan.count));
    put_surroundings(facts, plan, us_units);
    put_melts(facts, plan);
    // The average of all; where there is but one recipe it is that one's.
    put_candle(facts, plan.money, plan.recipes.size() > 1 ? plan.recipes.size() : 0);
    if (plan.money.price) {
        facts.put(Aspect::price, money_value(*plan.money.price, plan.money.currency));
    }
    facts.put_text(Aspect::notes, plan.notes);
}

} // namespace

const AspectInfo& info(Aspect aspect) {
    return aspects[static_cast<std::size_t>(aspect)];
}

SheetFacts facts_of(const Plan& plan, bool us_units) {
    SheetFacts sheet;
    sheet.is_batch = plan.is_batch;
    sheet.us_units = us_units;
    sheet.name = plan.name;
    sheet.title = plan.title;
    for (std::size_t i = 0; i < plan.recipes.size(); ++i)
        sheet.parts.push_back(part_of(plan, i, us_units));
    Facts facts(sheet.facts);
    if (plan.is_batch) put_batch(facts, plan, us_units);
    return sheet;
}

} // namespace waxwright
