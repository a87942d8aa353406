// From the line of time to what the sheet says of it.
#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "plan/parts.hpp"
#include "plan/pot_names.hpp"
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
     "How long melting takes is not known: nobody wrote down the power of what heats the pot."},
    {&Unknowns::bath,
     "Melting takes longer than this: the bath's water has to be heated too, and nobody "
     "wrote down how much there is."},
    {&Unknowns::heats, "How long melting takes is not known: nor is how much heat the wax takes."},
    {&Unknowns::cools,
     "How long cooling takes is not known: nobody has measured how fast the pot cools."},
    {&Unknowns::setting, "No time is given for cooling below the melting point: wax that sets "
                         "stays where it is for a while."},
    {&Unknowns::on_heat, "A step wants the pot cooler than it is while it stands on the heat: take "
                         "it off, or it can't cool."},
    {&Unknowns::kept, "How long the wax kept back takes to warm is not known: the pot and its bath "
                      "warm with it."},
    {&Unknowns::cold_room, "A step wants the pot as cold as the room, which takes no time that can "
                           "be reckoned."},
};

class DayMaker {
public:
    DayMaker(const Model& model, std::span<const Reckoning> lines, const Timeline& time, Plan& plan)
        : lines_(lines), time_(time), names_(model, lines, time), plan_(plan) {
        std::size_t first = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            first_step_.push_back(first);
            first += steps_of(plan, i).size();
        }
    }

    void make() {
        time_steps();
        say_hotter();
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            RecipePlan& recipe = plan_.recipes[i];
            recipe.ready_at_least = !time_.done[i].known;
            if (plan_.starts) {
                recipe.ready_on = day_after(*plan_.starts, time_.done[i].at / a_minute);
            }
        }
        if (time_.fillings.size() > 1 || lines_.size() > 1) make_rows();
        DayPlan& day = plan_.day;
        day.worked_min = time_.worked / a_minute;
        day.hands_min = time_.hands / a_minute;
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
    const Course& course(const Filling& filling) const { return time_.courses[filling.course]; }
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

    Verb verb_of(const Deed& deed) const { return lines_[deed.line].in.steps[deed.step].verb; }

    /// The step that warms the vessels beforehand: they are warmed for each filling, while its wax
    /// melts, so that they are neither cold again nor is anything hot when the scent goes in.
    std::optional<std::size_t> warms_vessels(std::size_t line) const {
        const std::span<const Step> steps = lines_[line].in.steps;
        for (std::size_t i = 0; i < divide(steps).first_at_pot; ++i) {
            if (steps[i].verb == Verb::warm_vessels) return i;
        }
        return std::nullopt;
    }

    void time_steps() {
        for (const Filling& filling : time_.fillings) {
            bool unknown = late(filling.begins);
            if (const auto step = warms_vessels(filling.line)) {
                time_step(filling.line, *step, filling.begins, unknown);
            }
            for (const Stage& stage : course(filling).stages) {
                const double begins = filling.begins + stage.begins;
                if (stage.kind == StageKind::step) {
                    time_step(filling.line, stage.step, begins, unknown || late(begins));
                    say_measured(filling.line, stage);
                    if (filling.number > 1) step_plan(filling.line, stage.step).by_filling = true;
                }
                unknown = unknown || !stage.known;
            }
        }
        for (const Deed& deed : time_.deeds) {
            if (verb_of(deed) == Verb::warm_vessels) continue; // with each filling
            time_step(deed.line, deed.step, deed.begins, late(deed.begins) || !deed.known);
            step_plan(deed.line, deed.step).once_cold = !deed.known;
        }
    }

    /// What the reckoning adds to a step: how long it takes, and how much colder the pot gets.
    void say_measured(std::size_t line, const Stage& stage) {
        StepPlan& step = step_plan(line, stage.step);
        const double minutes = (stage.ends - stage.begins) / a_minute;
        const bool of_heat = step.verb == "melt" || step.verb == "cool";
        if (of_heat && stage.known && !stage.hands && minutes > 0 && !step.minutes) {
            step.minutes = minutes;
        }
        constexpr double worth_saying = 1; // C°
        if (stage.dropped && stage.from && *stage.from - *stage.dropped > worth_saying) {
            step.dropped_c = stage.dropped;
        }
        if (step.at_c && stage.from && step.verb != "melt" &&
            *stage.from < *step.at_c - worth_saying) {
            step.arrives_c = stage.from;
        }
    }

    /// What a filling does at that time; empty where it is not on, or somebody is at it.
    std::string_view doing(const Filling& filling, double time) const {
        for (const Stage& stage : course(filling).stages) {
            const double begins = filling.begins + stage.begins;
            if (time < begins || time >= filling.begins + stage.ends || stage.hands) continue;
            const Verb verb = lines_[filling.line].in.steps[stage.step].verb;
            if (verb == Verb::leave) return "waits for its second pour";
            if (verb == Verb::melt) return "melts: stay by it";
            if (stage.from && stage.to && *stage.to < *stage.from) return "cools";
            if (verb == Verb::second_pour || (stage.from && stage.to && *stage.to > *stage.from)) {
                return "warms up";
            }
            return "stands";
        }
        return {};
    }

    /// What the melter does at that time; empty where it is off.
    std::string_view melter_doing(double time) const {
        if (time >= time_.melter_off) return {};
        for (std::size_t i = time_.melter.size(); i-- > 0;) {
            if (time < time_.melter[i].begins) continue;
            return time < time_.melter[i].ready ? "melts: stay by it" : "hot: stay by it";
        }
        return {};
    }

    std::string others(const Filling* own, double time) const {
        std::string text;
        if (const std::string_view what = melter_doing(time); !what.empty()) {
            text = fmt::format("{} {}", plan_.melts.front().name, what);
        }
        for (const Filling& filling : time_.fillings) {
            if (&filling == own) continue;
            const std::string_view what = doing(filling, time);
            if (what.empty()) continue;
            text += fmt::format("{}{} {}", text.empty() ? "" : ", ",
                                names_.at(filling, time - filling.begins), what);
        }
        return text;
    }

    /// Waiting and what only takes no time at all is not worth a row, but for the pot's coming off
    /// the heat.
    bool worth_a_row(const Filling& filling, const Stage& stage) const {
        if (stage.kind != StageKind::step) return false;
        const Verb verb = lines_[filling.line].in.steps[stage.step].verb;
        const bool drawn = !plan_.recipes[filling.line].drawn_from.empty();
        return stage.hands || verb == Verb::melt || verb == Verb::warm_vessels ||
               (verb == Verb::off_heat && !drawn);
    }

    void add_warming_row(const Filling& filling, const PotKind& pot) {
        const auto step = warms_vessels(filling.line);
        if (!step) return;
        plan_.day.rows.push_back({.begins_min = filling.begins / a_minute,
                                  .ends_min = filling.begins / a_minute,
                                  .at_least = late(filling.begins),
                                  .recipe = filling.line,
                                  .first_step = first_step_[filling.line] + *step,
                                  .steps = 1,
                                  .filling = filling.number,
                                  .vessels = pot.vessels,
                                  .pot = names_.own(filling),
                                  .meanwhile = others(&filling, filling.begins)});
    }

    void add_filling_rows(const Filling& filling) {
        const PotKind& pot = lines_[filling.line].pots[filling.kind];
        if (filling.washes_from >= 0) {
            plan_.day.rows.push_back({.kind = RowKind::wash,
                                      .begins_min = filling.washes_from / a_minute,
                                      .ends_min = filling.begins / a_minute,
                                      .at_least = late(filling.washes_from),
                                      .recipe = filling.line,
                                      .filling = filling.number,
                                      .pot = names_.washed(filling),
                                      .meanwhile = others(&filling, filling.washes_from)});
        }
        add_warming_row(filling, pot);
        const Stage* before = nullptr;
        bool unknown = late(filling.begins);
        for (const Stage& stage : course(filling).stages) {
            const double begins = filling.begins + stage.begins;
            if (worth_a_row(filling, stage)) {
                const std::size_t step = first_step_[filling.line] + stage.step;
                const bool goes_on = before != nullptr && stage.step == before->step + 1 &&
                                     stage.begins == before->ends && stage.hands && before->hands;
                if (goes_on) { // add and stir are one go
                    plan_.day.rows.back().steps += 1;
                    plan_.day.rows.back().ends_min = (filling.begins + stage.ends) / a_minute;
                } else {
                    plan_.day.rows.push_back({.begins_min = begins / a_minute,
                                              .ends_min = (filling.begins + stage.ends) / a_minute,
                                              .at_least = unknown || late(begins),
                                              .recipe = filling.line,
                                              .first_step = step,
                                              .steps = 1,
                                              .filling = filling.number,
                                              .vessels = pot.vessels,
                                              .pot = names_.at(filling, stage.begins),
                                              .meanwhile = others(&filling, begins)});
                    weigh_in(filling.line, stage.step, pot);
                }
                before = &stage;
            } else if (stage.ends > stage.begins || !stage.known) {
                before = nullptr;
            }
            unknown = unknown || !stage.known;
        }
    }

    /// What the step puts into the pot, as its table has it: the scent, or wax from a melter.
    void weigh_in(std::size_t line, std::size_t index, const PotKind& pot) {
        const Step& step = lines_[line].in.steps[index];
        const bool draws = step.verb == Verb::melt && !plan_.recipes[line].drawn_from.empty();
        if (!draws && !(step.verb == Verb::add && step.adds_scent)) return;
        const MatterKind kind = draws ? MatterKind::wax : MatterKind::oil;
        plan_.day.rows.back().division_g = pot.division;
        for (const Weighing& weighing : pot.lines) {
            if (weighing.kind == kind) plan_.day.rows.back().grams += weighing.weighed;
        }
    }

    void add_melter_rows() {
        for (const MelterFilling& filling : time_.melter) {
            const Melting& melting = time_.meltings[filling.melting];
            plan_.day.rows.push_back(
                {.kind = filling.wiped ? RowKind::melter_wiped : RowKind::melter,
                 .begins_min = filling.begins / a_minute,
                 .ends_min = filling.ready / a_minute,
                 .at_least = late(filling.begins),
                 .recipe = melting.lines.front(),
                 .pot = plan_.melts[filling.melting].name});
        }
        if (time_.melter.empty()) return;
        plan_.day.rows.push_back({.kind = RowKind::melter_off,
                                  .begins_min = time_.melter_off / a_minute,
                                  .ends_min = time_.melter_off / a_minute,
                                  .at_least = late(time_.melter_off),
                                  .recipe = time_.meltings.back().lines.front(),
                                  .pot = plan_.melts.back().name});
    }

    /// A shared melter is as hot as the hottest recipe wants it: the others are told.
    void say_hotter() {
        for (const Melting& melting : time_.meltings) {
            for (const std::size_t line : melting.lines) {
                for (std::size_t i = 0; i < steps_of(plan_, line).size(); ++i) {
                    StepPlan& step = step_plan(line, i);
                    if (step.verb != "melt" || !step.at_c || melting.celsius <= *step.at_c + 0.5) {
                        continue;
                    }
                    step.text += fmt::format(" It is hotter than that, {}, for the others.",
                                             show_temperature(melting.celsius, plan_.us_units));
                }
            }
        }
    }

    void make_rows() {
        auto& rows = plan_.day.rows;
        add_melter_rows();
        for (const Filling& filling : time_.fillings)
            add_filling_rows(filling);
        for (const Deed& deed : time_.deeds) {
            const Verb verb = verb_of(deed);
            if (!deed.hands && verb != Verb::cure) continue;
            rows.push_back({.begins_min = deed.begins / a_minute,
                            .ends_min = (verb == Verb::cure ? deed.begins : deed.ends) / a_minute,
                            .at_least = late(deed.begins) || !deed.known,
                            .once_cold = !deed.known,
                            .recipe = deed.line,
                            .first_step = first_step_[deed.line] + deed.step,
                            .steps = 1,
                            .vessels = lines_[deed.line].in.job.count,
                            .meanwhile = others(nullptr, deed.begins)});
        }
        std::stable_sort(rows.begin(), rows.end(), [](const DayRow& a, const DayRow& b) {
            return a.begins_min < b.begins_min;
        });
    }

    void remark() {
        for (const auto& [unknown, words] : reasons) {
            if (time_.unknowns.*unknown) plan_.day.remarks.emplace_back(words);
            const bool of_steps = unknown == &Unknowns::on_heat || unknown == &Unknowns::cold_room;
            if (of_steps && time_.unknowns.*unknown) plan_.day.faults.emplace_back(words);
        }
    }

    std::span<const Reckoning> lines_;
    const Timeline& time_;
    PotNames names_;
    Plan& plan_;
    std::vector<std::size_t> first_step_; // by line, index of Plan::steps
};

} // namespace

void add_day(const Model& model, BlockId batch, std::span<const Reckoning> lines, Plan& plan) {
    const PotInput melter = gather_pot(model, melter_block(model, batch));
    const Timeline time = timeline_of(lines, melter);
    plan.day.too_many = time.too_many;
    if (time.too_many) return;
    add_melts(model, melter, lines, time, plan);
    add_heat_that_stays_on(model, lines, time, plan);
    DayMaker(model, lines, time, plan).make();
}

} // namespace waxwright
