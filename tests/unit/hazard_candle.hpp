// Candles for the tests of the label's arithmetic.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "reckon/label/classify.hpp"

namespace waxwright::tests {

using C = HazardClass;

/// An ingredient of so many percent.
inline Ingredient of(std::string name, double percent, std::vector<HazardClass> classes) {
    Ingredient one;
    one.name = std::move(name);
    one.fraction = percent / 100;
    one.classes = std::move(classes);
    return one;
}

inline Ingredient with_m(Ingredient one, double m) {
    one.m_acute = one.m_chronic = m;
    return one;
}

inline Ingredient with_limit(Ingredient one, HazardClass hazard, double percent) {
    one.limits.push_back({hazard, percent / 100});
    return one;
}

inline Ingredient with_estimate(Ingredient one, Route route, double value) {
    one.estimates.push_back({route, value});
    return one;
}

inline Ingredient not_additive(Ingredient one) {
    one.not_additive = true;
    return one;
}

inline Ingredient unknown(std::string name, double percent) {
    Ingredient one = of(std::move(name), percent, {});
    one.unknown = true;
    return one;
}

/// The rest is wax without a class.
inline std::vector<Ingredient> candle(std::vector<Ingredient> of_it) {
    double rest = 100;
    for (const Ingredient& one : of_it)
        rest -= one.fraction * 100;
    of_it.push_back(of("wax", rest, {}));
    return of_it;
}

inline Classification classified(std::vector<Ingredient> of_it) {
    return classify(candle(std::move(of_it)));
}

/// "H317 H411": the statements of the label.
inline std::string codes(const Classification& all) {
    std::string result;
    for (const Statement one : all.statements)
        result += (result.empty() ? "" : " ") + std::string(code(one));
    return result;
}

inline std::string codes_of(std::vector<Ingredient> of_it) {
    return codes(classified(std::move(of_it)));
}

/// "A B"
inline std::string joined(const std::vector<std::string>& names) {
    std::string result;
    for (const std::string& name : names)
        result += (result.empty() ? "" : " ") + name;
    return result;
}

/// The test that would give a class; the first of several.
inline const Worked* test_for(const Classification& all, HazardClass hazard) {
    const auto found = std::ranges::find(all.worked, hazard, &Worked::gives);
    return found == all.worked.end() ? nullptr : &*found;
}

} // namespace waxwright::tests
