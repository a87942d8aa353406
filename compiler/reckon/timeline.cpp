#include "reckon/timeline.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "reckon/bath.hpp"
#include "reckon/fire.hpp"
#include "reckon/hands.hpp"
#include "reckon/melter.hpp"
#include "reckon/pots_in_use.hpp"
#include "reckon/worker.hpp"

namespace waxwright {

namespace {

/// s that a bath off the heat still counts as hot (common practice); after that it is cold again.
constexpr double bath_stays_hot = 30 * 60;
constexpr double never = std::numeric_limits<double>::infinity();

std::int64_t fillings_of(const Reckoning& line) {
    std::int64_t sum = 0;
    for (const PotKind& pot : line.pots)
        sum += pot.pots;
    return sum;
}

class Day {
public:
    Day(std::span<const Reckoning> lines, const PotInput& melter)
        : lines_(lines), melter_pot_(melter) {
        day_.done.resize(lines.size());
        day_.known_till = never;
        day_.order.resize(lines.size());
        std::iota(day_.order.begin(), day_.order.end(), std::size_t{0});
        std::stable_sort(day_.order.begin(), day_.order.end(), [&](std::size_t a, std::size_t b) {
            return lines[a].load_of_wax.value_or(0) < lines[b].load_of_wax.value_or(0);
        });
        for (const Reckoning& line : lines) {
            auto& units = units_[line.in.job.pot];
            const auto at_once = static_cast<std::size_t>(
                std::clamp<std::int64_t>(line.in.job.pots_at_once, 1, most_fillings));
            if (units.size() < at_once) units.resize(at_once);
            if (line.in.keep.pots == 0) continue;
            auto& keeps = keeps_[line.in.keep.pot.block];
            const auto pots = static_cast<std::size_t>(
                std::clamp<std::int64_t>(line.in.keep.pots, 1, most_fillings));
            if (keeps.size() < pots) keeps.resize(pots);
        }
        melter_ = melter_of(melter, lines, day_.order);
    }

    Timeline take() {
        by_melting();
        std::vector<double> ready(lines_.size());
        for (const std::size_t line : day_.order)
            ready[line] = prepare_all(line);
        for (const std::size_t line : day_.order)
            work(line, ready[line]);
        std::stable_sort(day_.fillings.begin(), day_.fillings.end(),
                         [](const Filling& a, const Filling& b) { return a.begins < b.begins; });
        std::stable_sort(
            day_.shared_steps.begin(), day_.shared_steps.end(),
            [](const SharedStep& a, const SharedStep& b) { return a.begins < b.begins; });
        if (!day_.melter.empty()) day_.melter_off = last_draw_;
        top_melter_up();
        day_.meltings = std::move(melter_.meltings);
        for (const auto& [pot, baths] : baths_) {
            if (baths.size() > 0) day_.baths.emplace_back(pot, baths.size());
        }
        end_of_day();
        day_.hands_on = worker_.taken() + some_time_;
        return std::move(day_);
    }

private:
    std::span<const Step> steps(std::size_t line) const { return lines_[line].in.steps; }

    /// A melter holds one blend at a time, so the lines that share one are worked together, in the
    /// order of the first of them.
    void by_melting() {
        if (melter_.meltings.empty()) return;
        std::vector<std::size_t> order;
        for (const Melting& melting : melter_.meltings)
            order.insert(order.end(), melting.lines.begin(), melting.lines.end());
        for (const std::size_t line : day_.order) { // those that melt their own wax come last
            if (!melter_.melting_of(line)) order.push_back(line);
        }
        day_.order = std::move(order);
        join(day_.unknowns, melter_.unknowns);
    }

