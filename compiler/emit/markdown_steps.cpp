// The steps as a list to tick, with room for what was really read off the thermometer and clock.
#include <algorithm>
#include <cmath>

#include "emit/markdown_parts.hpp"

namespace waxwright {

namespace {

/// Under this nobody writes down when it began and ended.
constexpr double worth_a_time_min = 10;

} // namespace

void write_sentence(SheetWriter& sheet, const StepPlan& step) {
    const std::string_view text = step.text;
    const bool heat_first = step.length.empty() || step.temperature.begin < step.length.begin;
    std::size_t done = 0;
    const auto say_up_to = [&](std::size_t end) {
        const std::string_view part = text.substr(done, end - done);
        done == 0 ? sheet.user_first(part) : sheet.user(part);
    };
    const auto up_to = [&](const Stretch& stretch) {
        say_up_to(stretch.begin);
        sheet.say("**");
        done = stretch.end;
    };
    for (const bool heat : {heat_first, !heat_first}) {
        if (heat && !step.temperature.empty() && step.at_c) {
            up_to(step.temperature);
            sheet.temperature(*step.at_c).say("**");
        } else if (!heat && !step.length.empty() && step.length_mm) {
            up_to(step.length);
            sheet.length(*step.length_mm).say("**");
        }
    }
    say_up_to(text.size());
}

namespace {

/// When it begins, where that is later than the beginning of the day or by the clock.
void write_time(SheetWriter& sheet, const StepPlan& step) {
    if (!step.begins_min || !sheet.plan.day.timed) return;
    sheet.say("`");
    write_clock(sheet, *step.begins_min, step.at_least);
    sheet.say("` ");
}

void write_step(SheetWriter& sheet, const StepPlan& step) {
    sheet.say("- [ ] ");
    write_time(sheet, step);
    write_sentence(sheet, step);
    const bool of_heat = step.verb == "melt" || step.verb == "cool";
    if (of_heat && step.minutes) {
        sheet.say(" About ").number(std::llround(*step.minutes)).say(" min.");
    }
    if (step.dropped_c) {
        sheet.say(" The cold scent cools the pot to about ");
        sheet.temperature(std::round(*step.dropped_c)).say(".");
    }
    if (step.arrives_c) {
        sheet.say(" By then it has cooled to about ");
        sheet.temperature(std::round(*step.arrives_c)).say(": don't wait.");
    }
    if (!step.because.empty()) sheet.say(" Why: ").user(step.because);
    // The backslash breaks the line where it is rendered too.
    if (step.at_c) {
        sheet.say("\\\n  Actual: ________ at: ________");
    } else if (step.minutes && *step.minutes >= worth_a_time_min) {
        sheet.say("\\\n  From: ________ to: ________");
    }
    sheet.say("\n");
}

std::int64_t fillings_of(const Plan& plan, std::size_t recipe) {
    std::int64_t sum = 0;
    for (const PotPlan& pot : pots_of(plan, recipe))
        sum += pot.pots;
    return sum;
}

} // namespace

void write_steps(SheetWriter& sheet) {
    sheet.heading("Steps");
    if (sheet.plan.day.rows.empty() && sheet.plan.day.timed) {
        write_times_said(sheet);
        sheet.say("\n");
    }
    for (std::size_t i = 0; i < sheet.plan.recipes.size(); ++i) {
        if (is_mixed(sheet.plan)) {
            if (i > 0) sheet.say("\n");
            sheet.say("### ").user(sheet.plan.recipes[i].title).say("\n\n");
        }
        if (fillings_of(sheet.plan, i) > 1) {
            sheet.say("Each filling goes through these; tick when the last one has. "
                      "The times are the first one's.\n\n");
        }
        for (const StepPlan& step : steps_of(sheet.plan, i))
            write_step(sheet, step);
    }
    if (!sheet.plan.day.rows.empty()) return; // said with the day
    for (const std::string& fault : sheet.plan.day.faults)
        sheet.say("\n").message(fault).say("\n");
}

} // namespace waxwright
