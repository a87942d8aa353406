#include "plan/day_rows.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "plan/parts.hpp"
#include "plan/pot_names.hpp"
#include "reckon/bath.hpp"

namespace waxwright {

namespace {

constexpr double a_minute = 60; // s

class RowMaker {
public:
    RowMaker(const Model& model, std::span<const Reckoning> lines, const Timeline& time,
             const Plan& plan)
        : lines_(lines), time_(time), names_(model, lines, time), plan_(plan) {
        std::size_t first = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            first_step_.push_back(first);
            first += steps_of(plan, i).size();
        }
    }

    std::vector<DayRow> make() {
        add_melter_rows();
        for (const Filling& filling : time_.fillings)
            add_filling_rows(filling);
        for (const SharedStep& shared : time_.shared_steps) {
            const Verb verb = lines_[shared.line].in.steps[shared.step].verb;
            if (!shared.attended && verb != Verb::cure) continue;
            rows_.push_back(
                {.begins_min = shared.begins / a_minute,
                 .ends_min = (verb == Verb::cure ? shared.begins : shared.ends) / a_minute,
                 .at_least = late(shared.begins) || !shared.known,
                 .once_cold = !shared.known || shared.next_day,
                 .recipe = shared.line,
                 .first_step = first_step_[shared.line] + shared.step,
                 .steps = 1,
                 .vessels = lines_[shared.line].in.job.count,
                 .meanwhile = shared.known && !shared.next_day ? others(nullptr, shared.begins)
                                                               : std::string()});
        }
        add_last_look();
        std::stable_sort(rows_.begin(), rows_.end(), [](const DayRow& a, const DayRow& b) {
            if (a.once_cold != b.once_cold) return b.once_cold; // last, recipe by recipe
            if (a.once_cold && a.recipe != b.recipe) return a.recipe < b.recipe;
            return a.begins_min < b.begins_min;
        });
        return std::move(rows_);
    }

private:
    const HeatProfile& profile(const Filling& filling) const {
        return time_.profiles[filling.profile];
    }
    bool late(double seconds) const { return seconds > time_.known_till; }

    /// What a filling does at that time; empty where it is not on, or somebody is at it.
    std::string_view doing(const Filling& filling, double time) const {
        for (const Stage& stage : profile(filling).stages) {
            const double begins = filling.begins + stage.begins;
            if (time < begins || time >= filling.begins + stage.ends || stage.attended) continue;
            const Verb verb = lines_[filling.line].in.steps[stage.step].verb;
            if (verb == Verb::leave) return "waits for its second pour";
            if (verb == Verb::melt) return "melts: stay by it";
            if (verb == Verb::hold && stage.on_heat) return "on the heat: stay by it";
            if (stage.from && stage.to && *stage.to < *stage.from) return "cools";
            if (verb == Verb::second_pour || (stage.from && stage.to && *stage.to > *stage.from)) {
                return "warms up";
            }
            return "stands";
        }
        return {};
    }

    /// Off, till it is filled again.
    bool pauses(double time) const {
        return std::any_of(time_.melter_pauses.begin(), time_.melter_pauses.end(), [&](double off) {
            const auto again =
                std::find_if(time_.melter.begin(), time_.melter.end(),
                             [&](const MelterFilling& each) { return each.begins > off; });
            return time >= off && again != time_.melter.end() && time < again->begins;
        });
    }

