// The order of the steps: what has to come before what, and what is missing on the way. Nothing is
// said to be missing, or in the wrong place, where a step could not be read.
#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <vector>

#include <fmt/format.h>

#include "check/heat_parts.hpp"
#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

using enum Rank;
constexpr std::size_t ranks = static_cast<std::size_t>(curing) + 1;
constexpr std::size_t place(Rank rank) {
    return static_cast<std::size_t>(rank);
}

std::string step_words(const Model& model, const Step& step) {
    if (step.adds_scent) return "`add scent`";
    if (step.verb == Verb::add && step.material != no_block) {
        return fmt::format("`add {}`", model.name(step.material));
    }
    return quoted(info(step.verb).words);
}

/// The step before this one that has added the same, or none.
const Step* added_before(std::span<const Step> steps, const Step& step) {
    const bool adds = step.adds_scent || (step.verb == Verb::add && step.material != no_block);
    if (!adds) return nullptr;
    for (const Step& other : steps) {
        if (&other == &step) return nullptr;
        const bool same = step.adds_scent
                              ? other.adds_scent
                              : other.verb == Verb::add && other.material == step.material;
        if (same) return &other;
    }
    return nullptr;
}

/// One walk over the steps gives each its rank. What goes in a second time has none: that is told
/// by itself.
class Ranking {
public:
    explicit Ranking(std::span<const Step> steps) : steps_(steps) {}

    Rank next(const Step& step) {
        if (added_before(steps_, step) != nullptr) return anywhere;
        melted_ = melted_ || step.verb == Verb::melt;
        scented_ = scented_ || step.adds_scent;
        const Rank rank = info(step.verb).rank;
        // Before the scent an additive belongs to the melting: more may be melted behind it.
        return rank == adding && melted_ && !scented_ ? melting : rank;
    }

private:
    std::span<const Step> steps_;
    bool melted_ = false;
    bool scented_ = false;
};

struct Ranked {
    const Step* step;
    Rank rank;
    bool fits = false; // is in the longest chain that is in order
};

bool in_order(std::span<const Step> steps) {
    Ranking ranking(steps);
    Rank highest = anywhere;
    for (const Step& step : steps) {
        const Rank rank = ranking.next(step);
        if (rank == anywhere) continue;
        if (rank < highest || (rank == pouring && highest == pouring)) return false;
        highest = rank;
    }
    return true;
}

/// Marks the longest chain of steps that is in order, so that one step at the wrong end is one
/// finding and not one for every other step. Of chains as long the one that ends first is taken.
void mark_longest_chain(std::vector<Ranked>& steps) {
    constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
    std::array<std::size_t, ranks> length{};
    std::array<std::size_t, ranks> last{};
    last.fill(none);
    std::vector<std::size_t> before(steps.size(), none);
    for (std::size_t i = 0; i < steps.size(); ++i) {
        std::size_t best = place(anywhere);
        for (std::size_t rank = place(melting); rank <= place(steps[i].rank); ++rank) {
            if (length[rank] > length[best]) best = rank;
        }
        const std::size_t longer = length[best] + 1;
        if (longer <= length[place(steps[i].rank)]) continue;
        before[i] = last[best];
        length[place(steps[i].rank)] = longer;
        last[place(steps[i].rank)] = i;
    }
    std::size_t end = place(anywhere);
    for (std::size_t rank = place(melting); rank < ranks; ++rank) {
        const bool longer = length[rank] > length[end];
        if (longer || (length[rank] == length[end] && last[rank] < last[end])) end = rank;
    }
    for (std::size_t i = last[end]; i != none; i = before[i])
        steps[i].fits = true;
}

void report_misplaced(const Model& model, const Job& job, const std::vector<Ranked>& steps,
                      std::size_t index, Findings& findings) {
    const Ranked& wrong = steps[index];
    const auto here = steps.begin() + static_cast<std::ptrdiff_t>(index);
    const auto sooner = std::find_if(steps.begin(), here, [&](const Ranked& other) {
        return other.fits && other.rank > wrong.rank;
    });
    const bool late = sooner != here;
    const auto other = late ? sooner : std::find_if(here, steps.end(), [&](const Ranked& later) {
        return later.fits && later.rank < wrong.rank;
    });
    if (other == steps.end()) return;
    Finding& finding = report(findings, job, Rule::steps_out_of_order, wrong.step->at,
                              fmt::format("{} comes too {}: {} {}", step_words(model, *wrong.step),
                                          late ? "late" : "early", late ? "after" : "before",
                                          step_words(model, *other->step)),
                              "the order is melt, add, pour, second pour, trim, cure");
    relate(model, finding, other->step->at, late ? "this comes later" : "this comes first");
}

void check_steps_in_order(const Model& model, const Job& job, Findings& findings) {
    const auto steps = model.steps_of(job.recipe);
    if (in_order(steps)) return;
    std::vector<Ranked> ranked;
    Ranking ranking(steps);
    const Step* pour = nullptr;
    for (const Step& step : steps) {
        const Rank rank = ranking.next(step);
        if (rank == pouring && pour != nullptr) {
            Finding& finding =
                report(findings, job, Rule::steps_out_of_order, step.at, "there is a second `pour`",
                       "what was kept back is poured by `second pour at`; two ways to pour are two "
                       "recipes");
            relate(model, finding, pour->at, "it is poured here");
            continue;
        }
        if (rank == pouring) pour = &step;
        if (rank != anywhere) ranked.push_back({&step, rank});
    }
    mark_longest_chain(ranked);
    for (std::size_t i = 0; i < ranked.size(); ++i) {
        if (!ranked[i].fits) report_misplaced(model, job, ranked, i, findings);
    }
}

