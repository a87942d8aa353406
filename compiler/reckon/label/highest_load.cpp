#include "reckon/label/highest_load.hpp"

#include <algorithm>

#include "reckon/compare.hpp"
#include "reckon/label/acute.hpp"
#include "reckon/label/class_facts.hpp"

namespace waxwright {

namespace {

using Line = LoadLimits::Line;
using Part = LoadLimits::Part;
using Mixture = LoadLimits::Mixture;

double fraction_of(std::span<const Ingredient> sorted, std::string_view name) {
    const auto found = std::ranges::lower_bound(sorted, name, {}, &Ingredient::name);
    return found != sorted.end() && found->name == name ? found->fraction : 0;
}

Mixture mixture_of(std::span<const Ingredient> oil, std::span<const Ingredient> rest) {
    const std::vector<Ingredient> of_oil = merged(oil), of_rest = merged(rest);
    std::vector<Ingredient> all = of_oil;
    all.insert(all.end(), of_rest.begin(), of_rest.end());
    Mixture result;
    double known = 0, unknown = 0; // of the oil, of the rest
    for (Ingredient& one : merged(all)) {
        const double in_oil = fraction_of(of_oil, one.name);
        const double in_rest = fraction_of(of_rest, one.name);
        (one.unknown ? unknown : known) += one.unknown ? in_rest : in_oil;
        result.parts.push_back({std::move(one), {in_rest, in_oil - in_rest}});
    }
    result.unknown = {unknown, std::max(1 - known, 0.0) - unknown};
    return result;
}

void keep_lower(std::optional<LoadLimit>& into, const LoadLimit& other) {
    const bool same_load = into && nearly_equal(into->load, other.load);
    if (same_load)
        into->at_it |= other.at_it;
    else if (!into || other.load < into->load)
        into = other;
}

/// An ingredient in a sum: it counts from so much on.
struct Term {
    Line fraction;
    double from, weight;
    bool counts(double load) const { return at_least(fraction.at(load), from); }
};

/// Reached where the sum, and what is unknown once that is much, are the goal or more.
struct Sum {
    std::vector<Term> terms;
    double goal;
    Line unknown{0, 0};

