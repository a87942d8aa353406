// Title, what to mind, and the cautions.
#include "emit/markdown_parts.hpp"
#include "units/date.hpp"

namespace waxwright {

namespace {

// A run of underscores with a blank or a line end on both sides is no markup.
constexpr std::string_view blank = "______________";

void write_counts(SheetWriter& sheet) {
    for (const RecipePlan& recipe : sheet.plan.recipes) {
        sheet.say(sheet.plan.is_batch ? "- **" : "**").number(recipe.count).say(" × ");
        sheet.user(recipe.vessel).say("**");
        if (sheet.plan.is_batch) sheet.say(" of ").user(recipe.title);
        if (recipe.title != recipe.name) sheet.say(" (recipe ").user(recipe.name).say(")");
        sheet.say("\n");
    }
    if (is_mixed(sheet.plan)) {
        sheet.say("\n**").number(sheet.plan.count).say("** vessels in all\n");
    }
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
    sheet.say(": ").number(sheet.plan.count).say(", the most there is enough for");
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

/// A hint's lines, behind the message.
void write_hint(SheetWriter& sheet, std::string_view hint) {
    if (!hint.empty()) sheet.say("; ").message(hint);
}

void write_mind_line(SheetWriter& sheet, const MindLine& line) {
    if (line.because) {
        sheet.say("- **Allowed:** ");
    } else {
        sheet.say(line.severity == Severity::note ? "- **Note:** " : "- **Warning:** ");
    }
    for (std::size_t i = 0; i < line.recipes.size(); ++i) {
        sheet.user(line.recipes[i]).say(i + 1 < line.recipes.size() ? ", " : ": ");
    }
    sheet.message(line.text);
    if (line.because) {
        sheet.say("; allowed because “").user(*line.because).say("”");
    } else {
        write_hint(sheet, line.hint);
    }
    sheet.say(" (").say(info(line.rule).name).say(")\n");
}

/// Six lines, for the stove; where each is from stands in docs/safety.md.
constexpr std::string_view cautions =
    R"(- **Never leave melting wax**, whatever time this sheet gives: somebody stays and watches it.
- **Fire:** heat off if you can reach it without leaning over the pot. Lid or fire blanket on; leave it on. Never move the pot. Never water.
- **Not out at once?** Everyone out, door shut, call the fire service. An extinguisher only if it is rated for burning liquids, and by someone who has used one.
- **Water:** all that touches the wax is bone dry, no drip or steam gets in. A bath is topped up and never boils dry; the pot in it can't float or tip.
- **Wax on skin:** under cool running water for 20 minutes; don't peel the wax off.
- **Oils:** gloves for undiluted oils, air the room, children and pets out.

The supplier's data sheet, local codes and licensed practice go before this sheet.
)";

} // namespace

void write_title(SheetWriter& sheet) {
    const Plan& plan = sheet.plan;
    sheet.say("# ").user(plan.title).say("\n\n");
    write_counts(sheet);
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

void write_mind(SheetWriter& sheet) {
    sheet.heading("Mind, in this batch");
    if (sheet.plan.mind.empty()) {
        sheet.say("Nothing beyond the cautions below.\n");
        return;
    }
    for (const MindLine& line : sheet.plan.mind)
        write_mind_line(sheet, line);
}

void write_cautions(SheetWriter& sheet) {
    sheet.heading("Cautions");
    sheet.say(cautions);
}

} // namespace waxwright
