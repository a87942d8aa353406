#include "emit/visible.hpp"

#include "source/source.hpp"
#include "source/width.hpp"

namespace waxwright {

namespace {

constexpr std::string_view replacement = "\uFFFD";
constexpr std::size_t tab_stop = 8;

bool steers(std::uint32_t c) {
    if (c < 0x20 || (c >= 0x7F && c < 0xA0)) return true;       // C0, DEL, C1
    if (c == 0x2028 || c == 0x2029) return true;                // line and paragraph separators
    if (c == 0x061C || c == 0x200E || c == 0x200F) return true; // marks of direction
    return (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

/// The character at `at` of a text that is UTF-8 from there to the character's end.
std::uint32_t decode(std::string_view text, std::size_t at, std::size_t& length) {
    const auto lead = static_cast<unsigned char>(text[at]);
    length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    if (length == 1) return lead;
    std::uint32_t c = lead & (0x7Fu >> length);
    for (std::size_t i = 1; i < length; ++i) {
        c = c << 6 | (static_cast<unsigned char>(text[at + i]) & 0x3Fu);
    }
    return c;
}

} // namespace

std::vector<Glyph> visible_characters(std::string_view line) {
    std::vector<Glyph> shown;
    shown.reserve(line.size());
    std::size_t column = 0;
    std::size_t bad = first_bad_utf8(line);
    for (std::size_t at = 0; at < line.size();) {
        Glyph next{replacement, at, 1, 1, false};
        if (at == bad) {
            bad = at + 1 + first_bad_utf8(line.substr(at + 1));
        } else {
            const std::uint32_t c = decode(line, at, next.length);
            if (c == '\t') {
                next.text = line.substr(at, 1);
                next.width = tab_stop - column % tab_stop;
                next.tab = true;
            } else if (!steers(c)) {
                next.text = line.substr(at, next.length);
                next.width = static_cast<std::size_t>(display_width(c));
            }
        }
        at += next.length;
        column += next.width;
        shown.push_back(next);
    }
    return shown;
}

void append_visible(std::string& out, std::string_view text) {
    // Most texts are plain ASCII, and need no look at each character.
    bool plain = true;
    for (const char c : text)
        plain = plain && c >= 0x20 && c < 0x7F;
    if (plain) {
        out += text;
        return;
    }
    for (const Glyph& c : visible_characters(text)) {
        const char original = text[c.offset];
        const bool blank = original == '\t' || original == '\n' || original == '\r';
        out += blank ? std::string_view(" ") : c.text;
    }
}

} // namespace waxwright
