#include "model/texts.hpp"

#include <cstdint>

#include "source/utf8.hpp"

namespace waxwright {

namespace {

void append_utf8(std::string& text, std::uint32_t scalar) {
    const auto byte = [&](std::uint32_t value) { text += static_cast<char>(value); };
    if (scalar < 0x80) {
        byte(scalar);
    } else if (scalar < 0x800) {
        byte(0xC0 | (scalar >> 6));
        byte(0x80 | (scalar & 0x3F));
    } else if (scalar < 0x10000) {
        byte(0xE0 | (scalar >> 12));
        byte(0x80 | ((scalar >> 6) & 0x3F));
        byte(0x80 | (scalar & 0x3F));
    } else {
        byte(0xF0 | (scalar >> 18));
        byte(0x80 | ((scalar >> 12) & 0x3F));
        byte(0x80 | ((scalar >> 6) & 0x3F));
        byte(0x80 | (scalar & 0x3F));
    }
}

struct Escape {
    std::size_t length;
    std::optional<std::uint32_t> scalar; // nothing: no such escape
};

int hex_value(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

/// `\u{1F56F}`: one to six hexadecimal digits of a scalar value; U+0000 is none, since no text
/// a sheet could print has it.
Escape read_scalar(std::string_view rest) {
    std::size_t at = 3;
    std::uint32_t scalar = 0;
    for (; at < rest.size() && at < 9 && hex_value(rest[at]) >= 0; ++at) {
        scalar = scalar * 16 + static_cast<std::uint32_t>(hex_value(rest[at]));
    }
    const bool closed = at > 3 && at < rest.size() && rest[at] == '}';
    if (!closed) return {std::min<std::size_t>(at, rest.size()), std::nullopt};
    const bool surrogate = scalar >= 0xD800 && scalar < 0xE000;
    const bool refused = scalar == 0 || surrogate || turns_direction(scalar);
    if (refused || scalar > 0x10FFFF) return {at + 1, std::nullopt};
    return {at + 1, scalar};
}

/// The escape a text begins with at a backslash.
Escape read_escape(std::string_view rest) {
    if (rest.size() < 2) return {rest.size(), std::nullopt};
    switch (rest[1]) {
    case '"':
        return {2, '"'};
    case '\\':
        return {2, '\\'};
    case 'n':
        return {2, '\n'};
    case 'u':
        if (rest.size() > 2 && rest[2] == '{') return read_scalar(rest);
        return {2, std::nullopt};
    default:
        return {2, std::nullopt};
    }
}

std::string_view inside_quotes(std::string_view quoted) {
    return quoted.size() < 2 ? std::string_view{} : quoted.substr(1, quoted.size() - 2);
}

} // namespace

std::optional<BadEscape> bad_escape(std::string_view quoted) {
    const std::string_view text = inside_quotes(quoted);
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] != '\\') {
            ++at;
            continue;
        }
        const Escape escape = read_escape(text.substr(at));
        if (!escape.scalar) return BadEscape{at + 1, escape.length};
        at += escape.length;
    }
    return std::nullopt;
}

std::optional<std::string> decoded_text(std::string_view quoted) {
    const std::string_view text = inside_quotes(quoted);
    std::string result;
    result.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] != '\\') {
            result += text[at++];
            continue;
        }
        const Escape escape = read_escape(text.substr(at));
        if (!escape.scalar) return std::nullopt;
        append_utf8(result, *escape.scalar);
        at += escape.length;
    }
    return result;
}

} // namespace waxwright