    /// When wax for one more filling can be drawn; the melter is filled again where too little is
    /// left, and first where it has another blend in it.
    double drawn(std::size_t line, double grams) {
        const auto melting = melter_.melting_of(line);
        if (!melting) return 0;
        const Melting& wanted = melter_.meltings[*melting];
        const bool other = day_.melter.empty() || day_.melter.back().melting != *melting;
        if (other || left_ + 1e-6 < grams) {
            const bool wiped = other && !day_.melter.empty();
            // What it holds for the last jug is hot enough, and little of it is left.
            if (!day_.melter.empty()) day_.melter_pauses.push_back(last_draw_);
            // Keeping its wax hot can't be put off; melting another filling can, and is: whoever
            // stays by it can't be well away from it with scented wax.
            const FireTimes heat{.heats = {{0, wanted.seconds.value_or(0)}},
                                 .flame = true,
                                 .adding = {},
                                 .open = {}};
            const double free = day_.melter.empty() ? 0 : last_draw_ + draw_seconds;
            const double begins = fire_.earliest(heat, free);
            fire_.take(heat, begins);
            const double ready = begins + wanted.seconds.value_or(0);
            if (!wanted.seconds) day_.known_till = std::min(day_.known_till, begins);
            const double left = other ? 0 : left_ + wanted.clings;
            left_ = other ? wanted.grams - wanted.clings : left_ + wanted.grams;
            day_.melter.push_back({*melting, begins, ready, wiped, left});
        }
        left_ -= grams;
        return day_.melter.back().ready;
    }

    /// Work on all vessels of a line: while something melts, somebody is there and not here.
    void work_on(std::size_t line, std::size_t step, double& free) {
        const Step& each = steps(line)[step];
        const double seconds = work_seconds(each, static_cast<double>(lines_[line].in.job.count));
        const Interval wanted{0, seconds};
        FireTimes fire{.heats = {}, .adding = {}, .open = {}, .away = {wanted}};
        if (each.verb == Verb::smooth_top) { // by hot air or a flame
            fire.heats = {wanted};
            fire.flame = true;
        }
        const double begins = first_time(std::span(&wanted, 1), fire, free);
        worker_.take(std::span(&wanted, 1), begins);
        fire_.take(fire, begins);
        free = begins + seconds;
        day_.shared_steps.push_back({line, step, begins, free, seconds > 0});
        day_.worked = std::max(day_.worked, free);
    }

    void fill(std::size_t line, std::size_t kind, std::int64_t number, std::size_t profile,
              double from) {
        PotInUse* const unit =
            first_free(units_[lines_[line].in.job.pot], line, from, wash_seconds);
        const auto& moved = day_.profiles[profile + 1].moved; // as a bath that is hot has it
        PotInUse* const keep =
            moved ? first_free(keeps_[lines_[line].in.keep.pot.block], line, 0, wash_seconds)
                  : nullptr;
        const bool washed = unit->had_other_scent(line);
        const bool keep_washed = keep != nullptr && keep->had_other_scent(line);
        const double before = (washed + keep_washed) * wash_seconds;
        double free = std::max(from, unit->free + before);
        // What is kept back of another filling has to be out of it by then.
        if (keep != nullptr) {
            free = std::max(free, keep->free + (keep_washed ? before : -*moved));
        }
        // In a bath that is still hot by then, if it is.
        Baths& baths = baths_[lines_[line].in.job.pot];
        const bool maybe_hot = baths.size() > 0;
        Place place = place_for(line, profile + (maybe_hot ? 1 : 0), before, free);
        if (maybe_hot && !baths.has_hot(place.begins, bath_stays_hot)) {
            place = place_for(line, profile, before, free);
        }
        const auto& [used, fire, tops, wanted, begins] = place;
        const HeatProfile& made = day_.profiles[used];
        worker_.take(wanted, begins);
        fire_.take(fire, begins);
        note_fire(line, fire);
        const double ends = begins + made.length();
        const bool scented = !lines_[line].in.oils().empty();
        unit->free = begins + made.in_pot();
        unit->last = line;
        unit->scented = scented;
        if (!fire.heats.empty() && lines_[line].in.pot.heated == Heated::water_bath) {
            baths.take(begins + fire.heats.front().begins, begins + fire.heats.front().ends);
        }
        if (keep != nullptr) {
            keep->free = ends;
            keep->last = line;
            keep->scented = scented;
        }
        day_.fillings.push_back({.line = line,
                                 .kind = kind,
                                 .profile = used,
                                 .number = number,
                                 .unit = number_of(units_, lines_[line].in.job.pot, unit),
                                 .keeps = number_of(keeps_, lines_[line].in.keep.pot.block, keep),
                                 .begins = begins,
                                 .washes_from = before > 0 ? begins - before : -1,
                                 .washes_own = washed,
                                 .washes_keep = keep_washed,
                                 .top_ups = tops});
        note_known(made, begins);
        day_.worked = std::max(day_.worked, ends);
        last_pour_ = std::max(last_pour_, ends);
    }