    bool takes_unknown(double load) const { return over(unknown.at(load), much_unknown); }
};

void add_crossing(std::vector<double>& cuts, const Line& line, double limit) {
    const double load = line.slope != 0 ? (limit - line.at_none) / line.slope : -1;
    if (load > 0 && load < 1) cuts.push_back(load);
}

/// The loads at which something begins or ceases to count; between two of them a sum is a line.
std::vector<double> cuts_of(const Sum& sum) {
    std::vector<double> cuts{0, 1};
    for (const Term& term : sum.terms)
        add_crossing(cuts, term.fraction, term.from);
    add_crossing(cuts, sum.unknown, much_unknown);
    std::ranges::sort(cuts);
    return cuts;
}

/// The sum, of all that counts at a load, as a line; nothing if nothing does.
std::optional<Line> line_at(const Sum& sum, double load) {
    Line line{0, 0};
    bool any = false;
    const auto add = [&](const Line& other, double weight) {
        line.at_none += other.at_none * weight;
        line.slope += other.slope * weight;
    };
    for (const Term& term : sum.terms) {
        if (!term.counts(load)) continue;
        any = true;
        add(term.fraction, term.weight);
    }
    if (!any) return std::nullopt;
    if (sum.takes_unknown(load)) add(sum.unknown, 1);
    return line;
}

/// Where a sum first reaches its goal: at a cut, just over it, or where its line before the next.
std::optional<LoadLimit> first_reached(const Sum& sum) {
    if (sum.terms.empty()) return std::nullopt;
    const std::vector<double> cuts = cuts_of(sum);
    for (std::size_t i = 0; i < cuts.size(); ++i) {
        const double here = cuts[i];
        const auto at = line_at(sum, here);
        if (at && at_least(at->at(here), sum.goal)) return LoadLimit{here, true};
        if (i + 1 == cuts.size() || nearly_equal(here, cuts[i + 1])) continue;
        const auto line = line_at(sum, (here + cuts[i + 1]) / 2);
        if (!line) continue;
        if (at_least(line->at(here), sum.goal)) return LoadLimit{here, false};
        if (!(line->slope > 0)) continue;
        const double load = (sum.goal - line->at_none) / line->slope;
        if (load < cuts[i + 1]) return LoadLimit{load, true};
    }
    return std::nullopt;
}

/// Where one ingredient first is so much.
void keep_single(std::optional<LoadLimit>& into, const Line& fraction, double from) {
    if (at_least(fraction.at_none, from))
        keep_lower(into, {0, true});
    else if (fraction.slope > 0)
        keep_lower(into, {(from - fraction.at_none) / fraction.slope, true});
}

void keep_sum(std::optional<LoadLimit>& into, const HazardTest& test, const Mixture& all) {
    Sum sum{{}, test.limit};
    for (const Part& part : all.parts) {
        const auto weighed = weighed_in(test, part.one);
        if (!weighed) continue;
        if (adds_up(test))
            sum.terms.push_back({part.fraction, weighed->from, weighed->weight});
        else
            keep_single(into, part.fraction, weighed->from);
    }
    if (const auto reached = first_reached(sum)) keep_lower(into, *reached);
}

/// (1 - unknown) / sum of fraction/estimate is at most the limit: limit × sum + unknown is 1.
void keep_acute(std::optional<LoadLimit>& into, const RouteFacts& route, int category,
                const Mixture& all) {
    const double limit = route.limits[static_cast<std::size_t>(category - 1)];
    Sum sum{{}, 1, all.unknown};
    for (const Part& part : all.parts)
        if (const auto estimate = estimate_of(route, part.one))
            sum.terms.push_back({part.fraction, estimate->from, limit / estimate->value});
    if (const auto reached = first_reached(sum)) keep_lower(into, *reached);
}

/// Every acute test that gives the statement; its milder categories have other sentences.
void keep_all_acute(std::optional<LoadLimit>& into, std::string_view statement,
                    const Mixture& all) {
    for (const RouteFacts& route : all_routes())
        for (int category = 1; category <= 4; ++category) {
            const auto hazard =
                static_cast<HazardClass>(static_cast<int>(route.gravest) + category - 1);
            if (code(facts(hazard).statement) == statement) keep_acute(into, route, category, all);
        }
}

void keep_all_sums(std::optional<LoadLimit>& into, std::string_view statement, const Mixture& all,
                   const Flow& flow) {
    for (const HazardTest& test : hazard_tests()) {
        if (code(facts(test.gives).statement) != statement) continue;
        if (test.group == TestGroup::aspiration && outcome_for(flow) != TestOutcome::reached)
            continue;
        for (const HazardTest& graver : hazard_tests()) { // up to the test itself
            if (graver.group == test.group) keep_sum(into, graver, all);
            if (&graver == &test) break;
        }
    }
}

void keep_named(std::optional<LoadLimit>& into, const Mixture& all) {
    for (const Part& part : all.parts)
        for (const HazardClass hazard : part.one.classes)
            if (const double from = named_from(part.one, hazard); from > 0)
                keep_single(into, part.fraction, from);
}

} // namespace

LoadLimits::LoadLimits(std::span<const Ingredient> oil, std::span<const Ingredient> rest)
    : all_(mixture_of(oil, rest)) {}

std::optional<LoadLimit> LoadLimits::without(std::string_view statement, const Flow& flow) const {
    std::optional<LoadLimit> lowest;
    if (statement == "EUH208")
        keep_named(lowest, all_);
    else {
        keep_all_acute(lowest, statement, all_);
        keep_all_sums(lowest, statement, all_, flow);
    }
    if (lowest && over(lowest->load, 1)) return std::nullopt;
    return lowest;
}

std::optional<LoadLimit> highest_load_without(std::span<const Ingredient> oil,
                                              std::string_view statement, const Flow& flow,
                                              std::span<const Ingredient> rest) {
    return LoadLimits(oil, rest).without(statement, flow);
}

} // namespace waxwright
