// Text work of the phrase book: a line's blanks, units and commas, and the block it stands in.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "model/schema.hpp"

namespace waxwright {

constexpr bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}
constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
/// The small letter of an ASCII capital; any other byte as it is.
constexpr char small(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
constexpr bool is_letter(char c) {
    return small(c) >= 'a' && small(c) <= 'z';
}
/// True for what a name may be: small letters, digits and hyphens behind a letter.
bool is_kebab(std::string_view name);
/// Without the blanks at its two ends.
std::string_view trimmed(std::string_view text);
/// The words with hyphens for the blanks between them, in small letters: `My  Jar` is `my-jar`.
std::string joined_by_hyphens(std::string_view words);

/// What a maker may call a block of that kind, where no name is known: `my-wax`, `my-jar`.
std::string usual_name(BlockKind kind);

/// The line with one blank for several; texts and a comment stay as they are.
std::string squeezed(std::string_view line);
/// The same with the language's own units behind numbers, where their word can't be another
/// (`3 inches` is `3 in`, `2 ounces` are `2 oz`), and a point for a decimal comma.
std::string neat_line(std::string_view line);

/// A figure's text with a blank between its number and its unit: `5kg` is `5 kg`, `8 %` is `8%`.
std::string spaced(std::string_view figure);

/// True for a number in digits, with a point or without.
bool is_number(std::string_view text);
/// True for digits alone.
bool is_whole(std::string_view text);
/// The first word of a text, which is cut from it with the blanks behind it.
std::string_view cut_word(std::string_view& text);
/// `24` or `5 kg`, cut from the text's beginning; empty, and nothing cut, where it has none.
std::string cut_amount(std::string_view& text);

/// True for the code of a currency that many makers' prices are in.
bool is_common_currency(std::string_view code);
/// The code of the currency that a file's prices are in: what it declares, or its first sign or
/// code; empty of a file without any.
std::string_view currency_shown(std::string_view text);

/// The block that a place of a file stands in, by its text alone, since the line may be broken.
struct BlockAround {
    BlockKind kind = BlockKind::unknown;
    std::string_view lines{}; // from its head to its end; no more than the nearest ones

    /// True if it has a line that begins with this key.
    bool has(std::string_view key) const;
};
BlockAround block_around(std::string_view text, std::size_t at);

} // namespace waxwright
