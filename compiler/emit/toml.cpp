#include "emit/toml.hpp"

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <optional>
#include <sstream>
#include <string_view>
#include <utility>

#include "emit/toml_put.hpp"

namespace waxwright {

namespace {

/// The ends of a figure that hangs on doubtful ones: `mass_low_g` and `mass_high_g`.
void put_ends(toml::table& table, std::string_view name, std::string_view unit,
              const std::optional<FigureRange>& ends) {
    if (!ends) return;
    put(table, std::string(name).append("_low").append(unit), ends->low);
    put(table, std::string(name).append("_high").append(unit), ends->high);
}
void put_whole_ends(toml::table& table, std::string_view name,
                    const std::optional<FigureRange>& ends) {
    if (!ends) return;
    put(table, std::string(name).append("_low"), static_cast<std::int64_t>(ends->low));
    put(table, std::string(name).append("_high"), static_cast<std::int64_t>(ends->high));
}

void put_doubt(toml::table& table, const DoubtPlan& doubt) {
    put_ends(table, "mass", "_g", doubt.mass_g);
    put_ends(table, "first_pour", "_g", doubt.first_pour_g);
    put_ends(table, "load_of_wax", "", doubt.load_of_wax);
    put_ends(table, "load_of_total", "", doubt.load_of_total);
    put_ends(table, "wax", "_g", doubt.wax_g);
    put_ends(table, "scent", "_g", doubt.scent_g);
    put_ends(table, "additive", "_g", doubt.additive_g);
    put_ends(table, "leftover", "_g", doubt.leftover_g);
    put_whole_ends(table, "fillings", doubt.fillings);
    put_whole_ends(table, "most_vessels", doubt.most_vessels);
}

toml::array exact_lines(const RecipePlan& recipe) {
    toml::array lines;
    for (const ExactLine& line : recipe.exact) {
        toml::table table;
        put(table, "kind", word(line.kind));
        put(table, "name", line.name);
        put(table, "mass_g", line.grams);
        put(table, "share", line.share);
        lines.push_back(std::move(table));
    }
    return lines;
}

toml::array premix_lines(const RecipePlan& recipe) {
    toml::array lines;
    for (const ScaleLine& line : recipe.premix) {
        toml::table table;
        put(table, "name", line.name);
        put(table, "weigh_g", line.grams);
        lines.push_back(std::move(table));
    }
    return lines;
}

toml::table recipe_table(const RecipePlan& recipe) {
    toml::table table;
    put(table, "name", recipe.name);
    put(table, "title", recipe.title);
    put(table, "count", recipe.count);
    put(table, "vessel", recipe.vessel);
    put(table, "fill_ml", recipe.fill_ml);
    put(table, "mass_g", recipe.mass_g);
    put(table, "first_pour_g", recipe.first_pour_g);
    put(table, "second_pour_g", recipe.second_pour_g);
    put(table, "kept_g", recipe.kept_g);
    put(table, "load_of_wax", recipe.load_of_wax);
    put(table, "load_of_total", recipe.load_of_total);
    put(table, "limit_of_wax", recipe.limit_of_wax);
    put(table, "ceiling_c", recipe.ceiling_c);
    put(table, "flash_c", recipe.flash_c);
    put(table, "burn_h", recipe.burn_h);
    put(table, "wax_g", recipe.wax_g);
    put(table, "scent_g", recipe.scent_g);
    put(table, "additive_g", recipe.additive_g);
    if (recipe.leftover_g > 0) put(table, "leftover_g", recipe.leftover_g);
    put_doubt(table, recipe.doubt);
    put_if_any(table, "weigh", exact_lines(recipe));
    put_if_any(table, "premix", premix_lines(recipe));
    return table;
}

/// A time by the clock where the batch is made, without a zone.
toml::date_time clock(const Date& date) {
    return {toml::date(date.year, date.month, date.day), toml::time(date.hour, date.minute)};
}

toml::table weigh_table(const ScaleLine& line) {
    toml::table weigh;
    put(weigh, "kind", word(line.kind));
    put(weigh, "name", line.name);
    put(weigh, "weigh_g", line.grams);
    return weigh;
}

toml::table pot_table(const Plan& plan, const PotPlan& pot) {
    toml::table table;
    put(table, "recipe", plan.recipes[pot.recipe].name);
    put_if_any(table, "name", pot.name);
    put(table, "pots", pot.pots);
    put(table, "vessels", pot.vessels);
    put(table, "mass_g", pot.mass_g);
    put(table, "volume_ml", pot.volume_ml);
    toml::array lines;
    for (const ScaleLine& line : pot.lines)
        lines.push_back(weigh_table(line));
    put_if_any(table, "weigh", std::move(lines));
    return table;
}

toml::table melt_table(const Plan& plan, const MeltPlan& melt) {
    toml::table table;
    put(table, "name", melt.name);
    put(table, "fillings", melt.fillings);
    put(table, "at_c", melt.celsius);
    if (melt.volume_ml > 0) put(table, "volume_ml", melt.volume_ml);
    put(table, "minutes", melt.minutes);
    toml::array recipes;
    for (const std::size_t recipe : melt.recipes)
        recipes.push_back(plan.recipes[recipe].name);
    table.insert("recipes", std::move(recipes));
    toml::array lines;
    for (const ScaleLine& line : melt.lines)
        lines.push_back(weigh_table(line));
    put_if_any(table, "weigh", std::move(lines));
    return table;
}

toml::table step_table(const Plan& plan, const StepPlan& step) {
    toml::table table;
    put(table, "recipe", plan.recipes[step.recipe].name);
    put(table, "verb", info(step.verb).slug);
    put_if_any(table, "of", step.of);
    put(table, "at_c", step.at_c);
    put(table, "length_mm", step.length_mm);
    put(table, "minutes", step.minutes);
    if (step.starts) table.insert("starts", clock(*step.starts));
    put(table, "text", step.text);
    return table;
}

toml::table finding_table(const CautionLine& line) {
    toml::table table;
    put(table, "rule", info(line.rule).name);
    put(table, "severity", word(line.severity));
    std::string text = line.text;
    if (!line.hint.empty() && !line.because) text.append("; ").append(line.hint);
    std::replace(text.begin(), text.end(), '\n', ' ');
    put(table, "text", text);
    if (line.because) put(table, "because", *line.because);
    return table;
}

/// What stock does not cover, and the packs that do.
toml::table buy_table(const SupplyPlan& supply) {
    toml::table table;
    put(table, "name", supply.name);
    if (supply.pieces) {
        put(table, "need_each", static_cast<std::int64_t>(supply.missing));
    } else {
        put(table, "need_g", supply.missing);
    }
    if (!supply.on_offer) return table;
    toml::array packs;
    for (const PackPlan& pack : supply.packs) {
        // No inline table: the library's measuring of one is undefined for prices under 0.1.
        toml::table offered;
        put(offered, "count", pack.count);
        put(offered, "size", pack.size);
        put(offered, "price", pack.price);
        packs.push_back(std::move(offered));
    }
    put_if_any(table, "packs", std::move(packs));
    put(table, "cost", supply.to_buy);
    return table;
}

toml::array buy_tables(const MoneyPlan& money) {
    toml::array tables;
    for (const SupplyPlan& supply : money.supplies) {
        if (supply.missing > 0 && !supply.kept) tables.push_back(buy_table(supply));
    }
    return tables;
}

toml::table cost_table(const MoneyPlan& money) {
    toml::table cost;
    put(cost, "currency", code_of(money.currency));
    put(cost, "batch", money.batch);
    put(cost, "each", money.each);
    put(cost, "to_buy", money.to_buy);
    if (money.so_far) cost.insert("so_far", true);
    toml::table table;
    table.insert("cost", std::move(cost));
    return table;
}

toml::table head_table(const Plan& plan) {
    toml::table table;
    put(table, "format", "waxwright-sheet");
    put(table, "edition", std::int64_t{1});
    put(table, "name", plan.name);
    put(table, "title", plan.title);
    put_if_any(table, "lot", plan.lot);
    put(table, "count", plan.count);
    return table;
}

/// A table of the library is sorted by its keys. The parts are printed one after another, so that
/// they stand in the order in which they are read.
class Printer {
public:
    void print(const toml::table& table) {
        text_ << toml::toml_formatter(table, toml_style) << '\n';
    }
    void print(std::string_view key, toml::array&& tables) {
        if (tables.empty()) return;
        toml::table part;
        part.insert(key, std::move(tables));
        text_ << '\n';
        print(part);
    }
    void part(const toml::table& table) {
        text_ << '\n';
        print(table);
    }
    std::string text() const { return text_.str(); }

private:
    std::ostringstream text_;
};

} // namespace

std::string toml_sheet(const Plan& plan) {
    Printer printer;
    printer.print(head_table(plan));
    printer.print("recipe", array_of(plan.recipes, recipe_table));
    printer.print("pot",
                  array_of(plan.pots, [&](const PotPlan& pot) { return pot_table(plan, pot); }));
    printer.print(
        "melt", array_of(plan.melts, [&](const MeltPlan& melt) { return melt_table(plan, melt); }));
    printer.print(
        "step", array_of(plan.steps, [&](const StepPlan& step) { return step_table(plan, step); }));
    std::vector<CautionLine> found;
    std::copy_if(plan.cautions.begin(), plan.cautions.end(), std::back_inserter(found),
                 [](const CautionLine& line) { return line.finding; });
    printer.print("finding", array_of(found, finding_table));
    printer.print("buy", buy_tables(plan.money));
    if (plan.money.priced) printer.part(cost_table(plan.money));
    return printer.text();
}

} // namespace waxwright
