// What has to be there before anything is lit.
#include <algorithm>
#include <limits>
#include <vector>

#include "emit/markdown_money.hpp"
#include "emit/markdown_parts.hpp"
#include "plan/wording.hpp"

namespace waxwright {

namespace {

void count_in(std::vector<Item>& items, std::int64_t count, const std::string& name) {
    const auto found = std::find_if(items.begin(), items.end(),
                                    [&](const Item& item) { return item.name == name; });
    if (found == items.end()) {
        items.push_back({count, name});
    } else {
        constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
        found->count = count > most - found->count ? most : found->count + count;
    }
}

/// Recipes that follow each other take the same ones: of each name as many as the most need.
void have_at_least(std::vector<Item>& items, const Item& needed) {
    const auto same = std::find_if(items.begin(), items.end(),
                                   [&](const Item& item) { return item.name == needed.name; });
    if (same == items.end()) {
        items.push_back(needed);
    } else {
        same->count = std::max(same->count, needed.count);
    }
}

void write_items(SheetWriter& sheet, const std::vector<Item>& items) {
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i > 0) sheet.say(", ");
        sheet.number(items[i].count).say(" ").user(items[i].name);
    }
}

bool has_step(const Plan& plan, Verb verb) {
    return std::any_of(plan.steps.begin(), plan.steps.end(),
                       [&](const StepPlan& step) { return step.verb == verb; });
}

void write_vessels(SheetWriter& sheet) {
    std::vector<Item> vessels;
    std::vector<Item> wicks;
    std::vector<Item> extras;
    for (const RecipePlan& recipe : sheet.plan.recipes) {
        count_in(vessels, recipe.count, recipe.vessel);
        if (recipe.wick) count_in(wicks, recipe.wick->count * recipe.count, recipe.wick->name);
        for (const Item& extra : recipe.extras)
            count_in(extras, extra.count, extra.name);
    }
    // Where a step sets the wicks, they need only lie ready.
    const bool wicked_later = wicks.empty() || has_step(sheet.plan, Verb::set_wick);
    write_items(sheet.say("- [ ] Vessels counted, clean and dry, well away from any heat: "),
                vessels);
    if (vessels.size() < sheet.plan.recipes.size()) {
        sheet.say("; each recipe's on a tray of its own");
    }
    sheet.say("; ");
    const auto& recipes = sheet.plan.recipes;
    const bool many = std::all_of(recipes.begin(), recipes.end(),
                                  [](const RecipePlan& each) { return each.count > 3; });
    sheet.say(!many ? "each" : recipes.size() > 1 ? "three of each recipe's" : "three");
    sheet.say(" weighed empty, the weight on them\n");
    if (!wicks.empty()) {
        write_items(
            sheet.say(wicked_later ? "- [ ] Wicks counted: " : "- [ ] Wicks set in the vessels: "),
            wicks);
        sheet.say("\n");
    }
    if (!extras.empty()) {
        write_items(sheet.say("- [ ] To hand: "), extras);
        sheet.say("\n");
    } else if (has_step(sheet.plan, Verb::lid)) {
        sheet.say("- [ ] To hand: lids for the vessels\n");
    }
}

/// And those that what is kept back waits in.
void add_keep_pots(const Plan& plan, std::vector<Item>& pots) {
    std::vector<Item> keeps;
    for (std::size_t i = 0; i < plan.recipes.size(); ++i) {
        if (!plan.recipes[i].keep_in) continue;
        Item needed{0, plan.recipes[i].keep_in->name};
        for (const PotPlan& pot : pots_of(plan, i))
            needed.count += pot.pots;
        needed.count = std::min(needed.count, plan.recipes[i].keep_in->count);
        have_at_least(keeps, needed);
    }
    for (const Item& keep : keeps)
        count_in(pots, keep.count, keep.name);
}

