// At a glance: a table with a column for each recipe.
#include <algorithm>

#include "emit/markdown_parts.hpp"
#include "plan/wording.hpp"

namespace waxwright {

namespace {

std::string_view heated_words(Choice heated) {
    if (heated == Choice::water_bath) return ", in a water bath";
    if (heated == Choice::melter) return ", a melter";
    if (heated == Choice::hotplate) return ", on a hotplate";
    if (heated == Choice::flame) return ", on a flame";
    return "";
}

/// "10 fillings of pour-can (2 of them)", or what the one nameless pot takes.
void write_pots(SheetWriter& sheet, const RecipePlan& recipe, std::size_t index) {
    const std::int64_t fillings = fillings_of(sheet.plan, index);
    if (fillings == 0) return;
    const std::string_view name = pots_of(sheet.plan, index).back().name;
    if (name.empty()) return; // one for all, as large as its weights say
    sheet.number(fillings).say(fillings == 1 ? " filling of " : " fillings of ").user(name);
    const std::int64_t at_once = recipe.pots_at_once;
    if (fillings > 1 && at_once > 1) sheet.say(" (").number(at_once).say(" of them)");
    if (recipe.doubt.fillings) {
        sheet.say(", ").number(static_cast<std::int64_t>(recipe.doubt.fillings->low));
        sheet.say(" to ").number(static_cast<std::int64_t>(recipe.doubt.fillings->high));
        sheet.say(", if its figures are off");
    }
    sheet.say(heated_words(recipe.heated));
}

void write_vessels(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    sheet.number(recipe.count).say(" ").user(recipe.vessel);
    if (recipe.fill_ml > 0) sheet.say(", ").volume(recipe.fill_ml).say(" to the line");
}

void write_into_each(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    if (recipe.to_the_line) {
        sheet.say("**pour to the line, not to a weight**");
        return;
    }
    sheet.say("**").pour(recipe.first_pour_g, recipe.scale).say("**");
    sheet.say(show_pour_ends(recipe.first_pour_g, recipe.doubt.first_pour_g, recipe.scale));
    if (recipe.second_pour_g > 0) sheet.say(" at the first pour");
}

/// Where the first pour has no weight, neither has what it leaves.
void write_kept_back(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    if (recipe.second_pour_g <= 0) return;
    if (recipe.to_the_line) {
        sheet.say("what is left in the pot");
        return;
    }
    sheet.say(show_kept_for_each(recipe));
    if (recipe.keep_in) sheet.say(", in ").user(recipe.keep_in->name);
    if (recipe.keep_said && has_left_over(recipe)) {
        sheet.say("; at least ").say(show_left_over(recipe)).say(" of it is left over");
    }
}

void write_drop(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    if (recipe.second_pour_g <= 0 || recipe.to_the_line || !recipe.drop_mm) return;
    sheet.say("about ").length(*recipe.drop_mm);
}

void write_finished(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    if (recipe.second_pour_g <= 0 || recipe.to_the_line) return;
    sheet.pour(recipe.mass_g, recipe.scale);
    sheet.say(show_pour_ends(recipe.mass_g, recipe.doubt.mass_g, recipe.scale));
}

void write_load(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    if (recipe.load_of_total <= 0) {
        sheet.say("no scent");
        return;
    }
    sheet.percent(recipe.load_of_wax);
    sheet.say(show_percent_ends(recipe.load_of_wax, recipe.doubt.load_of_wax));
    sheet.say(" of the wax, ").percent(recipe.load_of_total);
    sheet.say(show_percent_ends(recipe.load_of_total, recipe.doubt.load_of_total));
    sheet.say(" of all");
    if (recipe.brings_scent) sheet.say(", with what the leftovers bring");
    sheet.say("; ");
    if (recipe.limit_of_wax) {
        sheet.say("this wax holds ").percent(*recipe.limit_of_wax).say(" of its weight");
    } else {
        sheet.say("how much this wax holds is not known");
    }
}

void write_ceiling(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    if (recipe.ceiling_c) {
        sheet.say("never over **").temperature(*recipe.ceiling_c).say("**");
    } else {
        sheet.say("not known");
    }
}

void write_heat(SheetWriter& sheet, const RecipePlan& recipe, const std::optional<double>& celsius,
                const std::optional<TemperatureRange>& wanted) {
    if (!celsius) return;
    sheet.say("**").temperature(*celsius).say("**");
    if (wanted) sheet.say("; ").user(recipe.main_wax).say(": ").temperatures(*wanted);
}

void write_scent_at(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    write_heat(sheet, recipe, recipe.scent_c, recipe.scent_at);
}

void write_lights_from(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    if (recipe.flash_c) sheet.temperature(*recipe.flash_c);
}

void write_pour_at(SheetWriter& sheet, const RecipePlan& recipe, std::size_t) {
    write_heat(sheet, recipe, recipe.pour_c, recipe.pour_at);
}

/// A row of the table; what has nothing to say of any recipe isn't there.
struct GlanceRow {
    std::string_view what;
    void (*write)(SheetWriter& sheet, const RecipePlan& recipe, std::size_t index);
};
constexpr GlanceRow rows[] = {
    {"Vessels", write_vessels},
    {"Pots", write_pots},
    {"Into each vessel", write_into_each},
    {"Keep back for the second pour", write_kept_back},
    {"Sinks before it by", write_drop},
    {"Finished candle", write_finished},
    {"Scent load", write_load},
    {"Ceiling", write_ceiling},
    {"Scent goes in at", write_scent_at},
    {"Scent can light from", write_lights_from},
    {"Pour at", write_pour_at},
};

std::string cell(const SheetWriter& sheet, const GlanceRow& row, std::size_t index) {
    SheetWriter scratch(sheet.plan, sheet.us_units);
    row.write(scratch, sheet.plan.recipes[index], index);
    return scratch.take();
}

void write_table(SheetWriter& sheet, std::span<const std::size_t> recipes) {
    sheet.say("| what |");
    for (const std::size_t index : recipes) {
        if (is_mixed(sheet.plan)) {
            sheet.say(" ").user(sheet.plan.recipes[index].title).say(" |");
        } else {
            sheet.say(" how much |");
        }
    }
    sheet.say("\n|---|");
    for (std::size_t i = 0; i < recipes.size(); ++i)
        sheet.say("---|");
    sheet.say("\n");
    for (const GlanceRow& row : rows) {
        std::string cells;
        bool any = false;
        for (const std::size_t index : recipes) {
            const std::string said = cell(sheet, row, index);
            any = any || !said.empty();
            cells += " " + said + (said.empty() ? "|" : " |");
        }
        if (any) sheet.say("| ").say(row.what).say(" |").say(cells).say("\n");
    }
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
        recipe.load_of_total > 0 && !(show_percent_ends(recipe.load_of_wax, doubt.load_of_wax) +
                                      show_percent_ends(recipe.load_of_total, doubt.load_of_total))
                                         .empty();
    return pours || loads || doubt.fillings;
}

/// A sentence, and the recipes it is about.
struct Remark {
    std::string words;
    std::vector<std::size_t> recipes;
};

void add(std::vector<Remark>& remarks, const std::string& words, std::size_t recipe) {
    const auto same = std::find_if(remarks.begin(), remarks.end(),
                                   [&](const Remark& each) { return each.words == words; });
    if (same == remarks.end()) {
        remarks.push_back({words, {recipe}});
    } else {
        same->recipes.push_back(recipe);
    }
}

void write_remark(SheetWriter& sheet, const Remark& remark) {
    const bool all = remark.recipes.size() == sheet.plan.recipes.size();
    const bool stop = !all && remark.words.ends_with('.'); // it goes behind the names
    sheet.message(std::string_view(remark.words).substr(0, remark.words.size() - stop));
    if (all) return;
    sheet.say(" (");
    write_whose(sheet, remark.recipes);
    sheet.say(stop ? ")." : ")");
}

/// "The range shows how far off the figure may be; what moves it most: …"
void write_ranges(SheetWriter& sheet) {
    std::vector<Remark> widest;
    bool any = false;
    for (std::size_t i = 0; i < sheet.plan.recipes.size(); ++i) {
        const RecipePlan& recipe = sheet.plan.recipes[i];
        if (!has_ranges(recipe)) continue;
        any = true;
        if (!recipe.doubt.widest.empty()) add(widest, recipe.doubt.widest, i);
    }
    if (!any) return;
    sheet.say("- A range shows how far off its figure may be");
    for (std::size_t i = 0; i < widest.size(); ++i) {
        sheet.say(i == 0 ? "; what moves it most: " : ", ");
        write_remark(sheet, widest[i]);
    }
    sheet.say(".\n");
}

void write_taken_for_granted(SheetWriter& sheet) {
    std::vector<Remark> remarks;
    for (std::size_t i = 0; i < sheet.plan.recipes.size(); ++i) {
        for (const std::string& remark : sheet.plan.recipes[i].remarks)
            add(remarks, remark, i);
    }
    const bool ranges =
        std::any_of(sheet.plan.recipes.begin(), sheet.plan.recipes.end(), has_ranges);
    if (remarks.empty() && !ranges) return;
    sheet.say("\nTaken for granted:\n\n");
    for (const Remark& remark : remarks) {
        sheet.say("- ");
        write_remark(sheet, remark);
        sheet.say("\n");
    }
    write_ranges(sheet);
}

} // namespace

void write_glance(SheetWriter& sheet) {
    constexpr std::size_t most_columns = 4; // as many as stand side by side on a page
    sheet.heading("At a glance");
    const std::vector<std::size_t> order = worked_order(sheet.plan);
    for (std::size_t i = 0; i < order.size(); i += most_columns) {
        if (i > 0) sheet.say("\n");
        write_table(sheet, std::span(order).subspan(i, std::min(most_columns, order.size() - i)));
    }
    const RecipePlan& first = sheet.plan.recipes.front();
    if (!sheet.plan.is_batch && !first.notes.empty()) sheet.paragraph("Notes:", first.notes);
    write_taken_for_granted(sheet);
}

} // namespace waxwright
