// The day as one line of time: every pot of every recipe, for one person to follow.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "emit/markdown_parts.hpp"
#include "units/date.hpp"

namespace waxwright {

namespace {

constexpr std::int64_t an_hour = 60;
constexpr std::int64_t a_day = 24 * an_hour;

/// "1 h 05 min": a length of work.
void write_length(SheetWriter& sheet, double minutes) {
    const std::int64_t whole = std::llround(minutes);
    if (whole >= an_hour) sheet.number(whole / an_hour).say(" h ");
    sheet.say(fmt::format("{:02} min", whole % an_hour));
}

/// True where the hands are at its vessels and not at the pot.
bool is_of_vessels(const Plan& plan, const DayRow& row) {
    return row.kind == RowKind::steps && plan.steps[row.first_step].verb == Verb::poke_holes;
}

/// "all 24", "can 1, filling 2", "filling 2, its 4"
void write_filling(SheetWriter& sheet, const DayRow& row) {
    if (is_mixed(sheet.plan)) sheet.user(sheet.plan.recipes[row.recipe].title).say(": ");
    if (row.filling > 0 && is_of_vessels(sheet.plan, row)) {
        sheet.say("filling ").number(row.filling).say(", its ").number(row.vessels);
    } else if (row.filling > 0) {
        sheet.user(row.pot).say(", filling ").number(row.filling);
    } else {
        sheet.say("all ").number(row.vessels);
    }
}

void write_what(SheetWriter& sheet, const DayRow& row) {
    if (row.kind == RowKind::wash) {
        sheet.say("Wash the pot, and dry it bone dry");
        return;
    }
    if (row.kind == RowKind::top_up) {
        sheet.say("Top its bath up with hot water");
        return;
    }
    if (row.grams > 0) {
        const ScalePlan& scale = sheet.plan.recipes[row.recipe].scale;
        sheet.say("**").weight(row.grams, row.division_g, scale).say(":** ");
    }
    for (std::size_t i = 0; i < row.steps; ++i) {
        if (i > 0) sheet.say("; ");
        const StepPlan& step = sheet.plan.steps[row.first_step + i];
        write_brief(sheet, step, i == 0 && row.grams <= 0);
        if (step.arrives_c) {
            sheet.say(", about ").temperature(std::round(*step.arrives_c)).say(" by then: at once");
        }
    }
}

void write_melter(SheetWriter& sheet, const DayRow& row) {
    if (row.kind == RowKind::last_look) {
        sheet.say("the whole room | Look: is every heat off and unplugged?");
        return;
    }
    sheet.user(row.pot).say(" | ");
    if (row.kind == RowKind::melter_off) {
        sheet.say("Melter off, lid on; then draw the last jug");
        return;
    }
    if (row.kind == RowKind::melter_pause) {
        sheet.say("Melter off, lid on, till it is filled again; then draw the jug");
        return;
    }
    if (row.kind == RowKind::melter_top_up) {
        sheet.say("Top its bath up with hot water");
        return;
    }
    for (const MeltPlan& melt : sheet.plan.melts) {
        if (melt.recipes.front() != row.recipe) continue;
        if (row.kind == RowKind::melter_wiped) sheet.say("Empty it, wipe it out. ");
        if (melt.in_bath) sheet.say("Top its bath up. ");
        const ScalePlan& scale = sheet.plan.recipes[row.recipe].scale;
        sheet.say("**")
            .weight(melt.weighed_g, melt.division_g, scale)
            .say(":** bottom covered, melter on, a scoop at a "
                 "time; melt it to **");
        sheet.temperature(melt.celsius)
            .say("**, and see that the thermostat stops there; stay with it");
    }
}

/// True for a row that can be told with the one before: the same vessels, done at once after it.
bool goes_on(const DayRow& row, const DayRow& next) {
    return row.kind == RowKind::steps && next.kind == RowKind::steps && row.filling == 0 &&
           next.filling == 0 && row.recipe == next.recipe && row.once_cold == next.once_cold &&
           row.at_least == next.at_least && row.first_step + row.steps == next.first_step &&
           std::abs(next.begins_min - row.ends_min) < 1e-6;
}

void write_row(SheetWriter& sheet, const DayRow& row) {
    sheet.say("| ");
    if (row.once_cold) {
        sheet.say("once cold | ");
    } else {
        write_clock(sheet, row.begins_min, row.at_least);
        sheet.say(" | ");
        if (std::llround(row.ends_min) > std::llround(row.begins_min)) {
            write_clock(sheet, row.ends_min, row.at_least);
        }
    }
    sheet.say(" | ");
    const bool of_pot =
        row.kind == RowKind::steps || row.kind == RowKind::wash || row.kind == RowKind::top_up;
    if (of_pot) {
        write_filling(sheet, row);
        sheet.say(" | ");
        write_what(sheet, row);
    } else {
        write_melter(sheet, row);
    }
    sheet.say(" | ").user(row.meanwhile).say(" | ☐ |\n");
}

} // namespace

void write_times_said(SheetWriter& sheet) {
    const DayPlan& day = sheet.plan.day;
    const bool clock = sheet.plan.starts && sheet.plan.starts->has_time;
    if (!clock) sheet.say("Times are hours and minutes from the beginning. ");
    if (day.at_least) sheet.say("A time with a + is the earliest possible. ");
    sheet.say(
        "The times allow for work by hand as is usual: 45 s for a wick, 30 s for a pour. "
        "They don't allow for weighing out: do that before you begin. Melting takes at least as "
        "long as it says.\n");
    for (const std::string& remark : day.remarks)
        sheet.say("\n").message(remark).say("\n");
}

void write_clock(SheetWriter& sheet, double minutes, bool at_least) {
    write_clock(sheet, minutes);
    if (at_least) sheet.say("+");
}

void write_clock(SheetWriter& sheet, double minutes) {
    const std::int64_t whole = std::llround(minutes);
    const auto& starts = sheet.plan.starts;
    const bool clock = starts && starts->has_time;
    const std::int64_t at = whole + (clock ? starts->hour * an_hour + starts->minute : 0);
    if (clock && at >= a_day) {
        sheet.say(show(later(*starts, whole)));
        return;
    }
    if (at >= a_day) sheet.number(at / a_day).say(" d ");
    const std::int64_t hour = at % a_day / an_hour;
    if (clock && hour < 10) sheet.say("0");
    sheet.number(hour).say(at % an_hour < 10 ? ":0" : ":").number(at % an_hour);
}

namespace {

/// What is left of the day where no time of it is known: the steps stand with the recipe.
void write_order_alone(SheetWriter& sheet) {
    sheet.say("Do one filling after another, each by its steps");
    sheet.say(sheet.plan.is_batch ? ", in the order of work. " : ". ");
    sheet.say("Put a pot on the heat only while no scent goes into another and no other stands "
              "open with hot scented wax in it. ");
    const auto& recipes = sheet.plan.recipes;
    const bool waits = std::any_of(recipes.begin(), recipes.end(), [](const RecipePlan& recipe) {
        return recipe.second_pour_g > 0 && !recipe.keep_in;
    });
    if (waits) sheet.say("A pot with wax kept back in it is free after its second pour. ");
    sheet.say("No times can be planned yet:\n\n");
    for (const std::string& remark : sheet.plan.day.remarks)
        sheet.say("- ").message(remark).say("\n");
}

/// What to do when it goes otherwise than planned.
void write_if_late(SheetWriter& sheet) {
    const bool melter = !sheet.plan.melts.empty();
    sheet.say(
        "**The thermometer decides, not the clock.** A pot comes off the heat when it is hot "
        "enough, early or late. **Late?** Keep the order of the rows. Before any scent goes in, ");
    sheet.say(melter
                  ? "the jug is well away from the melter, the melter's lid is on, and any other "
                    "heat is off. "
                  : "all heat is off, under the other pots too: melt them on afterwards. ");
    sheet.say("**Too cool?** Unscented wax goes ");
    sheet.say(melter ? "back into the melter, once no scented wax stands open: draw it again"
                     : "back on the heat once no scented wax stands open in a pot");
    sheet.say("; scented wax never does: pour it if it still runs, else let it set and throw it "
              "away (wax "
              "kept back: by its row). A wait counts from your own pour. "
              "Trimming, lids and labels can wait till the next day.\n\n");
}

} // namespace

void write_day(SheetWriter& sheet) {
    const DayPlan& day = sheet.plan.day;
    if (day.too_many) {
        sheet.heading("The day");
        sheet.say("There are too many fillings to plan as one day.\n");
        return;
    }
    if (day.rows.empty()) return;
    sheet.heading("The day");
    if (day.no_times) {
        write_order_alone(sheet);
        return;
    }
    if (day.too_long) {
        sheet.say(
            "**The last pour is more than 12 hours after the start: spread this over two days, "
            "or use more pots.** Tired people make mistakes with hot wax.\n\n");
    }
    sheet.say(day.too_long ? "In" : "One person can follow this plan: in");
    sheet.say(" it no two jobs overlap, except for taking a pot off "
              "the heat");
    if (!sheet.plan.melts.empty()) sheet.say(" and filling the melter");
    sheet.say(
        ", which can't wait. While wax melts, the only other work is at the pots: stay there. ");
    sheet.say(day.at_least ? "It takes at least " : "It takes ");
    write_length(sheet, day.worked_min);
    sheet.say(", ");
    write_length(sheet, day.hands_min);
    sheet.say(" of them by hand.\n\n");
    write_if_late(sheet);
    write_times_said(sheet);
    sheet.say("\n| when | till | which | what | meanwhile | done |\n|---|---|---|---|---|---|\n");
    for (std::size_t i = 0; i < day.rows.size();) {
        DayRow row = day.rows[i];
        while (++i < day.rows.size() && goes_on(row, day.rows[i])) {
            row.steps += day.rows[i].steps;
            row.ends_min = day.rows[i].ends_min;
        }
        write_row(sheet, row);
    }
}

} // namespace waxwright