    /// Where a filling comes in the day, if it goes by that profile.
    struct Place {
        std::size_t profile;
        FireTimes fire;
        std::vector<double> tops; // its bath is topped up, s from its beginning
        std::vector<Interval> wanted;
        double begins;
    };
    Place place_for(std::size_t line, std::size_t profile, double before, double from) const {
        const HeatProfile& made = day_.profiles[profile];
        const bool drawn = melter_.celsius_for(line).has_value();
        Place place{profile, fire_times(lines_[line], made, drawn), {}, {}, from};
        if (!drawn && !place.fire.heats.empty()) {
            place.tops = top_ups(lines_[line].in.pot, place.fire.heats.front(), made.stages);
        }
        place.wanted = wanted_hands(made, before, place.tops);
        if (before > 0) place.fire.away.push_back({-before, 0});
        for (const Stage& stage : made.stages) { // a pour is at the vessels, away from all heat
            const Verb verb = lines_[line].in.steps[stage.step].verb;
            if (stage.attended && is_pour(verb))
                place.fire.away.push_back({stage.begins, stage.ends});
        }
        place.begins = first_time(place.wanted, place.fire, from);
        return place;
    }

    /// When somebody has hands for it and nothing that is hot meets what can light.
    double first_time(std::span<const Interval> work, const FireTimes& fire, double from) const {
        for (;;) {
            const double begins = fire_.earliest(fire, worker_.earliest(work, from));
            if (worker_.earliest(work, begins) == begins) return begins;
            from = begins;
        }
    }

    /// Heat that no plan can put off while the scent of a line is hot enough to light.
    void note_fire(std::size_t line, const FireTimes& fire) {
        const bool melter = !fire.adding.empty() && melter_.celsius_for(line).has_value();
        if (!melter && !fire.warmed_open) return;
        const HeatStaysOn note{line, melter};
        const auto& all = day_.heat_stays_on;
        if (std::find(all.begin(), all.end(), note) == all.end()) {
            day_.heat_stays_on.push_back(note);
        }
    }

    void note_known(const HeatProfile& profile, double begins) {
        for (const Stage& stage : profile.stages) {
            if (!stage.known) day_.known_till = std::min(day_.known_till, begins + stage.ends);
        }
    }

    /// What is done before a line's pots go on the heat; when that is done.
    double prepare_all(std::size_t line) {
        double free = 0;
        for (std::size_t i = 0; i < divide(steps(line)).first_at_pot; ++i)
            work_on(line, i, free);
        return free;
    }

    void work(std::size_t line, double free) {
        const Reckoning& reckoning = lines_[line];
        last_pour_ = free;
        std::int64_t number = 0;
        for (std::size_t kind = 0; kind < reckoning.pots.size(); ++kind) {
            const PotKind& pot = reckoning.pots[kind];
            // The first filling of a pot stands in a cold bath, one soon after it in a hot one.
            const std::size_t profile = day_.profiles.size();
            const auto drawn_at = melter_.celsius_for(line);
            day_.profiles.push_back(heat_profile_of(reckoning, pot, drawn_at, true));
            const Bath* bath = reckoning.in.pot.bath.get();
            const bool same = bath == nullptr || bath->hot || drawn_at;
            day_.profiles.push_back(same ? day_.profiles.back()
                                         : heat_profile_of(reckoning, pot, drawn_at, false));
            join(day_.unknowns, day_.profiles.back().unknowns);
            const double wax = wax_of(pot);
            for (std::int64_t i = 0; i < pot.pots; ++i) {
                const double ready = drawn(line, wax);
                fill(line, kind, ++number, profile, std::max(free, ready));
                last_draw_ = std::max(last_draw_, day_.fillings.back().begins);
            }
        }
        finish(line, divide(steps(line)).after_pot);
    }

    static double wax_of(const PotKind& pot) {
        double grams = 0;
        for (const Weighing& weighing : pot.lines) {
            if (weighing.kind == MatterKind::wax) grams += weighing.exact;
        }
        return grams;
    }

