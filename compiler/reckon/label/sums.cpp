#include "reckon/label/sums.hpp"

#include <algorithm>
#include <bitset>

#include "reckon/compare.hpp"
#include "reckon/label/class_facts.hpp"

namespace waxwright {

namespace {

constexpr auto tests = [] {
    using enum HazardClass;
    return std::to_array<HazardTest>({
#define TEST(group, how, gives, limit, words, source, evidence, ...)                               \
    {TestGroup::group, How::how,           HazardClass::gives, (limit) / 100.0, words,             \
     source,           Evidence::evidence, {{__VA_ARGS__}}},
#include "reckon/label/hazard_tests.def"
#undef TEST
    });
}();

/// mm²/s at 40 °C: what is thicker is not breathed in (from memory of CLP Annex I 3.10.3.3).
constexpr double thickest = 20.5;

/// Its M-factor in a test, if the test takes one.
std::optional<double> m_factor(const Ingredient& one, HazardClass hazard, bool& not_given) {
    std::optional<double> factor;
    if (hazard == HazardClass::aquatic_acute_1)
        factor = positive(one.m_acute);
    else if (hazard == HazardClass::aquatic_chronic_1)
        factor = positive(one.m_chronic);
    else
        return std::nullopt;
    not_given = !factor;
    return factor.value_or(1);
}

Weighed weighed_sum(const HazardTest& test, const Ingredient& one,
                    const HazardTest::Weight& weight) {
    Weighed result{weight.weight, facts(weight.hazard).counts_from};
    bool not_given = false;
    if (const auto m = m_factor(one, weight.hazard, not_given)) {
        result.from /= *m; // 0.1 %/M: CLP Annex I 4.1.3.1
        if (test.how == How::sum_m) {
            result.weight *= *m;
            result.m_not_given = not_given;
        }
        return result;
    }
    if (const auto own = own_limit(one, test.gives)) {
        result.weight = test.limit / *own;
        result.from = std::min(result.from, *own);
        result.own_limit = true;
    }
    return result;
}

} // namespace

std::span<const HazardTest> hazard_tests() {
    return tests;
}

namespace {

bool is_stot_3(HazardClass hazard) {
    using enum HazardClass;
    return hazard == stot_se_3 || hazard == stot_se_3_h335 || hazard == stot_se_3_h336;
}

bool share_a_limit(HazardClass one, HazardClass other) {
    if (facts(one).statement == facts(other).statement) return true;
    const bool plain = one == HazardClass::stot_se_3 || other == HazardClass::stot_se_3;
    return plain && is_stot_3(one) && is_stot_3(other);
}

bool looks_at(const HazardTest& test, std::span<const HazardClass> classes) {
    return std::ranges::any_of(test.weights, [&](const HazardTest::Weight& weight) {
        return weight.weight != 0 && std::ranges::count(classes, weight.hazard) != 0;
    });
}

} // namespace

bool may_not_add_up(std::span<const HazardClass> classes) {
    return std::ranges::any_of(tests, [&](const HazardTest& test) {
        return test.how == How::alone && looks_at(test, classes);
    });
}

bool takes_limit(HazardClass limit, std::span<const HazardClass> classes) {
    return std::ranges::any_of(tests, [&](const HazardTest& test) {
        return test.how != How::sum_m && test.group != TestGroup::aquatic_chronic &&
               share_a_limit(limit, test.gives) && looks_at(test, classes);
    });
}

std::optional<double> own_limit(const Ingredient& one, HazardClass hazard) {
    std::optional<double> lowest;
    for (const SpecificLimit& limit : one.limits)
        if (limit.from > 0 && share_a_limit(limit.hazard, hazard))
            lowest = std::min(limit.from, lowest.value_or(limit.from));
    return lowest;
}

std::optional<Weighed> weighed_in(const HazardTest& test, const Ingredient& one) {
    if (test.how == How::alone && !one.not_additive) return std::nullopt;
    std::optional<Weighed> gravest; // an ingredient counts once
    for (const HazardTest::Weight& weight : test.weights) {
        if (weight.weight == 0 || std::ranges::count(one.classes, weight.hazard) == 0) continue;
        if (adds_up(test)) {
            const Weighed here = weighed_sum(test, one, weight);
            if (!gravest || here.weight > gravest->weight) gravest = here;
        } else {
            const auto own = own_limit(one, test.gives);
            gravest = Weighed{1, own.value_or(test.limit), own.has_value()};
        }
    }
    return gravest;
}

namespace {

/// By the value of HazardClass, which has a byte.
using ClassSet = std::bitset<256>;

/// Most tests look at no class that is there, and are passed over for that.
bool looks_at_any(const HazardTest& test, const ClassSet& there) {
    return std::ranges::any_of(test.weights, [&](const HazardTest::Weight& weight) {
        return weight.weight != 0 && there[static_cast<std::size_t>(weight.hazard)];
    });
}

Worked work(const HazardTest& test, std::span<const Ingredient> ingredients) {
    Worked result;
    result.gives = test.gives;
    result.test = test.words;
    result.adds_up = adds_up(test);
    result.limit = test.limit;
    result.source = test.source;
    result.evidence = test.evidence;
    bool any = false;
    for (const Ingredient& one : ingredients) {
        const auto weighed = weighed_in(test, one);
        if (!weighed) continue;
        const bool counts = at_least(one.fraction, weighed->from);
        const double value = one.fraction * weighed->weight;
        result.terms.push_back({one.name, one.fraction, weighed->weight, value, counts,
                                weighed->from, weighed->own_limit, weighed->m_not_given, false});
        any |= counts;
        if (!result.adds_up)
            result.sum = std::max(result.sum, value);
        else if (counts)
            result.sum += value;
    }
    const bool reached = result.adds_up ? at_least(result.sum, result.limit) : any;
    result.outcome = reached ? TestOutcome::reached : TestOutcome::not_reached;
    return result;
}

} // namespace

TestOutcome outcome_for(const Flow& flow) {
    if (!flow.liquid) return TestOutcome::for_liquids;
    return flow.viscosity && over(*flow.viscosity, thickest) ? TestOutcome::too_thick
                                                             : TestOutcome::reached;
}

double named_from(const Ingredient& one, HazardClass hazard) {
    const double general = facts(hazard).named_from;
    const auto own = own_limit(one, hazard);
    return general > 0 && own ? *own / 10 : general;
}

std::vector<Worked> work_sums(std::span<const Ingredient> ingredients, const Flow& flow) {
    std::vector<Worked> result;
    bool is_given = false; // by an earlier test of the same group
    HazardClass given{};
    ClassSet there;
    for (const Ingredient& one : ingredients)
        for (const HazardClass hazard : one.classes)
            there.set(static_cast<std::size_t>(hazard));
    for (std::size_t i = 0; i < std::size(tests); ++i) {
        if (i == 0 || tests[i].group != tests[i - 1].group) is_given = false;
        if (!looks_at_any(tests[i], there)) continue;
        // Where each STOT SE 3 says its sentence, nothing has to be asked.
        if (tests[i].gives == HazardClass::stot_se_3 &&
            !there[static_cast<std::size_t>(HazardClass::stot_se_3)])
            continue;
        Worked worked = work(tests[i], ingredients);
        if (worked.terms.empty()) continue;
        if (is_given && given != worked.gives)
            worked.outcome = TestOutcome::not_needed;
        else if (tests[i].group == TestGroup::aspiration && worked.outcome == TestOutcome::reached)
            worked.outcome = outcome_for(flow);
        if (worked.outcome == TestOutcome::reached) {
            is_given = true;
            given = worked.gives;
        }
        result.push_back(std::move(worked));
    }
    return result;
}

} // namespace waxwright
