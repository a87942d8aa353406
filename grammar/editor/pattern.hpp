// Patterns as values, and writing them in the dialects of regular expressions that editors read.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace waxwright::editor {

enum class Dialect : std::uint8_t {
    perl,  // Oniguruma and PCRE, in what both read: TextMate grammars, GtkSourceView
    vim,   // with 'magic', to stand between two `/`
    posix, // extended, without looking ahead: nano
};

/// A piece of a pattern. Made by the functions below, and by nothing else.
struct Pattern {
    enum class What : std::uint8_t {
        literal,    // `text` as it stands
        one_of,     // one character of `text`, which is written as inside [ ]
        any_char,   // one character of the line
        blank,      // a space or a tab
        sequence,   // all parts
        any,        // one of the parts; the first that fits, so longer words stand first
        optional,   // its one part, or nothing
        star,       // none or more of it
        plus,       // one or more
        ahead,      // it comes next, and is not taken. POSIX: it is taken
        not_ahead,  // it does not come next. POSIX: not looked at
        word_end,   // no part of a word comes next. POSIX: the character there is taken
        line_start, // here the line begins
        line_end,   // here it ends
    };
    What what;
    std::string text{};
    std::vector<Pattern> parts{};
};

Pattern literal(std::string_view text);
Pattern one_of(std::string_view set);
Pattern any_char();
Pattern blanks();      // none or more
Pattern some_blanks(); // one or more
Pattern sequence(std::vector<Pattern> parts);
Pattern any(std::vector<Pattern> parts);
Pattern optional(Pattern part);
Pattern star(Pattern part);
Pattern plus(Pattern part);
Pattern ahead(Pattern part);
Pattern not_ahead(Pattern part);
Pattern word_end();
Pattern line_start();
Pattern line_end();

/// One of these words, the longest first; a space in a word stands for any blanks.
Pattern any_word(std::vector<std::string_view> words);

/// The pattern as text. It has no capturing groups, except that POSIX knows no others.
std::string render(const Pattern& pattern, Dialect dialect);

} // namespace waxwright::editor
