#include "reckon/label/classify.hpp"

#include <algorithm>
#include <iterator>
#include <set>

#include <fmt/format.h>

#include "reckon/compare.hpp"
#include "reckon/label/acute.hpp"
#include "reckon/label/label_elements.hpp"

namespace waxwright {

namespace {

bool sensitises(HazardClass hazard) {
    return facts(hazard).named_from > 0;
}

/// Of ingredients that are merged.
std::vector<Sensitiser> sensitisers_among(std::span<const Ingredient> all) {
    std::vector<Sensitiser> result;
    for (const Ingredient& one : all) {
        std::optional<Sensitiser> lowest;
        for (const HazardClass hazard : one.classes) {
            const double from = named_from(one, hazard);
            if (!sensitises(hazard) || (lowest && lowest->from <= from)) continue;
            lowest = {one.name, one.fraction, from, own_limit(one, hazard).has_value(),
                      at_least(one.fraction, from)};
        }
        if (lowest) result.push_back(std::move(*lowest));
    }
    return result;
}

/// Those that may set off somebody who is sensitised already.
std::set<std::string> sensitisers_in(std::span<const Ingredient> ingredients) {
    std::set<std::string> result;
    for (Sensitiser& one : sensitisers_among(ingredients))
        if (one.is_named) result.insert(std::move(one.name));
    return result;
}

/// Those that a reached test counted, of the classes whose substances are named.
std::set<std::string> named_in(std::span<const Worked> worked) {
    std::set<std::string> result;
    for (const Worked& test : worked) {
        if (test.outcome != TestOutcome::reached || !facts(test.gives).names) continue;
        for (const WorkedTerm& term : test.terms)
            if (term.counts) result.insert(term.name);
    }
    return result;
}

void name_substances(Classification& into, std::span<const Ingredient> ingredients) {
    std::set<std::string> named = named_in(into.worked);
    std::set<std::string> sensitisers = sensitisers_in(ingredients);
    if (std::ranges::any_of(into.classes, sensitises)) // named beside the others (Annex II 2.8)
        named.merge(sensitisers);
    else
        into.sensitisers.assign(sensitisers.begin(), sensitisers.end());
    into.named.assign(named.begin(), named.end());
}

void tell_unknown(Classification& into, std::span<const Ingredient> ingredients) {
    into.unknown = unknown_in(ingredients);
    for (const Ingredient& one : ingredients) {
        if (one.unknown) into.unknown_names.push_back(one.name);
        for (const HazardClass hazard : one.classes)
            if (facts(hazard).part == HazardPart::physical)
                into.not_reckoned.push_back({one.name, hazard});
    }
}

/// Of vapour and mist, which are reckoned apart, the graver category stands for all that is
/// inhaled.
void keep_gravest_inhaled(std::set<HazardClass>& classes) {
    const auto first = classes.lower_bound(HazardClass::acute_tox_1_inhalation);
    const auto last = classes.upper_bound(HazardClass::acute_tox_4_inhalation);
    if (first != last) classes.erase(std::next(first), last);
}

} // namespace

namespace {

/// The tests of merged ingredients, the classes that they give and the statements of those.
Classification tested(std::span<const Ingredient> all, const Flow& flow) {
    Classification result;
    result.worked = work_acute(all);
    for (Worked& test : work_sums(all, flow))
        result.worked.push_back(std::move(test));
    std::set<HazardClass> classes;
    for (const Worked& test : result.worked)
        if (test.outcome == TestOutcome::reached) classes.insert(test.gives);
    keep_gravest_inhaled(classes);
    result.classes.assign(classes.begin(), classes.end());
    result.statements = statements_for(result.classes);
    return result;
}

} // namespace

Classification classify(std::span<const Ingredient> ingredients, const Flow& flow) {
    const std::vector<Ingredient> all = merged(ingredients);
    Classification result = tested(all, flow);
    result.signal = signal_for(result.classes);
    result.pictograms = pictograms_for(result.classes);
    result.precautions = precautions_for(result.classes);
    result.for_health = std::ranges::any_of(result.classes, [](HazardClass hazard) {
        return facts(hazard).part != HazardPart::environment;
    });
    name_substances(result, all);
    tell_unknown(result, all);
    return result;
}

std::vector<std::string> codes_of(const Classification& classified) {
    std::vector<std::string> codes;
    for (const Statement one : classified.statements)
        codes.emplace_back(code(one));
    if (!classified.sensitisers.empty()) codes.emplace_back("EUH208");
    return codes;
}

std::vector<std::string> codes_for(std::span<const Ingredient> ingredients) {
    const std::vector<Ingredient> all = merged(ingredients);
    Classification result = tested(all, {});
    if (std::ranges::none_of(result.classes, sensitises))
        for (Sensitiser& one : sensitisers_among(all))
            if (one.is_named) result.sensitisers.push_back(std::move(one.name));
    return codes_of(result);
}

std::vector<Sensitiser> sensitisers_of(std::span<const Ingredient> ingredients) {
    return sensitisers_among(merged(ingredients));
}

std::vector<std::string> without_sentence(std::span<const Ingredient> ingredients,
                                          const Classification& classification) {
    std::set<std::string> names;
    for (const Worked& test : classification.worked) {
        if (test.gives != HazardClass::stot_se_3 || test.outcome != TestOutcome::reached) continue;
        for (const WorkedTerm& term : test.terms)
            if (term.counts) names.insert(term.name);
    }
    std::set<std::string> plain;
    for (const Ingredient& one : ingredients)
        if (std::ranges::count(one.classes, HazardClass::stot_se_3) != 0) plain.insert(one.name);
    std::vector<std::string> both;
    std::ranges::set_intersection(names, plain, std::back_inserter(both));
    return both;
}

std::string euh208(const Classification& classification) {
    if (classification.sensitisers.empty()) return {};
    return fmt::format("Contains {}. May produce an allergic reaction.",
                       fmt::join(classification.sensitisers, ", "));
}

} // namespace waxwright
