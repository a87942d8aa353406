// What a recipe file looks like to a program that colours it: patterns, a line each, and nothing
// that remembers one line in the next. Every format of an editor is written from this.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "grammar/editor/classes.hpp"
#include "grammar/editor/pattern.hpp"

namespace waxwright::editor {

/// Where a piece may begin.
enum class Start : std::uint8_t {
    anywhere,
    line,   // at the head of a line, behind blanks
    opening // the same, or behind a `{`
};

enum class Gap : std::uint8_t { none, blanks, some_blanks };

/// A stretch of one class. `behind` looks ahead, and takes nothing.
struct Stretch {
    Class which;
    Pattern pattern;
    Pattern behind = sequence({});
    Gap gap = Gap::blanks; // between the stretch before and this one
};

/// Stretches that stand one behind the other, as `allow` and the name of a rule.
struct Piece {
    std::string_view about; // for the comment above it, where the format has comments
    Start start = Start::anywhere;
    std::vector<Stretch> stretches;
};

/// The pieces; where two fit at the same place, the first of the list counts.
std::vector<Piece> pieces();

/// A text in quotes: from one `quote` to the next in the line, or to the line's end.
struct TextShape {
    Pattern quote;
    Pattern escape;     // one that the language has
    Pattern any_escape; // whatever stands behind a backslash, a quote above all
};
TextShape text_shape();

/// From its sign to the end of the line.
Pattern comment_shape();
inline constexpr std::string_view comment_sign = "#";

/// A word: a name, or what could be one. Letters, digits and hyphens within it.
Pattern word_shape();

} // namespace waxwright::editor
