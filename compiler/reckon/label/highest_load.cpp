#include "reckon/label/highest_load.hpp"

#include <algorithm>
#include <vector>

#include "reckon/compare.hpp"
#include "reckon/label/acute.hpp"
#include "reckon/label/class_facts.hpp"

namespace waxwright {

namespace {

/// What an ingredient adds to a sum, from a load on.
struct Step {
    double from;  // load at which it begins to count
    double slope; // what it adds to the sum for each load
};

void keep_lower(std::optional<LoadLimit>& into, const LoadLimit& other) {
    const bool same_load = into && nearly_equal(into->load, other.load);
    if (same_load)
        into->at_it |= other.at_it;
    else if (!into || other.load < into->load)
        into = other;
}

/// `reached(slope)` is the load at which a sum with that slope reaches its limit. The first so many
/// steps reach it there, or where the last of them begins, if that is later; the lowest load of
/// these is the first at which it is reached.
template <class Reached>
void keep_lowest(std::optional<LoadLimit>& into, std::vector<Step> steps, Reached reached) {
    std::ranges::sort(steps, {}, &Step::from);
    double slope = 0;
    for (const Step& step : steps) {
        slope += step.slope;
        const LoadLimit limit = reached(slope);
        keep_lower(into, under(limit.load, step.from) ? LoadLimit{step.from, true} : limit);
    }
}

void keep_sum(std::optional<LoadLimit>& into, const HazardTest& test,
              std::span<const Ingredient> oil) {
    std::vector<Step> steps;
    for (const Ingredient& one : oil) {
        const auto weighed = weighed_in(test, one);
        if (!weighed) continue;
        if (adds_up(test))
            steps.push_back({weighed->from / one.fraction, weighed->weight * one.fraction});
        else
            keep_lower(into, {weighed->from / one.fraction, true});
    }
    keep_lowest(into, std::move(steps), [&](double slope) {
        return LoadLimit{test.limit / slope, true};
    });
}

/// 1 / (load · slope), or (1 - load · unknown) / (load · slope) once much is unknown, is at most
/// the limit.
LoadLimit acute_reached(double limit, double slope, double unknown) {
    const LoadLimit plain{1 / (limit * slope), true};
    if (!(unknown > 0)) return plain;
    const double much = much_unknown / unknown; // at this load not yet
    const double corrected = 1 / (limit * slope + unknown);
    const LoadLimit result =
        over(corrected, much) ? LoadLimit{corrected, true} : LoadLimit{much, false};
    std::optional<LoadLimit> lower = plain;
    keep_lower(lower, result);
    return *lower;
}

void keep_acute(std::optional<LoadLimit>& into, const RouteFacts& route, int category,
                std::span<const Ingredient> oil) {
    const double limit = route.limits[static_cast<std::size_t>(category - 1)];
    std::vector<Step> steps;
    for (const Ingredient& one : oil)
        if (const auto estimate = estimate_of(route, one))
            steps.push_back({estimate->from / one.fraction, one.fraction / estimate->value});
    keep_lowest(into, std::move(steps),
                [&](double slope) { return acute_reached(limit, slope, unknown_in(oil)); });
}

/// Every acute test that gives the statement; its milder categories have other sentences.
void keep_all_acute(std::optional<LoadLimit>& into, std::string_view statement,
                    std::span<const Ingredient> oil) {
    for (const RouteFacts& route : all_routes())
        for (int category = 1; category <= 4; ++category) {
            const auto hazard =
                static_cast<HazardClass>(static_cast<int>(route.gravest) + category - 1);
            if (code(facts(hazard).statement) == statement) keep_acute(into, route, category, oil);
        }
}

void keep_all_sums(std::optional<LoadLimit>& into, std::string_view statement,
                   std::span<const Ingredient> oil, const Flow& flow) {
    for (const HazardTest& test : hazard_tests()) {
        if (code(facts(test.gives).statement) != statement) continue;
        if (test.group == TestGroup::aspiration && outcome_for(flow) != TestOutcome::reached)
            continue;
        for (const HazardTest& graver : hazard_tests()) { // up to the test itself
            if (graver.group == test.group) keep_sum(into, graver, oil);
            if (&graver == &test) break;
        }
    }
}

void keep_named(std::optional<LoadLimit>& into, std::span<const Ingredient> oil) {
    for (const Ingredient& one : oil)
        for (const HazardClass hazard : one.classes)
            if (const double from = named_from(one, hazard); from > 0)
                keep_lower(into, {from / one.fraction, true});
}

} // namespace

std::optional<LoadLimit> highest_load_without(std::span<const Ingredient> oil,
                                              std::string_view statement, const Flow& flow) {
    const std::vector<Ingredient> all = merged(oil);
    std::optional<LoadLimit> lowest;
    if (statement == "EUH208")
        keep_named(lowest, all);
    else {
        keep_all_acute(lowest, statement, all);
        keep_all_sums(lowest, statement, all, flow);
    }
    if (lowest && over(lowest->load, 1)) return std::nullopt;
    return lowest;
}

} // namespace waxwright
