// The words of a label: how wide they are, and where a line of them ends.
#pragma once

#include <string_view>

namespace waxwright {

struct LetterStyle {
    double size; // of the face, mm
    bool bold = false;
};

/// Parts of a face's size, the least among common sans-serif faces: Liberation Sans has 0.528 and
/// 0.688, and what is made to other measures has a little less (from memory of one with 0.519).
inline constexpr double x_height_share = 0.51, figure_share = 0.68;

/// mm, as measured in a face of the commonest measures; letters that were not measured are
/// estimated, on the wide side.
double label_width(std::string_view text, LetterStyle style);
/// mm of the widest of its words.
double widest_word(std::string_view text, LetterStyle style);
/// True if none of its letters is estimated.
bool is_measured(std::string_view text);
/// The next line of a text that is no wider than `width`, mm, and `rest` without it. Words stay
/// whole where one fits; a no-break space doesn't end one. "" at the end of the text.
std::string_view take_line(std::string_view& rest, double width, LetterStyle style);

} // namespace waxwright
