#include <algorithm>
#include <map>
#include <string_view>
#include <tuple>

#include "compare/compare.hpp"

namespace waxwright {

namespace {

using FactKey = std::tuple<Aspect, std::string_view, std::string_view>;

FactKey key_of(const Fact& fact) {
    return {fact.aspect, fact.of, fact.filling};
}

using FactIndex = std::map<FactKey, const Fact*>;

FactIndex index_of(const std::vector<Fact>& facts) {
    FactIndex index;
    for (const Fact& fact : facts)
        index.emplace(key_of(fact), &fact);
    return index;
}

const Fact* found_in(const FactIndex& index, const FactKey& key) {
    const auto found = index.find(key);
    return found == index.end() ? nullptr : found->second;
}

/// True unless it belongs to a filling that the other version doesn't have.
bool of_shared_filling(const Fact& fact, const FactIndex& other) {
    return fact.filling.empty() || other.contains({Aspect::filling, fact.filling, {}});
}

} // namespace

std::vector<FactChange> compare_facts(const std::vector<Fact>& before,
                                      const std::vector<Fact>& after, bool us_units) {
    const FactIndex old_facts = index_of(before);
    const FactIndex new_facts = index_of(after);
    std::vector<FactChange> changes;
    for (const Fact& fact : after) {
        const Fact* const old = found_in(old_facts, key_of(fact));
        if (old == nullptr) {
            if (!of_shared_filling(fact, old_facts)) continue;
            changes.push_back({fact.aspect, fact.of, fact.filling, std::nullopt, fact.value});
        } else if (shown(old->value, us_units) != shown(fact.value, us_units)) {
            changes.push_back({fact.aspect, fact.of, fact.filling, old->value, fact.value});
        }
    }
    for (const Fact& fact : before) {
        if (new_facts.contains(key_of(fact)) || !of_shared_filling(fact, new_facts)) continue;
        changes.push_back({fact.aspect, fact.of, fact.filling, fact.value, std::nullopt});
    }
    std::stable_sort(changes.begin(), changes.end(),
                     [](const FactChange& a, const FactChange& b) { return a.aspect < b.aspect; });
    return changes;
}

} // namespace waxwright