/// As many pots of a name as stand on the stove at once; never more than there are fillings.
void write_pots(SheetWriter& sheet) {
    std::vector<Item> pots;
    double nameless_ml = 0;
    for (std::size_t i = 0; i < sheet.plan.recipes.size(); ++i) {
        Item needed{0, {}};
        for (const PotPlan& pot : pots_of(sheet.plan, i)) {
            if (pot.name.empty()) {
                nameless_ml = std::max(nameless_ml, pot.volume_ml);
            } else {
                needed = {needed.count + pot.pots, pot.name};
            }
        }
        if (needed.count == 0) continue;
        needed.count = std::min(needed.count, sheet.plan.recipes[i].pots_at_once);
        have_at_least(pots, needed);
    }
    for (const MeltPlan& melt : sheet.plan.melts) {
        const Item melter{1, melt.name};
        const bool listed = std::any_of(pots.begin(), pots.end(),
                                        [&](const Item& each) { return each.name == melter.name; });
        if (!listed) pots.push_back(melter);
    }
    add_keep_pots(sheet.plan, pots);
    sheet.say("- [ ] Pots clean and bone dry: ");
    write_items(sheet, pots);
    const bool alike =
        std::any_of(pots.begin(), pots.end(), [](const Item& pot) { return pot.count > 1; });
    if (alike) sheet.say("; those of a name marked 1, 2 and so on");
    if (nameless_ml > 0) {
        sheet.say(pots.empty() ? "a pot that holds well over " : ", and one that holds well over ");
        sheet.volume(nameless_ml);
    }
    sheet.say("\n");
}

/// "A bath for pour-can, at most 2000 ml of hot water. ", of each name of pots that stands in one.
void write_baths(SheetWriter& sheet) {
    if (sheet.plan.baths.size() > 1) sheet.say("Each on a plate of its own: ");
    for (const BathPlan& bath : sheet.plan.baths) {
        if (bath.count > 1) {
            sheet.number(bath.count).say(" baths for ");
        } else {
            sheet.say("A bath for ");
        }
        sheet.user(bath.pot.empty() ? "the pot" : bath.pot);
        if (bath.ml > 0) {
            sheet.say(", at most ").volume(bath.ml).say(bath.hot ? " of hot water" : " of water");
        }
        sheet.say(". ");
    }
}

/// A bath is topped up, and cold water would keep the wax from melting.
void write_water(SheetWriter& sheet) {
    const auto& recipes = sheet.plan.recipes;
    const auto& melts = sheet.plan.melts;
    const bool in_bath =
        std::any_of(recipes.begin(), recipes.end(),
                    [](const RecipePlan& recipe) { return recipe.heated == Choice::water_bath; }) ||
        std::any_of(melts.begin(), melts.end(), [](const MeltPlan& melt) { return melt.in_bath; });
    if (!in_bath) return;
    sheet.say("- [ ] ");
    write_baths(sheet);
    sheet.say("Hot water at hand to top up, never higher than the wax: else the pot floats\n");
}

void write_scales(SheetWriter& sheet) {
    const auto& recipes = sheet.plan.recipes;
    std::vector<std::string_view> seen;
    for (const RecipePlan& recipe : recipes) {
        const ScalePlan& scale = recipe.scale;
        if (std::find(seen.begin(), seen.end(), scale.name) != seen.end()) continue;
        seen.push_back(scale.name);
        const bool another = std::any_of(recipes.begin(), recipes.end(),
                                         [](const RecipePlan& r) { return !r.scale.name.empty(); });
        if (scale.name.empty() && another) continue; // it will do for this recipe too
        sheet.say("- [ ] Scale level and zeroed");
        if (!scale.name.empty()) {
            sheet.say(": ").user(scale.name).say(", reads ");
            sheet.weight(scale.division_g, scale.division_g, scale);
        }
        if (!sheet.plan.melts.empty())
            sheet.say("; a second one where you pour, well away from the melter");
        sheet.say("\n");
    }
}

/// Only where several oils become one: a single one is weighed from its own bottle.
void write_scents(SheetWriter& sheet) {
    for (const RecipePlan& recipe : sheet.plan.recipes) {
        if (recipe.premix.empty()) continue;
        sheet.say("- [ ] Scent blended, by its own table");
        if (is_mixed(sheet.plan)) sheet.say(" for ").user(recipe.title);
        sheet.say(": ");
        for (std::size_t i = 0; i < recipe.premix.size(); ++i) {
            if (i > 0) sheet.say(", ");
            sheet.user(recipe.premix[i].name);
        }
        sheet.say("\n");
    }
}

