// From the line of time to what the sheet says of it.
#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "plan/day_rows.hpp"
#include "plan/parts.hpp"
#include "plan/wording.hpp"
#include "reckon/bath.hpp"
#include "reckon/melter.hpp"
#include "reckon/weigh.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr double a_minute = 60; // s

/// The day, without the time of day: nobody waits for the hour a cure ends.
Date day_after(const Date& start, double minutes) {
    const Date end = later(start, static_cast<std::int64_t>(std::ceil(minutes)));
    return {end.year, end.month, end.day};
}

/// Why a time is not known, as the sheet says it.
constexpr std::pair<bool Unknowns::*, std::string_view> reasons[] = {
    {&Unknowns::power,
     "How long melting takes is not known: nobody said how strong the heater is."},
    {&Unknowns::bath, "Melting takes longer than this: the water of the bath has to be heated too, "
                      "and nobody said how much there is."},
    {&Unknowns::heats, "How long melting takes is not known: nor is how much heat this wax takes."},
    {&Unknowns::cools,
     "How long cooling takes is not known: nobody has measured how fast the pot cools."},
    {&Unknowns::setting, "No time is given for cooling below the melting point: wax stays at one "
                         "temperature for a while as it sets."},
    {&Unknowns::kept, "How long warming the wax kept back takes is not known."},
    {&Unknowns::cold_room,
     "A step wants the pot as cold as the room: no time can be worked out for that."},
};

class DayMaker {
public:
    DayMaker(const Model& model, std::span<const Reckoning> lines, const Timeline& time, Plan& plan)
        : model_(model), lines_(lines), time_(time), plan_(plan) {
        std::size_t first = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            first_step_.push_back(first);
            first += steps_of(plan, i).size();
        }
    }

    void make() {
        time_steps();
        say_top_ups();
        say_hotter();
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            RecipePlan& recipe = plan_.recipes[i];
            recipe.ready_at_least = !time_.done[i].known;
            if (plan_.starts) {
                recipe.ready_on = day_after(*plan_.starts, time_.done[i].at / a_minute);
            }
        }
        DayPlan& day = plan_.day;
        if (time_.fillings.size() > 1 || lines_.size() > 1) {
            day.rows = day_rows(model_, lines_, time_, plan_);
        }
        day.worked_min = time_.worked / a_minute;
        day.hands_min = time_.hands_on / a_minute;
        day.at_least = time_.worked > time_.known_till;
        day.timed = std::isinf(time_.known_till) || (plan_.starts && plan_.starts->has_time);
        // Rows that could all be later are no line of time.
        const auto late_rows = std::count_if(day.rows.begin(), day.rows.end(),
                                             [](const DayRow& row) { return row.at_least; });
        const std::size_t rows = day.rows.size();
        day.no_times = 3 * static_cast<std::size_t>(late_rows) > 2 * rows;
        for (const std::size_t line : time_.order)
            day.order.push_back(plan_.recipes[line].title);
        remark();
    }

