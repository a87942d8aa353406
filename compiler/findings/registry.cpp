#include "findings/registry.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace waxwright {

namespace {

constexpr RuleInfo rules[] = {
#define RULE(identifier, name, family, severity, hangs_on, reader, about)                          \
    {Rule::identifier, name, Family::family, Severity::severity, HangsOn::hangs_on,                \
     NoteFor::reader,  about},
#include "findings/rules.def"
};
constexpr std::size_t rule_count = std::size(rules);

/// The rules' indices in the order of their names, to look a name up in.
constexpr auto by_name = [] {
    std::array<std::uint8_t, rule_count> order{};
    for (std::size_t i = 0; i < rule_count; ++i)
        order[i] = static_cast<std::uint8_t>(i);
    std::sort(order.begin(), order.end(),
              [](std::uint8_t a, std::uint8_t b) { return rules[a].name < rules[b].name; });
    return order;
}();

/// The printed name is the identifier with hyphens for underscores.
constexpr bool same_words(std::string_view identifier, std::string_view name) {
    return std::equal(identifier.begin(), identifier.end(), name.begin(), name.end(),
                      [](char a, char b) { return a == '_' ? b == '-' : a == b; });
}

#define RULE(identifier, name, family, severity, hangs_on, reader, about)                          \
    static_assert(same_words(#identifier, name), "rules.def: name and identifier differ");
#include "findings/rules.def"

static_assert(rule_count < 256, "Rule is one byte");
static_assert(std::adjacent_find(by_name.begin(), by_name.end(),
                                 [](std::uint8_t a, std::uint8_t b) {
                                     return rules[a].name == rules[b].name;
                                 }) == by_name.end(),
              "rules.def: a name stands twice");

} // namespace

std::span<const RuleInfo> all_rules() {
    return rules;
}

const RuleInfo& info(Rule rule) {
    return rules[static_cast<std::size_t>(rule)];
}

std::optional<Rule> find_rule(std::string_view name) {
    const auto* found = std::partition_point(by_name.begin(), by_name.end(),
                                             [&](std::uint8_t i) { return rules[i].name < name; });
    if (found == by_name.end() || rules[*found].name != name) return std::nullopt;
    return rules[*found].rule;
}

std::string_view word(Severity severity) {
    switch (severity) {
    case Severity::error:
        return "error";
    case Severity::warning:
        return "warning";
    case Severity::note:
        return "note";
    }
    return "";
}

std::string_view word(Family family) {
    switch (family) {
    case Family::language:
        return "language";
    case Family::units:
        return "units";
    case Family::names:
        return "names";
    case Family::blend:
        return "blend";
    case Family::load:
        return "load";
    case Family::heat:
        return "heat";
    case Family::vessel:
        return "vessel";
    case Family::wick:
        return "wick";
    case Family::matter:
        return "matter";
    case Family::bench:
        return "bench";
    case Family::money:
        return "money";
    case Family::burning:
        return "burning";
    case Family::label:
        return "label";
    case Family::doubt:
        return "doubt";
    }
    return "";
}

} // namespace waxwright