/// Weighed beforehand, and shut: an open cup of oil beside a burner can light.
void write_weighed(SheetWriter& sheet) {
    std::int64_t fillings = 0;
    bool scented = false;
    for (std::size_t i = 0; i < sheet.plan.recipes.size(); ++i) {
        fillings += fillings_of(sheet.plan, i);
        scented = scented || sheet.plan.recipes[i].scent_g > 0;
    }
    if (fillings < 2) return; // else the cautions will do
    const auto& recipes = sheet.plan.recipes;
    const bool drawn = std::all_of(recipes.begin(), recipes.end(), [](const RecipePlan& recipe) {
        return !recipe.drawn_from.empty();
    });
    sheet.say("- [ ] ").say(drawn ? "Scent" : scented ? "Wax and scent" : "Wax");
    sheet.say(" weighed for each filling, marked: ").number(fillings);
    if (scented) sheet.say("; scent in closed bottles, well away from any heat");
    sheet.say("\n");
}

/// What is in an old candle besides wax burns, or spits.
void write_leftovers(SheetWriter& sheet) {
    std::vector<std::string_view> names;
    for (const RecipePlan& recipe : sheet.plan.recipes) {
        for (const ExactLine& line : recipe.exact) {
            const bool known = std::find(names.begin(), names.end(), line.name) != names.end();
            if (line.kind == PlanKind::leftover && !known) names.push_back(line.name);
        }
    }
    if (names.empty()) return;
    sheet.say(
        "- [ ] Leftovers looked through, your own and out of a box that says what they are: ");
    for (std::size_t i = 0; i < names.size(); ++i)
        sheet.say(i > 0 ? ", " : "").user(names[i]);
    sheet.say("; no wick ends, metal tabs, matches or dirt in them; dry, as water spits in hot "
              "wax; broken small\n");
}

/// What the second pour wants, and where hot water comes from.
void write_second_pour(SheetWriter& sheet, bool hot_bath) {
    const bool second = has_step(sheet.plan, Verb::second_pour);
    if (second) sheet.say("- [ ] For the second pour: a bowl, a dry cloth\n");
    if (second || hot_bath) {
        sheet.say("- [ ] Electric kettle, well away: it is heat too, on only while no scented wax "
                  "stands open in a pot\n");
    }
}

/// Its thermostat is all that watches it while wax is poured.
void write_melter_list(SheetWriter& sheet) {
    for (const MeltPlan& melt : sheet.plan.melts) {
        sheet.say("- [ ] ").user(melt.name).say(": thermostat set to ");
        sheet.temperature(melt.celsius)
            .say("; a thermometer of its own in it; tap shut. Wax weighed: ");
        sheet.number(melt.fillings).say(" × ");
        const ScalePlan& scale = sheet.plan.recipes[melt.recipes.front()].scale;
        sheet.weight(melt.weighed_g, melt.division_g, scale).say("\n");
    }
}

} // namespace

void write_before(SheetWriter& sheet) {
    sheet.heading("Before you light anything");
    write_vessels(sheet);
    write_pots(sheet);
    write_water(sheet);
    write_scales(sheet);
    sheet.say("- [ ] Thermometer to hand; it may be wrong by ");
    sheet.interval(sheet.plan.thermometer_error);
    if (is_mixed(sheet.plan)) sheet.say("; it and the stirrer are wiped between pots");
    sheet.say("\n- [ ] Lid for each pot, and another or a fire blanket, to hand\n");
    sheet.say("- [ ] Dry oven gloves, oil gloves, goggles; paper, a lidded metal bin\n");
    if (has_step(sheet.plan, Verb::smooth_top)) {
        sheet.say("- [ ] What smooths the tops: no hotter than a hair dryer\n");
    }
    if (has_step(sheet.plan, Verb::warm_vessels)) {
        sheet.say(
            "- [ ] What warms the vessels: nothing that glows, in sight of the pots; a cover\n");
    }
    write_leftovers(sheet);
    write_scents(sheet);
    write_weighed(sheet);
    const auto& baths = sheet.plan.baths;
    write_second_pour(sheet, std::any_of(baths.begin(), baths.end(),
                                         [](const BathPlan& bath) { return bath.hot; }));
    write_melter_list(sheet);
    if (sheet.plan.is_batch) write_lots(sheet);
}

} // namespace waxwright