    /// What is done once the last pot is poured, for all vessels of the recipe.
    void finish(std::size_t line, std::size_t from) {
        const std::span<const Step> all = steps(line);
        double now = last_pour_;
        double warm_till = now; // smoothing its tops warms it again
        bool known = true;      // till something waits for wax to be cold: nobody knows when
        for (std::size_t i = from; i < all.size(); ++i) {
            const Step& step = all[i];
            if (info(step.verb).has(trait::stands)) {
                const double ends = now + (step.duration() ? step.duration()->value() : 0);
                day_.shared_steps.push_back({line, i, now, ends, false, known});
                now = ends;
                continue;
            }
            const double ready = warm_till + wants_it_left(step.verb);
            if (now < ready - 1) { // sums are not exact
                known = false;
                now = ready;
            }
            if (known) {
                work_on(line, i, now);
            } else {
                work_some_time(line, i, now);
            }
            if (step.verb == Verb::smooth_top) warm_till = now;
        }
        day_.done[line] = {now, known && now <= day_.known_till};
    }

    /// Nobody knows when: it keeps nothing else waiting.
    void work_some_time(std::size_t line, std::size_t step, double& now) {
        const double seconds =
            work_seconds(steps(line)[step], static_cast<double>(lines_[line].in.job.count));
        day_.shared_steps.push_back({line, step, now, now + seconds, seconds > 0, false});
        now += seconds;
        some_time_ += seconds;
        day_.worked = std::max(day_.worked, now);
    }

    /// What would be done long after the last pour can be done the next day: no time is planned.
    void end_of_day() {
        double poured = 0;
        for (const Filling& filling : day_.fillings)
            poured = std::max(poured, filling.begins + day_.profiles[filling.profile].length());
        day_.worked = poured;
        for (SharedStep& shared : day_.shared_steps) {
            shared.next_day = shared.begins > poured + cold_after + 1;
            if (shared.known && shared.attended && !shared.next_day) {
                day_.worked = std::max(day_.worked, shared.ends);
            }
        }
    }

    /// A melter's bath, while the melter is on: when somebody is free for it in due time, else as
    /// soon as somebody is.
    void top_melter_up() {
        if (day_.melter.empty() || melter_pot_.heated != Heated::water_bath) return;
        const double every = top_up_every(melter_pot_);
        auto filling = day_.melter.begin(); // each begins with its bath topped up
        for (double last = filling->begins; day_.melter_top_ups.size() < most_fillings;) {
            const double due = last + every;
            const auto next = std::find_if(filling, day_.melter.end(),
                                           [&](const auto& each) { return each.begins > last; });
            if (next != day_.melter.end() && next->begins <= due) {
                filling = next;
                last = next->begins;
                continue;
            }
            const Interval wanted{0, top_up_seconds};
            const auto in_time = worker_.latest(top_up_seconds, last + top_up_seconds, due);
            last = in_time.value_or(worker_.earliest(std::span(&wanted, 1), due));
            if (last >= day_.melter_off) return;
            worker_.take(std::span(&wanted, 1), last);
            day_.melter_top_ups.push_back(last);
        }
    }

    std::span<const Reckoning> lines_;
    Timeline day_;
    Worker worker_;
    FireGuard fire_;
    std::map<BlockId, Baths> baths_; // by the pots' name
    PotsInUse units_, keeps_; // the pots wax is melted in, and those it waits in for a second pour
    const PotInput& melter_pot_;
    Melter melter_;
    double left_ = 0; // g of wax in the melter, what clings not counted
    double last_pour_ = 0;
    double some_time_ = 0; // s by hand that no time is known of
    double last_draw_ = 0;
};

} // namespace

Timeline timeline_of(std::span<const Reckoning> lines, const PotInput& melter) {
    std::int64_t fillings = 0;
    for (const Reckoning& line : lines) {
        const std::int64_t more = fillings_of(line);
        if (more > most_fillings || (fillings += more) > most_fillings) {
            Timeline none;
            none.too_many = true;
            return none;
        }
    }
    return Day(lines, melter).take();
}

} // namespace waxwright
