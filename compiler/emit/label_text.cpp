#include "emit/label_text.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

#include "emit/svg_text.hpp"

namespace waxwright {

namespace {

// Advance widths from U+0020 to U+007E in thousandths of the size, as measured in the tables of
// Liberation Sans 1.07; the faces that are made to the same measures have the same.
constexpr std::array<int, 95> regular = {
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333,  278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667,  611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278,  556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,  500, 334, 260, 334, 584};
constexpr std::array<int, 95> bold_face = {
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
    611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
    278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584};

struct Measured {
    std::string_view letter;
    int regular, bold;
};
constexpr std::array others = std::to_array<Measured>({
    {"\u00A0", 278, 278},
    {"°", 400, 400},
    {"·", 278, 278},
    {"×", 584, 584},
    {"–", 556, 556},
    {"—", 1000, 1000},
    {"‘", 222, 278},
    {"’", 222, 278},
    {"“", 333, 500},
    {"”", 333, 500},
    {"…", 1000, 1000},
    {"℮", 600, 600},
    {"•", 350, 350},
});

std::size_t letter_length(std::string_view text) {
    std::size_t length = 1;
    while (length < text.size() && (static_cast<unsigned char>(text[length]) & 0xC0) == 0x80)
        ++length;
    return length;
}

/// Thousandths of the size; 0 where the letter was not measured.
int measured_width(std::string_view letter, bool bold) {
    const auto first = static_cast<unsigned char>(letter[0]);
    if (letter.size() == 1 && first >= 0x20 && first < 0x7F) {
        const std::size_t at = first - std::size_t{0x20};
        return bold ? bold_face[at] : regular[at];
    }
    for (const Measured& each : others)
        if (each.letter == letter) return bold ? each.bold : each.regular;
    return 0;
}

/// As elsewhere, and a little more where it is bold; emoji, among letters of four bytes, are wider.
double estimated_width(std::string_view letter, LetterStyle style) {
    const double width = letter.size() > 3 ? 1.3 * style.size : text_width(letter, style.size);
    return style.bold ? 1.1 * width : width;
}

/// How much of a text from its beginning fits: all of it, or up to a letter.
std::size_t fitting(std::string_view text, double width, LetterStyle style) {
    double used = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t length = letter_length(text.substr(at));
        used += label_width(text.substr(at, length), style);
        if (used > width * (1 + 1e-9)) return at;
        at += length;
    }
    return at;
}

} // namespace

double label_width(std::string_view text, LetterStyle style) {
    double width = 0;
    while (!text.empty()) {
        const std::string_view letter = text.substr(0, letter_length(text));
        const int known = measured_width(letter, style.bold);
        width += known != 0 ? known * style.size / 1000 : estimated_width(letter, style);
        text.remove_prefix(letter.size());
    }
    return width;
}

double widest_word(std::string_view text, LetterStyle style) {
    double widest = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(" \n"), text.size());
        widest = std::max(widest, label_width(text.substr(0, end), style));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return widest;
}

bool is_measured(std::string_view text) {
    while (!text.empty()) {
        const std::string_view letter = text.substr(0, letter_length(text));
        if (measured_width(letter, false) == 0) return false;
        text.remove_prefix(letter.size());
    }
    return true;
}

std::string_view take_line(std::string_view& rest, double width, LetterStyle style) {
    constexpr std::string_view blanks = " \n";
    rest.remove_prefix(std::min(rest.find_first_not_of(blanks), rest.size()));
    std::size_t end = 0; // of the words that fit
    while (end < rest.size()) {
        const std::size_t word = std::min(rest.find_first_not_of(blanks, end), rest.size());
        const std::size_t next = std::min(rest.find_first_of(blanks, word), rest.size());
        if (fitting(rest.substr(0, next), width, style) < next) break;
        end = next;
        if (end < rest.size() && rest[end] == '\n') break;
    }
    // Not even a word fits: as many letters as do, and one at least, so that there is an end.
    if (end == 0 && !rest.empty()) end = std::max(fitting(rest, width, style), letter_length(rest));
    const std::string_view line = rest.substr(0, end);
    rest.remove_prefix(end);
    return line.substr(0, line.find_last_not_of(blanks) + 1);
}

} // namespace waxwright
