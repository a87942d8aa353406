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
    const DayPlan& day = sheet.plan.day;
    if (!day.timed || !step.begins_min || !step.minutes) return;
    if (day.no_times && step.at_least) return; // the day has no times, and nothing says what + is
    sheet.say(step.by_filling ? " (the first filling till " : " (till ");
    write_clock(sheet, *step.begins_min + *step.minutes, step.at_least);
    sheet.say(")");
}

/// "6 h (till 15:55)", each `leave` of the steps; nothing where there is none.
void write_leave(SheetWriter& sheet, std::size_t recipe) {
    constexpr double set_after_min = 120; // as the day takes it
    bool any = false;
    double minutes = 0;
    for (const StepPlan& step : steps_of(sheet.plan, recipe)) {
        if (step.verb != Verb::leave || !step.minutes) continue;
        minutes += *step.minutes;
        sheet.say(any ? ", then " : "").duration(*step.minutes);
        write_till(sheet, step);
        any = true;
    }
    if (!any || minutes < set_after_min) sheet.say(any ? ", and till set" : "till set");
}

void write_cure(SheetWriter& sheet, std::size_t recipe) {
    const RecipePlan& made = sheet.plan.recipes[recipe];
    if (!made.cure_minutes) {
        sheet.say("none in the recipe");
        if (!made.cure_wanted.empty()) sheet.say("; ").user(made.cure_wanted);
        return;
    }
    sheet.duration(*made.cure_minutes);
    for (const StepPlan& step : steps_of(sheet.plan, recipe)) {
        if (step.verb == Verb::cure) write_till(sheet, step);
    }
}

void write_ready_on(SheetWriter& sheet, const RecipePlan& recipe) {
    if (!recipe.ready_on) {
        sheet.say(blank);
        return;
    }
    sheet.say(show(*recipe.ready_on)).say(recipe.ready_at_least ? " at the earliest" : "");
}

/// "at least 40 h, as a test burn of it was weighed"
void write_burns(SheetWriter& sheet, const RecipePlan& recipe) {
    if (*recipe.burn_h >= 5) {
        sheet.say("at least ").say(show_number(*recipe.burn_h, 0)).say(" h");
    } else {
        sheet.say("less than 5 h");
    }
    sheet.say(recipe.burn_measured ? ", as a test burn of it was weighed"
                                   : ", by the rate of its wick: only a test burn can tell");
}

void write_one(SheetWriter& sheet, const RecipePlan& recipe) {
    sheet.say("- Leave unmoved, no draught on them, the room still aired: ");
    write_leave(sheet, 0);
    sheet.say("\n- Cure: ");
    write_cure(sheet, 0);
    sheet.say("\n- Ready on: ");
    write_ready_on(sheet, recipe);
    if (recipe.ready_on) sheet.say("; count from the day the last one is poured");
    sheet.say("\n- Start test burns on or after that day. Started on: ").say(blank).say("\n");
    write_test_burn(sheet, recipe);
    if (!recipe.burn_h) return;
    sheet.say("- One should burn for ");
    write_burns(sheet, recipe);
    sheet.say("\n");
}

/// Several recipes side by side, and under them what their test burns have to say.
void write_several(SheetWriter& sheet) {
    const std::vector<std::size_t> order = worked_order(sheet.plan);
    sheet.say("| recipe | leave unmoved, no draught on them, the room still aired | cure | ready "
              "on | test burns started "
              "on |\n|---|---|---|---|---|\n");
    for (const std::size_t i : order) {
        sheet.say("| ").user(sheet.plan.recipes[i].title).say(" | ");
        write_leave(sheet, i);
        sheet.say(" | ");
        write_cure(sheet, i);
        sheet.say(" | ");
        write_ready_on(sheet, sheet.plan.recipes[i]);
        sheet.say(" | |\n");
    }
    sheet.say("\nCount from the day the last is poured, and start test burns once they are "
              "ready.\n");
    for (const std::size_t i : order) {
        const RecipePlan& recipe = sheet.plan.recipes[i];
        sheet.say("\n### ").user(recipe.title).say("\n\n");
        write_test_burn(sheet, recipe);
        if (!recipe.burn_h) continue;
        sheet.say("- One should burn for ");
        write_burns(sheet, recipe);
        sheet.say("\n");
    }
}

void write_each(SheetWriter& sheet, const RecipePlan& recipe) {
    if (recipe.to_the_line) {
        sheet.say("to the line");
    } else {
        sheet.pour(recipe.mass_g, recipe.scale);
    }
}

} // namespace

void write_afterwards(SheetWriter& sheet) {
    sheet.heading("Leave, cure, ready");
    if (is_mixed(sheet.plan)) {
        write_several(sheet);
    } else {
        write_one(sheet, sheet.plan.recipes.front());
    }
}

void write_record(SheetWriter& sheet) {
    sheet.heading("Record");
    sheet.say(
        "| recipe | planned | made | scrapped | put by, one a lot | weight of one, worked out "
        "| first weighed | second | third |\n|---|---:|---|---|---|---:|---|---|---|\n");
    for (const std::size_t index : worked_order(sheet.plan)) {
        const RecipePlan& recipe = sheet.plan.recipes[index];
        sheet.say("| ").user(recipe.title).say(" | ").number(recipe.count).say(" | | | | ");
        write_each(sheet, recipe);
        sheet.say(" | | | |\n");
    }
    sheet.say("\nWeigh three vessels once they are cold, each less its empty vessel.\n");
    sheet.say("\nWhere sold: ").say(blank).say(blank).say(" · Signature: ").say(blank).say("\n");
}

} // namespace waxwright
