// Which recipe or batch of one version is which of the other.
#pragma once

#include <cstddef>
#include <string>
#include <unordered_map>
#include <vector>

#include "compare/facts.hpp"

namespace waxwright {

inline constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

/// Everything of it but how it is called, as one text.
std::string content_of(const PartFacts& part);
std::string content_of(const SheetFacts& sheet);
/// By what it is paired first: its name, of a batch another one than of a recipe.
std::string key_of(const PartFacts& part);
std::string key_of(const SheetFacts& sheet);

/// "" where it is but the name again.
template <typename Named>
std::string own_title(const Named& each) {
    return each.title == each.name ? std::string() : each.title;
}

/// Which of before each of after is: by name, then by content, then by title. A batch may pour one
/// recipe twice: then they are paired in their order.
template <typename Named>
struct Pairs {
    std::vector<std::size_t> of_after, of_before;

    Pairs(const std::vector<Named>& before, const std::vector<Named>& after,
          const std::unordered_map<std::string, std::string>& renamed)
        : of_after(after.size(), nowhere), of_before(before.size(), nowhere) {
        pair(before, after, [&](const Named& each, bool old) {
            const std::string key = key_of(each);
            const auto now = renamed.find(key);
            return old && now != renamed.end() ? now->second : key;
        });
        pair(before, after, [](const Named& each, bool) { return content_of(each); });
        pair(before, after, [](const Named& each, bool) { return own_title(each); });
    }

private:
    template <typename KeyOf>
    void pair(const std::vector<Named>& before, const std::vector<Named>& after, KeyOf key) {
        std::unordered_map<std::string, std::vector<std::size_t>> left; // the last first
        for (std::size_t i = before.size(); i-- > 0;) {
            if (of_before[i] == nowhere) left[key(before[i], true)].push_back(i);
        }
        left.erase(std::string());
        for (std::size_t i = 0; i < after.size(); ++i) {
            if (of_after[i] != nowhere) continue;
            const auto found = left.find(key(after[i], false));
            if (found == left.end() || found->second.empty()) continue;
            of_after[i] = found->second.back();
            of_before[of_after[i]] = i;
            found->second.pop_back();
        }
    }
};

} // namespace waxwright