private:
    StepPlan& step_plan(std::size_t line, std::size_t step) {
        return plan_.steps[first_step_[line] + step];
    }
    const HeatProfile& profile(const Filling& filling) const {
        return time_.profiles[filling.profile];
    }
    bool late(double seconds) const { return seconds > time_.known_till; }

    void time_step(std::size_t line, std::size_t step, double begins, bool at_least) {
        StepPlan& made = step_plan(line, step);
        if (made.begins_min && *made.begins_min <= begins / a_minute) return;
        made.begins_min = begins / a_minute;
        made.at_least = at_least;
        if (plan_.starts && plan_.starts->has_time) {
            made.starts =
                later(*plan_.starts, static_cast<std::int64_t>(std::llround(begins / a_minute)));
        }
    }

    Verb verb_of(const SharedStep& shared) const {
        return lines_[shared.line].in.steps[shared.step].verb;
    }

    void time_steps() {
        for (const Filling& filling : time_.fillings) {
            bool unknown = late(filling.begins);
            if (const auto step = warms_vessels(lines_[filling.line])) {
                const double begins =
                    filling.begins + vessels_warmed_at(lines_[filling.line], profile(filling));
                time_step(filling.line, *step, begins, unknown || late(begins));
            }
            for (const Stage& stage : profile(filling).stages) {
                const double begins = filling.begins + stage.begins;
                if (stage.kind == StageKind::step) {
                    time_step(filling.line, stage.step, begins, unknown || late(begins));
                    say_measured(filling.line, stage);
                    if (filling.number > 1) step_plan(filling.line, stage.step).by_filling = true;
                }
                unknown = unknown || !stage.known;
            }
        }
        for (const SharedStep& shared : time_.shared_steps) {
            if (verb_of(shared) == Verb::warm_vessels) continue; // with each filling
            time_step(shared.line, shared.step, shared.begins,
                      late(shared.begins) || !shared.known);
            step_plan(shared.line, shared.step).once_cold = !shared.known;
        }
    }

    /// What the reckoning adds to a step: how long it takes, and how much colder the pot gets.
    void say_measured(std::size_t line, const Stage& stage) {
        StepPlan& step = step_plan(line, stage.step);
        const double minutes = (stage.ends - stage.begins) / a_minute;
        const bool of_heat = step.verb == Verb::melt || step.verb == Verb::cool;
        const bool drawn = step.verb == Verb::melt && !plan_.recipes[line].drawn_from.empty();
        if (of_heat && stage.known && !drawn && minutes > 0) { // of the shortest filling
            step.minutes = std::min(step.minutes.value_or(minutes), minutes);
        }
        constexpr double worth_saying = 1; // C°
        if (stage.dropped && stage.from && *stage.from - *stage.dropped > worth_saying) {
            step.dropped_c = stage.dropped;
        }
        if (step.at_c && stage.from && step.verb != Verb::melt &&
            *stage.from < *step.at_c - worth_saying) {
            step.arrives_c = stage.from;
        }
        const auto& wanted = plan_.recipes[line].pour_at;
        if (stage.last && wanted && *stage.last < wanted->low) {
            step.last_c = std::min(step.last_c.value_or(*stage.last), *stage.last);
        }
    }

    /// A bath that is on longer than its water may be left alone, or nobody knows how long.
    void say_top_ups() {
        std::vector<bool> said(lines_.size());
        for (const Filling& filling : time_.fillings) {
            const PotInput& pot = lines_[filling.line].in.pot;
            const bool drawn = !plan_.recipes[filling.line].drawn_from.empty();
            if (drawn || pot.heated != Heated::water_bath || said[filling.line]) continue;
            const auto& stages = profile(filling).stages;
            const auto melt = std::find_if(stages.begin(), stages.end(), [&](const Stage& stage) {
                return lines_[filling.line].in.steps[stage.step].verb == Verb::melt;
            });
            if (melt == stages.end() || (melt->known && filling.top_ups.empty())) continue;
            said[filling.line] = true;
            step_plan(filling.line, melt->step).text +=
                fmt::format(" Top it up every {}.", show_duration(top_up_every(pot)));
        }
    }

    /// A shared melter is as hot as the hottest recipe wants it: the others are told.
    void say_hotter() {
        for (const Melting& melting : time_.meltings) {
            for (const std::size_t line : melting.lines) {
                for (std::size_t i = 0; i < steps_of(plan_, line).size(); ++i) {
                    StepPlan& step = step_plan(line, i);
                    if (step.verb != Verb::melt || !step.at_c ||
                        melting.celsius <= *step.at_c + 0.5) {
                        continue;
                    }
                    step.text += fmt::format(" It is hotter than that, {}, for the others.",
                                             show_temperature(melting.celsius, plan_.us_units));
                }
            }
        }
    }

    /// "Add scent" or "Second pour", of the recipe that it is in.
    std::string named(std::size_t line, const StepPlan& step) const {
        std::string words(info(step.verb).words);
        if (!step.of.empty()) words += " " + step.of;
        if (lines_.size() > 1) return plan_.recipes[line].title + ": “" + words + "”";
        return "“" + words + "”";
    }

    /// Each step that the pot should be cooler for than it gets on the heat.
    void say_too_hot() {
        std::vector<const StepPlan*> said;
        for (const Filling& filling : time_.fillings) {
            for (const Stage& stage : profile(filling).stages) {
                const StepPlan& step = step_plan(filling.line, stage.step);
                if (!stage.too_hot || !step.at_c) continue;
                if (std::find(said.begin(), said.end(), &step) != said.end()) continue;
                said.push_back(&step);
                const std::string words = fmt::format(
                    "{} wants the pot at {}, and it still stands on the heat, where it can't cool: "
                    "take it off first.",
                    named(filling.line, step), show_temperature(*step.at_c, plan_.us_units));
                plan_.day.remarks.push_back(words);
                plan_.day.faults.push_back(words);
            }
        }
    }

    void remark() {
        for (const auto& [unknown, words] : reasons) {
            if (time_.unknowns.*unknown) plan_.day.remarks.emplace_back(words);
            const bool of_steps = unknown == &Unknowns::cold_room;
            if (of_steps && time_.unknowns.*unknown) plan_.day.faults.emplace_back(words);
        }
        say_too_hot();
        double poured = 0;
        for (const Filling& filling : time_.fillings)
            poured = std::max(poured, filling.begins + profile(filling).length());
        constexpr double long_day = 12 * 3600; // s
        plan_.day.too_long = poured > long_day && time_.fillings.size() > 1;
    }

    const Model& model_;
    std::span<const Reckoning> lines_;
    const Timeline& time_;
    Plan& plan_;
    std::vector<std::size_t> first_step_; // by line, index of Plan::steps
};

/// How many baths there are to get ready for a recipe's pots, told with the first recipe of a name.
void count_baths(const Model& model, std::span<const Reckoning> lines, const Timeline& time,
                 Plan& plan) {
    for (const auto& each_pot : time.baths) {
        const BlockId pot = each_pot.first;
        const auto line = std::find_if(lines.begin(), lines.end(), [&](const Reckoning& each) {
            return each.in.job.pot == pot;
        });
        if (line == lines.end()) continue;
        const Bath* bath = line->in.pot.bath.get();
        plan.baths.push_back({.pot = pot == no_block ? std::string() : std::string(model.name(pot)),
                              .count = static_cast<std::int64_t>(each_pot.second),
                              .ml = bath == nullptr ? 0 : bath->ml,
                              .hot = bath != nullptr && bath->hot});
    }
}

} // namespace

void add_day(const Model& model, BlockId batch, std::span<const Reckoning> lines, Plan& plan) {
    const PotInput melter = gather_pot(model, melter_block(model, batch));
    const Timeline time = timeline_of(lines, melter);
    plan.day.too_many = time.too_many;
    if (time.too_many) return;
    count_baths(model, lines, time, plan);
    add_melts(model, melter, lines, time, plan);
    add_heat_that_stays_on(model, lines, time, plan);
    DayMaker(model, lines, time, plan).make();
}

} // namespace waxwright
