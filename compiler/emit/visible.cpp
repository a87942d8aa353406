#include "emit/visible.hpp"

#include "source/source.hpp"
#include "source/utf8.hpp"

namespace waxwright {

namespace {

constexpr std::string_view replacement = "\uFFFD";
constexpr std::size_t tab_stop = 8;

bool steers(std::uint32_t c) {
    if (c < 0x20 || (c >= 0x7F && c < 0xA0)) return true; // C0, DEL, C1
    if (c == 0x2028 || c == 0x2029) return true;          // line and paragraph separators
    return turns_direction(c);
}

} // namespace

std::vector<Glyph> visible_characters(std::string_view line) {
    std::vector<Glyph> shown;
    shown.reserve(line.size());
    std::size_t column = 0;
    for (std::size_t at = 0; at < line.size();) {
        const Character character = decode_utf8(line, at);
        const std::uint32_t c = character.code_point;
        Glyph next{replacement, at, character.length, 1, false};
        if (character.good) {
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
