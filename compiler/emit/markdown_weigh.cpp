// Weigh out: the scent blend once, then a table for each kind of pot.
#include <algorithm>
#include <optional>

#include "emit/markdown_money.hpp"
#include "emit/markdown_parts.hpp"
#include "plan/wording.hpp"

namespace waxwright {

namespace {

/// A box for each filling, in fives as a tally; past twenty it's a number to fill in.
void write_ticks(SheetWriter& sheet, std::int64_t fillings) {
    constexpr std::int64_t most_boxes = 20;
    if (fillings > most_boxes) {
        sheet.say("____ of ").number(fillings);
        return;
    }
    for (std::int64_t i = 0; i < fillings; ++i) {
        if (i > 0 && i % 5 == 0) sheet.say(" ");
        sheet.say("☐");
    }
}

/// `drawn_from`: the melter that wax comes from, empty where it is weighed out.
void write_lines(SheetWriter& sheet, const RecipePlan& recipe, const std::vector<ScaleLine>& lines,
                 std::string_view drawn_from, double division_g, std::string_view what,
                 std::int64_t fillings) {
    sheet.say("| weigh | ").say(what).say(" | supplier's lot | tick |\n|---:|---|---|---|\n");
    double sum = 0;
    for (const ScaleLine& line : lines) {
        sum += line.grams;
        sheet.say("| **").weight(line.grams, division_g, recipe.scale).say("** | ");
        if (line.kind == PlanKind::leftover) sheet.say("leftover ");
        sheet.user(line.name);
        if (line.kind == PlanKind::wax && !drawn_from.empty())
            sheet.say(", drawn from ").user(drawn_from);
        sheet.say(" | ");
        if (!line.lot.empty()) sheet.user(line.lot).say(" ");
        sheet.say("| ");
        write_ticks(sheet, fillings);
        sheet.say(" |\n");
    }
    if (lines.size() < 2) return;
    sheet.say("| ").weight(sum, division_g, recipe.scale).say(" | in all | | |\n");
}

void write_premix(SheetWriter& sheet, const RecipePlan& recipe, std::int64_t fillings) {
    if (recipe.premix.empty()) return;
    sheet.begin_heading();
    sheet.say(fillings > 1 ? "Scent: blend it once for all its pots"
                           : "Scent: blend it beforehand");
    sheet.end_heading();
    write_lines(sheet, recipe, recipe.premix, {}, recipe.premix_division_g, "oil", 1);
    if (!recipe.premix_note.empty()) sheet.say("\n").message(recipe.premix_note).say("\n");
}

/// `first`: its number where there are other fillings than these, else 0.
void write_pot(SheetWriter& sheet, const RecipePlan& recipe, const PotPlan& pot,
               std::int64_t first) {
    sheet.begin_heading();
    if (first > 0 && pot.pots > 1) {
        sheet.say("Fillings ").number(first).say(" to ").number(first + pot.pots - 1).say(": ");
    } else if (first > 0) {
        sheet.say("Filling ").number(first).say(": ");
    } else if (pot.pots > 1) {
        sheet.number(pot.pots).say(" fillings of ");
    } else {
        sheet.say(pot.name.empty() ? "The " : "1 filling of ");
    }
    sheet.user(pot.name.empty() ? "pot" : pot.name).say(", for ").number(pot.vessels);
    sheet.say(pot.vessels == 1 ? " vessel" : " vessels").say(pot.pots > 1 ? " each" : "");
    sheet.say(": ").volume(pot.volume_ml).say(" in the pot when hot");
    if (recipe.second_pour_g > 0 && !recipe.to_the_line) {
        sheet.say("; keep back what is left, ").say(show_kept_for_each(recipe));
        if (recipe.keep_in) sheet.say(", in ").user(recipe.keep_in->name);
    }
    sheet.end_heading();
    write_lines(sheet, recipe, pot.lines, recipe.drawn_from, pot.division_g, "material", pot.pots);
}

/// The lowest that any of its recipes must not be hotter than; nothing where none is known.
std::optional<double> ceiling_of(const SheetWriter& sheet, const MeltPlan& melt) {
    std::optional<double> lowest;
    for (const std::size_t index : melt.recipes) {
        const auto& ceiling = sheet.plan.recipes[index].ceiling_c;
        if (ceiling) lowest = std::min(lowest.value_or(*ceiling), *ceiling);
    }
    return lowest;
}

/// What the melter takes, before the pots that are drawn from it.
void write_melt(SheetWriter& sheet, const MeltPlan& melt) {
    sheet.begin_heading();
    sheet.number(melt.fillings).say(melt.fillings == 1 ? " filling of " : " fillings of ");
    sheet.user(melt.name).say(", for ");
    for (std::size_t i = 0; i < melt.recipes.size(); ++i) {
        sheet.user(sheet.plan.recipes[melt.recipes[i]].title);
        if (i + 1 < melt.recipes.size()) sheet.say(", ");
    }
    sheet.end_heading();
    if (melt.volume_ml > 0) sheet.volume(melt.volume_ml).say(" in it when hot");
    if (melt.refilled_ml > 0) {
        sheet.say(", up to ")
            .volume(melt.refilled_ml)
            .say(" when it is filled again on top of what is left");
    }
    if (melt.volume_ml > 0) sheet.say(". ");
    sheet.say("The wax for the pots below is drawn from it: don't weigh it out again. "
              "Put it in a scoop at a time, as it melts; never tip the melter to get the last out. "
              "If less "
              "comes for the last jug, put in less scent in proportion, and fill fewer vessels.");
    if (const auto ceiling = ceiling_of(sheet, melt)) {
        sheet.say(" Never over ").temperature(*ceiling).say(".");
    }
    sheet.say("\n\n");
    write_lines(sheet, sheet.plan.recipes[melt.recipes.front()], melt.lines, {}, melt.division_g,
                "wax", melt.fillings);
}

} // namespace

void write_melters(SheetWriter& sheet) {
    if (sheet.plan.melts.empty()) return;
    sheet.say("\n## Weigh out for the melter\n");
    for (const MeltPlan& melt : sheet.plan.melts)
        write_melt(sheet, melt);
}

void write_weigh_out(SheetWriter& sheet, std::size_t index) {
    const RecipePlan& recipe = sheet.plan.recipes[index];
    if (!sheet.plan.is_batch) sheet.say("\n## Weigh out\n");
    const std::int64_t fillings = fillings_of(sheet.plan, index);
    if (fillings > 1 || recipe.spare > 0) sheet.say("\n");
    if (fillings > 1) sheet.say("Each weight is for one filling; tick a box for each.");
    if (recipe.spare > 0) {
        sheet.say(fillings > 1 ? " " : "")
            .say("Spare is in these weights: ")
            .percent(recipe.spare)
            .say(".");
    }
    if (fillings > 1 || recipe.spare > 0) sheet.say("\n");
    if (!recipe.small_pot.empty()) sheet.say("\n").message(recipe.small_pot).say("\n");
    write_premix(sheet, recipe, fillings);
    const auto pots = pots_of(sheet.plan, index);
    std::int64_t number = pots.size() > 1 ? 1 : 0;
    for (const PotPlan& pot : pots) {
        write_pot(sheet, recipe, pot, number);
        if (number > 0) number += pot.pots;
    }
    if (!sheet.plan.is_batch) write_lots(sheet);
}

} // namespace waxwright
