// What comes after the pouring, and the record of the lot.
#include "emit/markdown_parts.hpp"
#include "plan/wording.hpp"
#include "units/date.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr std::string_view blank = "______________";

/// When a stretch of time is over, where the times are worth printing.
void write_till(SheetWriter& sheet, const StepPlan& step) {
    if (!sheet.plan.day.timed || !step.begins_min || !step.minutes) return;
    sheet.say(step.by_filling ? " (the first filling till " : " (till ");
    write_clock(sheet, *step.begins_min + *step.minutes, step.at_least);
    sheet.say(")");
}

void write_leave(SheetWriter& sheet, std::size_t recipe) {
    bool any = false;
    for (const StepPlan& step : steps_of(sheet.plan, recipe)) {
        if (step.verb != "leave" || !step.minutes) continue;
        sheet.say(any ? ", then " : "- Leave, unmoved and out of a draught: ");
        sheet.duration(*step.minutes);
        write_till(sheet, step);
        any = true;
    }
    sheet.say(any ? "\n" : "- Leave, unmoved and out of a draught, till set\n");
}

void write_ready(SheetWriter& sheet, const RecipePlan& recipe, std::size_t index) {
    sheet.say("- Cure: ");
    if (recipe.cure_minutes) {
        sheet.duration(*recipe.cure_minutes);
        for (const StepPlan& step : steps_of(sheet.plan, index)) {
            if (step.verb == "cure") write_till(sheet, step);
        }
        sheet.say("\n");
    } else {
        sheet.say("none in the recipe\n");
    }
    sheet.say("- Ready on: ");
    if (recipe.ready_on) {
        sheet.say(show(*recipe.ready_on))
            .say(recipe.ready_at_least ? " at the earliest; " : "; ")
            .say("count from the day the last is poured");
    } else {
        sheet.say(blank);
    }
    sheet.say("\n- Start test burns on or after that day. Started on: ").say(blank).say("\n");
    write_test_burn(sheet, recipe);
    if (!recipe.burn_h) return;
    sheet.say("- One should burn for ");
    if (*recipe.burn_h >= 5) {
        sheet.say("at least ").say(show_number(*recipe.burn_h, 0)).say(" h");
    } else {
        sheet.say("less than 5 h");
    }
    sheet.say(recipe.burn_measured ? ", as a test burn of it was weighed\n"
                                   : ", by its wick's rate: only a test burn tells\n");
}

void write_weights(SheetWriter& sheet) {
    sheet.say("\nWax in three cooled vessels, each less its empty vessel:\n\n");
    sheet.say("| recipe | reckoned | first | second | third |\n|---|---:|---|---|---|\n");
    for (const RecipePlan& recipe : sheet.plan.recipes) {
        sheet.say("| ").user(recipe.title).say(" | ");
        if (recipe.to_the_line) {
            sheet.say("to the line");
        } else {
            sheet.pour(recipe.mass_g, recipe.scale);
        }
        sheet.say(" | | | |\n");
    }
}

} // namespace

void write_afterwards(SheetWriter& sheet) {
    sheet.heading("Leave, cure, ready");
    for (std::size_t i = 0; i < sheet.plan.recipes.size(); ++i) {
        if (is_mixed(sheet.plan)) {
            if (i > 0) sheet.say("\n");
            sheet.say("### ").user(sheet.plan.recipes[i].title).say("\n\n");
        }
        write_leave(sheet, i);
        write_ready(sheet, sheet.plan.recipes[i], i);
    }
}

void write_record(SheetWriter& sheet) {
    sheet.heading("Record");
    sheet.say("| recipe | planned | made | scrapped | kept back, one a lot |\n");
    sheet.say("|---|---:|---|---|---|\n");
    for (const RecipePlan& recipe : sheet.plan.recipes) {
        sheet.say("| ").user(recipe.title).say(" | ").number(recipe.count).say(" | | | |\n");
    }
    write_weights(sheet);
    sheet.say("\nWhere sold: ").say(blank).say(blank).say("\n\nSignature: ");
    sheet.say(blank).say("\n");
}

} // namespace waxwright
