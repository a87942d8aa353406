// Characters of UTF-8 and how wide a terminal shows them, by utf8proc.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace waxwright {

/// One character of a text. A byte that is no UTF-8 is a character of its own, U+FFFD.
struct Character {
    std::uint32_t code_point;
    std::uint32_t length; // bytes, 1 to 4
    bool good;
};
/// The character at `at`, which is within the text. Strict as RFC 3629 has it: no overlong form, no
/// surrogate, nothing over U+10FFFF.
Character decode_utf8(std::string_view text, std::size_t at);

/// True for the controls of the bidirectional algorithm (UAX #9): they make a text look other than
/// it is, and stand in no recipe.
bool turns_direction(std::uint32_t code_point);

/// Terminal columns of a code point: 2 for East Asian wide and emoji, 0 for marks that sit on the
/// character before and for invisible format characters, else 1. A tab is the caller's affair.
int display_width(std::uint32_t code_point);

/// Offset of the first byte that is not UTF-8, or the length of the text when all of it is.
std::size_t first_bad_utf8(std::string_view text);

} // namespace waxwright
