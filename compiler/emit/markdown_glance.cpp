// At a glance: a table of two columns for each recipe.
#include "emit/markdown_parts.hpp"
#include "plan/wording.hpp"

namespace waxwright {

namespace {

std::string_view heated_words(std::string_view heated) {
    if (heated == "water-bath") return ", in a water bath";
    if (heated == "melter") return ", a melter";
    if (heated == "hotplate") return ", on a hotplate";
    if (heated == "flame") return ", on a flame";
    return "";
}

constexpr std::string_view next = "\n| ";

/// "10 fillings of pour-can, 2 at a time: 5 rounds", or what the one nameless pot takes.
void write_pots(SheetWriter& sheet, const RecipePlan& recipe, std::size_t index) {
    std::int64_t fillings = 0;
    std::string_view name;
    for (const PotPlan& pot : pots_of(sheet.plan, index)) {
        fillings += pot.pots;
        name = pot.name;
    }
    if (fillings == 0) return;
    sheet.say(next).say("Pots | ");
    if (name.empty()) {
        sheet.say("one for all, no pot named |");
        return;
    }
    sheet.number(fillings).say(fillings == 1 ? " filling of " : " fillings of ").user(name);
    if (recipe.doubt.fillings) {
        sheet.say(", ").number(static_cast<std::int64_t>(recipe.doubt.fillings->low));
        sheet.say(" to ").number(static_cast<std::int64_t>(recipe.doubt.fillings->high));
        sheet.say(" within the doubt");
    }
    const std::int64_t at_once = recipe.pots_at_once;
    if (fillings > 1 && at_once > 1) {
        const std::int64_t rounds = (fillings + at_once - 1) / at_once;
        sheet.say(", ").number(at_once).say(" at a time: ").number(rounds);
        sheet.say(rounds == 1 ? " round" : " rounds");
    }
    sheet.say(heated_words(recipe.heated)).say(" |");
}

/// Where the first pour has no weight, neither has what it leaves.
void write_kept_back(SheetWriter& sheet, const RecipePlan& recipe) {
    sheet.say(next).say("Keep back for the second pour | ");
    if (recipe.to_the_line) {
        sheet.say("what is left in the pot |");
        return;
    }
    sheet.say("up to ").say(show_kept_back(recipe)).say(" a vessel |");
    if (recipe.drop_mm) {
        sheet.say(next).say("Sinks before it by | about ").length(*recipe.drop_mm).say(" |");
    }
    sheet.say(next).say("Finished candle | ").pour(recipe.mass_g, recipe.scale);
    sheet.say(show_pour_ends(recipe.mass_g, recipe.doubt.mass_g, recipe.scale)).say(" |");
}

void write_vessel(SheetWriter& sheet, const RecipePlan& recipe) {
    sheet.say(next).say("Into each vessel | ");
    if (recipe.to_the_line) {
        sheet.say("**pour to the line, not to a weight** |");
    } else {
        const bool first = recipe.second_pour_g > 0;
        sheet.say("**").pour(recipe.first_pour_g, recipe.scale);
        sheet.say("**");
        sheet.say(show_pour_ends(recipe.first_pour_g, recipe.doubt.first_pour_g, recipe.scale));
        sheet.say(first ? " at the first pour |" : " |");
    }
    if (recipe.second_pour_g > 0) write_kept_back(sheet, recipe);
}

void write_load(SheetWriter& sheet, const RecipePlan& recipe) {
    sheet.say(next).say("Scent load | ");
    if (recipe.scent_g <= 0) {
        sheet.say("no scent |");
        return;
    }
    sheet.percent(recipe.load_of_wax);
    sheet.say(show_percent_ends(recipe.load_of_wax, recipe.doubt.load_of_wax));
    sheet.say(" of the wax, ").percent(recipe.load_of_total);
    sheet.say(show_percent_ends(recipe.load_of_total, recipe.doubt.load_of_total));
    sheet.say(" of all; ");
    if (recipe.limit_of_wax) {
        sheet.say("this wax holds ").percent(*recipe.limit_of_wax).say(" of its weight |");
    } else {
        sheet.say("how much this wax holds is not known |");
    }
}

void write_wanted(SheetWriter& sheet, const std::optional<TemperatureRange>& range) {
    if (range) sheet.say("; its wax: ").temperatures(*range);
    sheet.say(" |");
}

void write_heat(SheetWriter& sheet, const RecipePlan& recipe) {
    sheet.say(next).say("Ceiling | ");
    if (recipe.ceiling_c) {
        sheet.say("never over **").temperature(*recipe.ceiling_c).say("** |");
    } else {
        sheet.say("not known |");
    }
    if (recipe.scent_c) {
        sheet.say(next).say("Scent goes in at | **").temperature(*recipe.scent_c).say("**");
        write_wanted(sheet, recipe.scent_at);
    }
    if (recipe.flash_c) {
        sheet.say(next).say("Scent can light from | ").temperature(*recipe.flash_c).say(" |");
    }
    if (recipe.pour_c) {
        sheet.say(next).say("Pour at | **").temperature(*recipe.pour_c).say("**");
        write_wanted(sheet, recipe.pour_at);
    }
}

void write_table(SheetWriter& sheet, const RecipePlan& recipe, std::size_t index) {
    sheet.say("| what | how much |\n|---|---|");
    sheet.say(next).say("Vessels | ").number(recipe.count).say(" ").user(recipe.vessel);
    if (recipe.fill_ml > 0) sheet.say(", ").volume(recipe.fill_ml).say(" to the line");
    sheet.say(" |");
    write_pots(sheet, recipe, index);
    write_vessel(sheet, recipe);
    write_load(sheet, recipe);
    write_heat(sheet, recipe);
    sheet.say("\n");
}

/// True if the table has a figure with the ends of its doubt.
bool has_ranges(const RecipePlan& recipe) {
    const DoubtPlan& doubt = recipe.doubt;
    const bool pours =
        !recipe.to_the_line &&
        !(show_pour_ends(recipe.first_pour_g, doubt.first_pour_g, recipe.scale) +
          (recipe.second_pour_g > 0 ? show_pour_ends(recipe.mass_g, doubt.mass_g, recipe.scale)
                                    : std::string()))
             .empty();
    const bool loads =
        recipe.scent_g > 0 && !(show_percent_ends(recipe.load_of_wax, doubt.load_of_wax) +
                                show_percent_ends(recipe.load_of_total, doubt.load_of_total))
                                   .empty();
    return pours || loads || doubt.fillings;
}

void write_words(SheetWriter& sheet, const RecipePlan& recipe) {
    if (!recipe.notes.empty()) sheet.paragraph("Notes:", recipe.notes);
    const bool ranges = has_ranges(recipe);
    if (recipe.remarks.empty() && !ranges) return;
    sheet.say("\nTaken for granted:\n\n");
    for (const std::string& remark : recipe.remarks)
        sheet.say("- ").message(remark).say("\n");
    if (!ranges) return;
    sheet.say("- The range shows how far off the figure may be");
    if (!recipe.doubt.widest.empty()) {
        sheet.say("; ").message(recipe.doubt.widest).say(" counts most");
    }
    sheet.say(".\n");
}

} // namespace

void write_glance(SheetWriter& sheet) {
    sheet.heading("At a glance");
    for (std::size_t i = 0; i < sheet.plan.recipes.size(); ++i) {
        const RecipePlan& recipe = sheet.plan.recipes[i];
        if (is_mixed(sheet.plan)) {
            if (i > 0) sheet.say("\n");
            sheet.say("### ").user(recipe.title).say("\n\n");
        }
        write_table(sheet, recipe, i);
        write_words(sheet, recipe);
    }
}

} // namespace waxwright
