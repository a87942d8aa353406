// Text of unknown origin made fit for a terminal.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace waxwright {

/// One character as it may be shown. Whatever would steer the terminal rather than be seen (control
/// characters, marks that turn the writing direction) and every byte that is no UTF-8 is U+FFFD.
struct Glyph {
    std::string_view text; // of the original, or a constant
    std::size_t offset;    // byte of the original
    std::size_t length;    // bytes of the original
    std::size_t width;     // terminal columns; a tab's depends on where it stands
    bool tab;
};

/// The characters of one line; a tab goes to the next of the stops that stand every 8 columns.
std::vector<Glyph> visible_characters(std::string_view line);

/// Appends a text so that it stays on one line: line ends and tabs become blanks.
void append_visible(std::string& out, std::string_view text);

} // namespace waxwright
