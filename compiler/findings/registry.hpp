// What every rule is called, how grave it is and what family it belongs to: reads rules.def.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace waxwright {

enum class Severity : std::uint8_t { error, warning, note };
// clang-format off
enum class Family : std::uint8_t {
    language, units, names, blend, load, heat, vessel, wick, matter, bench, money, burning,
    label, doubt
};
// clang-format on

enum class Rule : std::uint8_t {
#define RULE(identifier, name, family, severity, hangs_on, reader, about) identifier,
#include "findings/rules.def"
};

/// What of a batch a rule hangs on, so that its lines are looked at anew where the batch says it:
/// the pot (and how it is heated), the thermometer's error, the room, the pot or the spare, or any
/// of pot, scale and spare.
enum class HangsOn : std::uint8_t { nothing, heat, thermometer, room, pot_or_spare, bench };
/// Whom a note is for.
enum class NoteFor : std::uint8_t { writer, stove };

struct RuleInfo {
    Rule rule;
    std::string_view name; // as printed and as `allow` takes it
    Family family;
    Severity severity;
    HangsOn hangs_on;
    NoteFor reader;
    std::string_view about;
};

/// All rules in registry order; the index is the value of Rule.
std::span<const RuleInfo> all_rules();
const RuleInfo& info(Rule rule);
/// The rule of that name, if there is one.
std::optional<Rule> find_rule(std::string_view name);

std::string_view word(Severity severity); // "error", "warning", "note"
std::string_view word(Family family);

} // namespace waxwright