    /// What the melter does at that time; empty where it is off.
    std::string_view melter_doing(double time) const {
        if (time >= time_.melter_off || pauses(time)) return {};
        for (std::size_t i = time_.melter.size(); i-- > 0;) {
            if (time < time_.melter[i].begins) continue;
            return time < time_.melter[i].ready ? "melts: stay by it" : "hot: keep it in sight";
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
        const bool holds = verb == Verb::hold && stage.ends > stage.begins;
        return stage.attended || verb == Verb::melt || holds || (verb == Verb::off_heat && !drawn);
    }

    void add_warming_row(const Filling& filling, const PotKind& pot) {
        const auto step = warms_vessels(lines_[filling.line]);
        if (!step) return;
        const double begins =
            filling.begins + vessels_warmed_at(lines_[filling.line], profile(filling));
        rows_.push_back({.begins_min = begins / a_minute,
                         .ends_min = begins / a_minute,
                         .at_least = late(begins),
                         .recipe = filling.line,
                         .first_step = first_step_[filling.line] + *step,
                         .steps = 1,
                         .filling = filling.number,
                         .vessels = pot.vessels,
                         .pot = names_.own(filling),
                         .meanwhile = others(nullptr, begins)}); // its own pot melts
    }

    void add_top_up_rows(const Filling& filling) {
        for (const double time : filling.top_ups) {
            const double begins = filling.begins + time;
            rows_.push_back({.kind = RowKind::top_up,
                             .begins_min = begins / a_minute,
                             .ends_min = (begins + top_up_seconds) / a_minute,
                             .at_least = late(begins),
                             .recipe = filling.line,
                             .filling = filling.number,
                             .pot = names_.own(filling),
                             .meanwhile = others(nullptr, begins)});
        }
    }

    void add_filling_rows(const Filling& filling) {
        const PotKind& pot = lines_[filling.line].pots[filling.kind];
        if (filling.washes_from >= 0) {
            rows_.push_back({.kind = RowKind::wash,
                             .begins_min = filling.washes_from / a_minute,
                             .ends_min = filling.begins / a_minute,
                             .at_least = late(filling.washes_from),
                             .recipe = filling.line,
                             .filling = filling.number,
                             .pot = names_.washed(filling),
                             .meanwhile = others(&filling, filling.washes_from)});
        }
        add_top_up_rows(filling);
        const Stage* before = nullptr;
        bool unknown = late(filling.begins);
        for (const Stage& stage : profile(filling).stages) {
            const double begins = filling.begins + stage.begins;
            if (worth_a_row(filling, stage)) {
                const std::size_t step = first_step_[filling.line] + stage.step;
                const bool goes_on = before != nullptr && stage.step == before->step + 1 &&
                                     stage.begins == before->ends && stage.attended &&
                                     before->attended;
                if (goes_on) { // add and stir are one go
                    rows_.back().steps += 1;
                    rows_.back().ends_min = (filling.begins + stage.ends) / a_minute;
                } else {
                    rows_.push_back({.begins_min = begins / a_minute,
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
        add_warming_row(filling, pot);
    }

    /// What the step puts into the pot, as its table has it: the scent, or wax from a melter.
    void weigh_in(std::size_t line, std::size_t index, const PotKind& pot) {
        const Step& step = lines_[line].in.steps[index];
        const bool draws = step.verb == Verb::melt && !plan_.recipes[line].drawn_from.empty();
        if (!draws && !(step.verb == Verb::add && step.adds_scent)) return;
        const MatterKind kind = draws ? MatterKind::wax : MatterKind::oil;
        rows_.back().division_g = pot.division;
        for (const Weighing& weighing : pot.lines) {
            if (weighing.kind == kind) rows_.back().grams += weighing.weighed;
        }
    }

    void add_melter_rows() {
        for (const MelterFilling& filling : time_.melter) {
            const Melting& melting = time_.meltings[filling.melting];
            rows_.push_back({.kind = filling.wiped ? RowKind::melter_wiped : RowKind::melter,
                             .begins_min = filling.begins / a_minute,
                             .ends_min = filling.ready / a_minute,
                             .at_least = late(filling.begins),
                             .recipe = melting.lines.front(),
                             .pot = plan_.melts[filling.melting].name});
        }
        if (time_.melter.empty()) return;
        for (const double time : time_.melter_top_ups) {
            rows_.push_back({.kind = RowKind::melter_top_up,
                             .begins_min = time / a_minute,
                             .ends_min = (time + top_up_seconds) / a_minute,
                             .at_least = late(time),
                             .recipe = time_.meltings.front().lines.front(),
                             .pot = plan_.melts.front().name});
        }
        for (const double time : time_.melter_pauses) {
            rows_.push_back({.kind = RowKind::melter_pause,
                             .begins_min = time / a_minute,
                             .ends_min = time / a_minute,
                             .at_least = late(time),
                             .recipe = time_.meltings.front().lines.front(),
                             .pot = plan_.melts.front().name});
        }
        rows_.push_back({.kind = RowKind::melter_off,
                         .begins_min = time_.melter_off / a_minute,
                         .ends_min = time_.melter_off / a_minute,
                         .at_least = late(time_.melter_off),
                         .recipe = time_.meltings.back().lines.front(),
                         .pot = plan_.melts.back().name});
    }

    /// Behind the last pot that comes off the heat.
    void add_last_look() {
        double last = time_.melter_off;
        for (const Filling& filling : time_.fillings) {
            for (const Stage& stage : profile(filling).stages) {
                const Verb verb = lines_[filling.line].in.steps[stage.step].verb;
                if (verb == Verb::melt) last = std::max(last, filling.begins + stage.ends);
                if (info(verb).has(trait::off_heat) || verb == Verb::pour) {
                    last = std::max(last, filling.begins + stage.begins);
                    break;
                }
            }
        }
        rows_.push_back({.kind = RowKind::last_look,
                         .begins_min = last / a_minute,
                         .ends_min = last / a_minute,
                         .at_least = late(last)});
    }

    std::span<const Reckoning> lines_;
    const Timeline& time_;
    PotNames names_;
    const Plan& plan_;
    std::vector<DayRow> rows_;
    std::vector<std::size_t> first_step_; // by line, index of Plan::steps
};

} // namespace

std::optional<std::size_t> warms_vessels(const Reckoning& reckoning) {
    const std::span<const Step> steps = reckoning.in.steps;
    for (std::size_t i = 0; i < divide(steps).after_pot; ++i) {
        if (steps[i].verb == Verb::warm_vessels) return i;
    }
    return std::nullopt;
}

double vessels_warmed_at(const Reckoning& reckoning, const HeatProfile& profile) {
    constexpr double warming = 600; // s before that heat goes off (common practice)
    for (const Stage& stage : profile.stages) {
        const Verb verb = reckoning.in.steps[stage.step].verb;
        if (info(verb).has(trait::off_heat)) return std::max(stage.begins - warming, 0.0);
    }
    return 0;
}

std::vector<DayRow> day_rows(const Model& model, std::span<const Reckoning> lines,
                             const Timeline& time, const Plan& plan) {
    return RowMaker(model, lines, time, plan).make();
}

} // namespace waxwright
