// The steps as a list to tick, with room for what was really read off the thermometer and clock.
#include <algorithm>
#include <cmath>
#include <vector>

#include "emit/markdown_parts.hpp"

namespace waxwright {

namespace {

/// Under this nobody writes down when it began and ended.
constexpr double worth_a_time_min = 10;

} // namespace

namespace {

/// A text with a temperature and a length of its own in it: the one in both scales, the other in
/// the sheet's unit.
struct Said {
    std::string_view text;
    Stretch temperature;
    Stretch length;
};

void write_said(SheetWriter& sheet, const StepPlan& step, const Said& said) {
    const bool heat_first = said.length.empty() || said.temperature.begin < said.length.begin;
    std::size_t done = 0;
    const auto say_up_to = [&](std::size_t end) {
        const std::string_view part = said.text.substr(done, end - done);
        done == 0 ? sheet.user_first(part) : sheet.user(part);
    };
    const auto up_to = [&](const Stretch& stretch) {
        say_up_to(stretch.begin);
        sheet.say("**");
        done = stretch.end;
    };
    for (const bool heat : {heat_first, !heat_first}) {
        if (heat && !said.temperature.empty() && step.at_c) {
            up_to(said.temperature);
            sheet.temperature(*step.at_c).say("**");
        } else if (!heat && !said.length.empty() && step.length_mm) {
            up_to(said.length);
            sheet.length(*step.length_mm).say("**");
        }
    }
    say_up_to(said.text.size());
}

} // namespace

void write_sentence(SheetWriter& sheet, const StepPlan& step) {
    write_said(sheet, step, {step.text, step.temperature, step.length});
}

void write_brief(SheetWriter& sheet, const StepPlan& step, bool begins) {
    std::string text = step.brief;
    if (!begins && !text.empty() && text[0] >= 'A' && text[0] <= 'Z' && step.verb != Verb::note) {
        text[0] = static_cast<char>(text[0] - 'A' + 'a');
    }
    write_said(sheet, step, {text, step.brief_temperature, {}});
}

namespace {

/// When it begins, where no row of the day says so.
void write_time(SheetWriter& sheet, const StepPlan& step) {
    if (!step.begins_min || !sheet.plan.day.timed || !sheet.plan.day.rows.empty()) return;
    sheet.say("`");
    if (step.once_cold) {
        sheet.say("once cold");
    } else {
        write_clock(sheet, *step.begins_min, step.at_least);
    }
    sheet.say("` ");
}

/// What was really read off the thermometer and the clock, once for each filling; of more than a
/// dozen there is room for the first and the last.
void write_blanks(SheetWriter& sheet, std::int64_t fillings) {
    constexpr std::int64_t most_blanks = 12;
    // The backslash breaks the line where it is rendered too.
    sheet.say("\\\n  ");
    if (fillings <= 1) {
        sheet.say("Thermometer: ________ clock: ________");
        return;
    }
    for (std::int64_t i = 1; i <= std::min(fillings, most_blanks); ++i) {
        if (i > 1) sheet.say(" · ");
        sheet.number(i == most_blanks ? fillings : i);
        sheet.say(":\u00A0_____\u00A0at\u00A0_____"); // kept together
    }
}

/// From when to when, of what each filling waits for by itself.
void write_span_blanks(SheetWriter& sheet, std::int64_t fillings) {
    constexpr std::int64_t most = 4;
    sheet.say("\\\n  ");
    if (fillings < 2 || fillings > most) {
        sheet.say("From: ________ to: ________");
        return;
    }
    for (std::int64_t i = 1; i <= fillings; ++i) {
        if (i > 1) sheet.say(" · ");
        sheet.number(i).say(":\u00A0_____\u00A0to\u00A0_____");
    }
}

void write_step(SheetWriter& sheet, const StepPlan& step, std::int64_t fillings) {
    sheet.say("- [ ] ");
    write_time(sheet, step);
    write_sentence(sheet, step);
    const RecipePlan& recipe = sheet.plan.recipes[step.recipe];
    if (step.verb == Verb::melt && recipe.ceiling_c && recipe.drawn_from.empty()) {
        sheet.say(" Never over ").temperature(*recipe.ceiling_c).say(".");
    }
    const bool of_heat = step.verb == Verb::melt || step.verb == Verb::cool;
    if (of_heat && step.minutes) {
        sheet.say(step.verb == Verb::melt ? " Takes " : " About ")
            .number(static_cast<std::int64_t>(*step.minutes + 1e-6))
            .say(step.verb == Verb::melt ? " min or more." : " min.");
    }
    if (step.dropped_c) {
        sheet.say(" The cold scent cools the pot to about ");
        sheet.temperature(std::round(*step.dropped_c)).say(".");
    }
    if (step.arrives_c) {
        sheet.say(" When it is due it is at about ");
        sheet.temperature(std::round(*step.arrives_c)).say(": don't wait.");
    }
    if (step.last_c) {
        sheet.say(" The last vessel gets it at about ");
        sheet.temperature(std::round(*step.last_c));
        sheet.say(", colder than ")
            .user(recipe.main_wax)
            .say(" wants: pour quickly, or fill fewer at a "
                 "time.");
    }
    if (!step.because.empty()) sheet.say(" Why: ").user(step.because);
    if (step.at_c) {
        write_blanks(sheet, fillings);
    } else if (step.minutes && *step.minutes >= worth_a_time_min) {
        write_span_blanks(sheet, step.by_filling ? fillings : 1);
    }
    sheet.say("\n");
}

/// The steps as they are done: vessels are warmed while the wax melts, and `warm vessels` may stand
/// anywhere before the pour.
std::vector<const StepPlan*> as_done(std::span<const StepPlan> steps) {
    std::vector<const StepPlan*> done;
    for (const StepPlan& step : steps)
        done.push_back(&step);
    const auto of_verb = [&](Verb verb) {
        return std::find_if(done.begin(), done.end(),
                            [&](const StepPlan* step) { return step->verb == verb; });
    };
    const auto melt = of_verb(Verb::melt);
    const auto warm = of_verb(Verb::warm_vessels);
    if (melt < warm && warm != done.end() && warm < of_verb(Verb::pour)) {
        std::rotate(melt + 1, warm, warm + 1);
    }
    return done;
}

} // namespace

void write_steps(SheetWriter& sheet, std::size_t recipe) {
    const DayPlan& day = sheet.plan.day;
    if (sheet.plan.is_batch) {
        sheet.begin_heading();
        sheet.say("Steps").end_heading();
    } else {
        sheet.heading("Steps");
    }
    if (day.rows.empty() && day.timed && recipe == 0) {
        write_times_said(sheet);
        sheet.say("\n");
    }
    const std::int64_t fillings = fillings_of(sheet.plan, recipe);
    if (fillings > 1) {
        sheet.say("Every filling goes through these steps: tick when the last one has. After its "
                  "number, write what the thermometer and the clock really said.");
        if (!day.rows.empty() && !day.no_times) sheet.say(" The day says when to do each.");
        sheet.say("\n\n");
    }
    for (const StepPlan* step : as_done(steps_of(sheet.plan, recipe)))
        write_step(sheet, *step, fillings);
    if (!day.rows.empty()) return; // said with the day
    for (const std::string& fault : day.faults)
        sheet.say("\n").message(fault).say("\n");
}

} // namespace waxwright
