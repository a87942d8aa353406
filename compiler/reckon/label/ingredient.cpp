#include "reckon/label/ingredient.hpp"

#include <algorithm>
#include <map>

#include "reckon/number.hpp"

namespace waxwright {

namespace {

void keep_highest(std::optional<double>& into, const std::optional<double>& other) {
    if (other && (!into || *other > *into)) into = other;
}

void add_to(Ingredient& into, const Ingredient& other) {
    into.unknown |= other.unknown;
    into.not_additive |= other.not_additive;
    into.additivity_unsaid |= other.additivity_unsaid;
    into.classes.insert(into.classes.end(), other.classes.begin(), other.classes.end());
    into.limits.insert(into.limits.end(), other.limits.begin(), other.limits.end());
    into.estimates.insert(into.estimates.end(), other.estimates.begin(), other.estimates.end());
    keep_highest(into.m_acute, other.m_acute);
    keep_highest(into.m_chronic, other.m_chronic);
}

} // namespace

namespace {

/// They are what merged() makes of them: nothing of it is done again.
bool are_merged(std::span<const Ingredient> all) {
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!positive(all[i].fraction) || (i > 0 && !(all[i - 1].name < all[i].name))) return false;
        if (!std::ranges::is_sorted(all[i].classes)) return false;
    }
    return true;
}

} // namespace

namespace {

/// In the order of their names, with what isn't there left out and classes in order.
std::vector<Ingredient> in_order(std::span<const Ingredient> ingredients) {
    std::vector<Ingredient> result;
    result.reserve(ingredients.size());
    for (const Ingredient& one : ingredients)
        if (positive(one.fraction)) result.push_back(one);
    std::ranges::sort(result, {}, &Ingredient::name);
    for (Ingredient& one : result) {
        std::ranges::sort(one.classes);
        one.classes.erase(std::unique(one.classes.begin(), one.classes.end()), one.classes.end());
    }
    return result;
}

} // namespace

std::vector<Ingredient> merged(std::span<const Ingredient> ingredients) {
    if (are_merged(ingredients)) return {ingredients.begin(), ingredients.end()};
    // Where each name is there once, as is usual, there is nothing to add up.
    std::vector<Ingredient> sorted = in_order(ingredients);
    if (std::ranges::adjacent_find(sorted, {}, &Ingredient::name) == sorted.end()) return sorted;
    std::map<std::string, std::pair<Ingredient, std::vector<double>>> by_name;
    for (const Ingredient& one : ingredients) {
        if (!positive(one.fraction)) continue;
        auto& [whole, fractions] = by_name[one.name];
        add_to(whole, one);
        fractions.push_back(one.fraction);
    }
    std::vector<Ingredient> result;
    for (auto& [name, found] : by_name) {
        auto& [whole, fractions] = found;
        whole.name = name;
        std::sort(fractions.begin(), fractions.end()); // a sum that no order of oils changes
        for (const double fraction : fractions)
            whole.fraction += fraction;
        std::sort(whole.classes.begin(), whole.classes.end());
        whole.classes.erase(std::unique(whole.classes.begin(), whole.classes.end()),
                            whole.classes.end());
        result.push_back(std::move(whole));
    }
    return result;
}

double unknown_in(std::span<const Ingredient> ingredients) {
    double known = 0;
    for (const Ingredient& one : ingredients)
        if (!one.unknown) known += one.fraction;
    return known > 1 || nearly_equal(known, 1) ? 0 : 1 - known;
}

} // namespace waxwright
