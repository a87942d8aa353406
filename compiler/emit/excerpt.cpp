#include "emit/excerpt.hpp"

#include <algorithm>
#include <vector>

#include "emit/visible.hpp"

namespace waxwright {

namespace {

constexpr std::size_t indent = 4;
constexpr std::size_t widest = 96;        // columns of the line; with the indent it's 100
constexpr std::size_t before_in_cut = 32; // columns kept before the span where the line is cut
constexpr std::string_view cut = "…";
// Of a line longer than this only a stretch is looked at, so that a file that is one line of
// megabytes with a fault in each word does not take for ever.
constexpr std::size_t longest_line = 1024; // bytes

/// Columns [begin, end), from 0.
struct Columns {
    std::size_t begin;
    std::size_t end;
};

/// The span's columns in its first line; one column where it is empty or past the end.
Columns marked(const std::vector<Glyph>& line, std::size_t begin, std::size_t end) {
    std::size_t column = 0;
    Columns columns{0, 0};
    bool found = false;
    for (const Glyph& c : line) {
        const bool within = c.offset + c.length > begin && c.offset < std::max(end, begin + 1);
        if (within && !found) columns.begin = column;
        found = found || within;
        column += c.width;
        if (within) columns.end = column;
    }
    if (!found) columns = {column, column};
    columns.end = std::max(columns.end, columns.begin + 1);
    // An empty span marks the place before a character, which may be wide: one sign is enough.
    if (end <= begin) columns.end = columns.begin + 1;
    return columns;
}

/// What of the line is shown, around the span.
Columns window(std::size_t width, const Columns& span) {
    if (width <= widest) return {0, width};
    std::size_t begin = span.begin > before_in_cut ? span.begin - before_in_cut : 0;
    begin = std::min(begin, std::max(width, span.end) - widest);
    return {begin, begin + widest};
}

/// A part of a line that begins and ends between characters.
struct Piece {
    std::string_view text;
    std::size_t offset;
};

Piece around(std::string_view line, std::size_t at) {
    if (line.size() <= longest_line) return {line, 0};
    const auto is_within = [&](std::size_t i) {
        return i < line.size() && (static_cast<unsigned char>(line[i]) & 0xC0u) == 0x80;
    };
    constexpr std::size_t half = longest_line / 2;
    std::size_t begin = at > half ? at - half : 0;
    std::size_t end = std::min(at + half, line.size());
    // Bytes that are no UTF-8 may go on being "within" for ever; four are enough.
    for (int i = 0; i < 4 && is_within(begin) && begin < at; ++i)
        ++begin;
    for (int i = 0; i < 4 && is_within(end); ++i)
        ++end;
    return {line.substr(begin, end - begin), begin};
}

/// The characters that lie wholly within the window, and blanks for what is left of one.
void append_line(std::string& out, const std::vector<Glyph>& line, const Columns& window) {
    std::size_t column = 0;
    for (const Glyph& c : line) {
        const std::size_t begin = std::max(column, window.begin);
        const std::size_t end = std::min(column + c.width, window.end);
        const bool whole = column >= window.begin && column + c.width <= window.end;
        column += c.width;
        if (whole && !c.tab) {
            out += c.text;
        } else if (end > begin) {
            out.append(end - begin, ' ');
        }
    }
}

} // namespace

void append_excerpt(std::string& out, const Source& source, Span span, std::string_view paint,
                    std::string_view plain) {
    const Place place = source.place(span.begin);
    const std::string_view whole = source.line(place.line);
    const Piece piece = around(whole, place.byte - 1);
    const std::vector<Glyph> line = visible_characters(piece.text);
    const std::size_t begin = place.byte - 1 - piece.offset;
    const Columns mark = marked(line, begin, begin + (span.end - span.begin));
    std::size_t width = 0;
    for (const Glyph& c : line)
        width += c.width;
    const Columns shown = window(width, mark);

    // A cut takes a column of the window.
    const bool cut_before = shown.begin > 0 || piece.offset > 0;
    const bool cut_behind = shown.end < width || piece.offset + piece.text.size() < whole.size();
    out.append(indent, ' ');
    if (cut_before) out += cut;
    append_line(out, line, {shown.begin + cut_before, shown.end - cut_behind});
    if (cut_behind) {
        out += cut;
    } else {
        out.erase(out.find_last_not_of(' ') + 1);
    }

    const std::size_t mark_begin = std::max(mark.begin, shown.begin);
    const std::size_t mark_end = std::max(std::min(mark.end, shown.end), mark_begin + 1);
    out += '\n';
    out.append(indent + mark_begin - shown.begin, ' ');
    out += paint;
    out.append(mark_end - mark_begin, '=');
    out.append(plain) += '\n';
}

} // namespace waxwright