/// A recipe weighs out one amount of each thing: a second step would find nothing to add.
void check_added_once(const Model& model, const Job& job, Findings& findings) {
    const auto steps = model.steps_of(job.recipe);
    for (const Step& step : steps) {
        const Step* first = added_before(steps, step);
        if (first == nullptr) continue;
        const std::string what =
            step.adds_scent ? std::string("the scent") : quoted(model.name(step.material));
        Finding& finding = report(findings, job, Rule::steps_out_of_order, step.at,
                                  fmt::format("{} has gone in already", what),
                                  "all of it that is weighed out goes in at one step: take one of "
                                  "the two out");
        relate(model, finding, first->at, "it goes in here");
    }
}

/// Lids and labels go on cold candles, behind the last pour.
void check_closed_last(const Model& model, const Job& job, Findings& findings) {
    const auto steps = model.steps_of(job.recipe);
    const auto last = std::find_if(steps.rbegin(), steps.rend(),
                                   [](const Step& step) { return is_pour(step.verb); });
    if (last == steps.rend()) return;
    for (auto step = steps.begin(); step != last.base(); ++step) {
        const VerbInfo& verb = info(step->verb);
        if (!verb.has(trait::wants_cold) || verb.rank != anywhere) continue;
        Finding& finding = report(findings, job, Rule::steps_out_of_order, step->at,
                                  fmt::format("{} comes too early: before {}", quoted(verb.words),
                                              step_words(model, *last)),
                                  "write it behind the last pour: it waits till the wax is cold");
        relate(model, finding, last->at, "this comes first");
    }
}

void check_poured(const Model& model, const Job& job, Findings& findings) {
    const auto steps = model.steps_of(job.recipe);
    Span at = model.blocks[job.recipe].name_at;
    for (const Step& step : steps) {
        if (step.verb == Verb::pour) return;
        // Told at the last step that has to come before a pour.
        if (is_of_wax(step.verb) || step.verb == Verb::stir) at = step.at;
    }
    report(findings, job, Rule::no_pour, at, "the wax is never poured: no step says `pour`",
           "write `pour at … °C` after this");
}

/// A recipe that never melts; one that doesn't melt enough is a limit.
void check_melted(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const auto& steps = reckoning.in.steps;
    const bool melts = std::any_of(steps.begin(), steps.end(),
                                   [](const Step& step) { return step.verb == Verb::melt; });
    if (melts) return;
    const auto end = std::find_if(steps.begin(), steps.end(), [](const Step& step) {
        return step.adds_scent || is_pour(step.verb);
    });
    const Span at = end != steps.end() ? end->at
                    : steps.empty()    ? model.blocks[reckoning.in.job.recipe].name_at
                                       : steps.front().at;
    report(findings, reckoning.in.job, Rule::not_melted, at,
           "nothing melts the wax: no step says `melt`", "write `melt to … °C` in front of this");
}

/// A minute of stirring is common practice as the least that mixes scent into wax.
constexpr double least_stir = 60; // s

void check_stirred(const Model& model, const Job& job, Findings& findings) {
    const auto steps = model.steps_of(job.recipe);
    const Step* scented = nullptr;
    double stirred = 0;
    for (const Step& step : steps) {
        if (step.verb == Verb::pour && scented != nullptr) break;
        if (step.adds_scent) {
            scented = &step;
            stirred = 0;
        } else if (step.verb == Verb::stir) {
            if (!step.duration()) return;
            stirred += step.duration()->value();
        }
    }
    if (scented == nullptr || !under(stirred, least_stir)) return;
    report(findings, job, Rule::no_stir, scented->at,
           stirred > 0 ? fmt::format("the scent is stirred for {} before the pour, under a minute",
                                     show_in(stirred, find_unit("s"), dimension::time))
                       : "nothing stirs the scent before the pour",
           "write `, stir 2 min` after this step: scent that is not mixed in sinks");
}

} // namespace

void report_not_melted(const Model& model, const Reckoning& r, const LimitCheck& check,
                       Findings& findings) {
    const Step& hottest = r.in.steps[check.item];
    const Figure& at = *hottest.temperature();
    const std::string liquid = degrees_like(check.limit, at);
    report(findings, r.in.job, check.rule, hottest.at,
           fmt::format("{} does not melt `{}`, which is all liquid at {}", show(at.quantity),
                       model.name(r.melted_wax), liquid),
           fmt::format("melt to {} or over, and below the ceiling{}", liquid,
                       r.ceiling ? fmt::format(" of {}", degrees_like(*r.ceiling, at)) : ""));
}

void check_order(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Block& block = model.blocks[reckoning.in.job.recipe];
    if (!block.has_steps || block.steps_broken) return;
    check_steps_in_order(model, reckoning.in.job, findings);
    check_added_once(model, reckoning.in.job, findings);
    check_closed_last(model, reckoning.in.job, findings);
    check_poured(model, reckoning.in.job, findings);
    check_melted(model, reckoning, findings);
    check_stirred(model, reckoning.in.job, findings);
}

} // namespace waxwright
