// Title, cautions, and the order in which a batch is worked.
#include <algorithm>

#include "emit/markdown_parts.hpp"
#include "units/date.hpp"

namespace waxwright {

namespace {

// A run of underscores with a blank or a line end on both sides is no markup.
constexpr std::string_view blank = "______________";

void write_count(SheetWriter& sheet) {
    if (sheet.plan.is_batch) {
        sheet.say("**").number(sheet.plan.count).say("** vessels in all\n");
        return;
    }
    const RecipePlan& recipe = sheet.plan.recipes.front();
    sheet.say("**").number(recipe.count).say(" × ").user(recipe.vessel).say("**\n");
}

void write_names(SheetWriter& sheet, const std::vector<std::string>& names) {
    for (std::size_t i = 0; i < names.size(); ++i)
        sheet.say(i > 0 ? ", " : "").user(names[i]);
}

/// Where the count is from, if it was worked out from what there is.
void write_from(SheetWriter& sheet) {
    if (!sheet.plan.from) return;
    const FromPlan& from = *sheet.plan.from;
    sheet.say("\nMade from ");
    if (from.asked.empty()) {
        sheet.say("the stock");
    } else {
        sheet.user(from.asked);
    }
    sheet.say(": ");
    for (std::size_t i = 0; i < sheet.plan.recipes.size(); ++i) {
        sheet.say(i > 0 ? " and " : "").number(sheet.plan.recipes[i].count);
        if (sheet.plan.is_batch) sheet.say(" ").user(sheet.plan.recipes[i].title);
    }
    sheet.say(", the most there is enough for");
    if (sheet.plan.recipes.size() > 1) sheet.say(" in the batch's proportions");
    if (!from.short_of.empty()) {
        sheet.say("; ");
        write_names(sheet, from.short_of);
        sheet.say(from.short_of.size() > 1 ? " run out first" : " runs out first");
    }
    sheet.say(". Left: ");
    write_names(sheet, from.left);
    sheet.say(".");
    if (!from.assumed.empty()) {
        sheet.say(" Taken to be at hand: ");
        write_names(sheet, from.assumed);
        sheet.say(".");
    }
    sheet.say("\n");
}

void write_notes(SheetWriter& sheet) {
    if (!sheet.plan.notes.empty()) sheet.paragraph("Notes:", sheet.plan.notes);
}

/// Six lines, for the stove; where each is from stands in docs/safety.md.
constexpr std::string_view cautions =
    R"(- **Never leave melting wax**, whatever time this sheet gives: somebody stays and watches it. Called away? All heat off first.
- **Fire, smoking wax:** heat off if you can reach it without leaning over the pot. Lid or fire blanket on; leave it on. Never move the pot, never water.
- **Not out at once?** Everyone out, door shut, call the fire service. An extinguisher only if rated for burning liquids, by someone who has used one.
- **Water:** all that touches the wax is bone dry, no drip or steam gets in. A bath is topped up and never boils dry; the pot in it can't float or tip.
- **Wax on skin:** heat off as you go, cool running water for 20 minutes; don't peel the wax off.
- **Oils:** gloves for undiluted oils, bottles shut, air the room, children and pets out.

The supplier's data sheet, local codes and licensed practice come before this sheet.
)";

} // namespace

void write_title(SheetWriter& sheet) {
    const Plan& plan = sheet.plan;
    sheet.say("# ").user(plan.title).say("\n\n");
    write_count(sheet);
    write_from(sheet);
    sheet.say("\nLot: ");
    if (plan.lot.empty()) {
        sheet.say(blank);
    } else {
        sheet.user(plan.lot);
    }
    sheet.say(" · Date: ");
    if (plan.starts) {
        sheet.say(show(*plan.starts));
    } else {
        sheet.say(blank);
    }
    sheet.say(" · Made by: ").say(blank).say("\n");
    write_notes(sheet);
}

void write_cautions(SheetWriter& sheet) {
    sheet.heading("Cautions");
    sheet.say(cautions);
}

namespace {

/// "2 fillings of big-can", behind what is poured of it.
void write_pots(SheetWriter& sheet, std::size_t recipe) {
    const std::span<const PotPlan> pots = pots_of(sheet.plan, recipe);
    if (pots.empty() || pots.front().name.empty()) return;
    const std::int64_t fillings = fillings_of(sheet.plan, recipe);
    sheet.say(", ").number(fillings).say(fillings == 1 ? " filling of " : " fillings of ");
    sheet.user(pots.front().name);
}

} // namespace

void write_order(SheetWriter& sheet) {
    sheet.heading("Order of work");
    std::int64_t place = 0;
    for (const std::size_t i : worked_order(sheet.plan)) {
        const RecipePlan& recipe = sheet.plan.recipes[i];
        sheet.number(++place).say(". **").user(recipe.title).say("**: ");
        sheet.number(recipe.count).say(" × ").user(recipe.vessel);
        write_pots(sheet, i);
        sheet.say("\n");
    }
    if (!is_mixed(sheet.plan) || sheet.plan.day.rows.empty()) return;
    sheet.say("\n");
    if (sheet.plan.melts.size() > 1)
        sheet.say("By their wax, for the melter holds one at a time. ");
    const bool unscented =
        std::any_of(sheet.plan.recipes.begin(), sheet.plan.recipes.end(),
                    [](const RecipePlan& recipe) { return recipe.load_of_total <= 0; });
    sheet.say(unscented ? "Unscented first and light" : "Light");
    sheet.say(" before strong, so that little of one scent gets into the next.\n");
}

void write_recipe_heading(SheetWriter& sheet, std::size_t recipe) {
    const RecipePlan& made = sheet.plan.recipes[recipe];
    sheet.say("\n## ").user(made.title).say(": ").number(made.count).say(" × ");
    sheet.user(made.vessel).say("\n");
    if (!made.notes.empty()) sheet.paragraph("Notes:", made.notes);
}

void write_whose(SheetWriter& sheet, const std::vector<std::size_t>& recipes) {
    if (recipes.size() == sheet.plan.recipes.size()) return;
    for (std::size_t i = 0; i < recipes.size(); ++i) {
        const std::string_view title = sheet.plan.recipes[recipes[i]].title;
        // It may begin a block: a title such as `- low` is no list.
        if (i == 0)
            sheet.user_first(title);
        else
            sheet.say(", ").user(title);
    }
}

} // namespace waxwright
