// Filling the tables of TOML. Only for the files that write it: it brings in the whole library.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "units/date.hpp"

// Used from its headers alone and with std::to_chars: its compiled library, and its default, print
// a float with seventeen digits (0.10000000000000001), and the contract is the shortest text.
#undef TOML_HEADER_ONLY
#undef TOML_SHARED_LIB
#define TOML_HEADER_ONLY 1
#define TOML_FLOAT_CHARCONV 1
#include <toml++/toml.h>

namespace waxwright {

inline constexpr auto toml_style =
    toml::format_flags::allow_unicode_strings | toml::format_flags::indent_sub_tables;

inline void put(toml::table& table, std::string_view key, double value) {
    table.insert(key, value == 0 ? 0.0 : value); // no -0.0
}
inline void put(toml::table& table, std::string_view key, std::int64_t value) {
    table.insert(key, value);
}
inline void put(toml::table& table, std::string_view key, std::string_view text) {
    table.insert(key, std::string(text));
}
/// What is unknown is absent.
inline void put(toml::table& table, std::string_view key, const std::optional<double>& value) {
    if (value) put(table, key, *value);
}
inline void put_if_any(toml::table& table, std::string_view key, std::string_view text) {
    if (!text.empty()) put(table, key, text);
}
inline void put_if_any(toml::table& table, std::string_view key, toml::array&& tables) {
    if (!tables.empty()) table.insert(key, std::move(tables));
}

/// An array of tables, or of anything else that `to_value` makes of each.
template <typename Parts, typename ToValue>
toml::array array_of(const Parts& parts, ToValue to_value) {
    toml::array values;
    for (const auto& part : parts)
        values.push_back(to_value(part));
    return values;
}

} // namespace waxwright
