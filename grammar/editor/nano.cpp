// The syntax for nano, whose patterns know no classes within a match and do not look ahead: a later
// line paints over an earlier one, so the pieces are painted from the last to the first, and each
// from its whole down to its first stretch.
#include "grammar/editor/colours.hpp"
#include "grammar/editor/formats.hpp"

namespace waxwright::editor {

namespace {

std::string posix(const Pattern& pattern) {
    return render(pattern, Dialect::posix);
}

std::string start(const Piece& piece) {
    switch (piece.start) {
    case Start::line:
        return "^[[:blank:]]*";
    case Start::opening:
        return "(^|\\{)[[:blank:]]*";
    case Start::anywhere:
        break;
    }
    // What stands before a word is painted too: a blank, or a bracket.
    return piece.stretches[0].which == Class::none ? "" : "(^|[^-A-Za-z0-9_.])";
}

std::string gap(Gap which) {
    return which == Gap::none ? "" : posix(which == Gap::blanks ? blanks() : some_blanks());
}

std::string color(Class which, const std::string& pattern) {
    return "color " + std::string(info(which).nano) + " \"" + pattern + "\"\n";
}

std::string lines_of(const Piece& piece) {
    std::string out = "\n# " + std::string(piece.about) + "\n";
    for (std::size_t count = piece.stretches.size(); count > 0; --count) {
        const Stretch& last = piece.stretches[count - 1];
        if (last.which == Class::none) continue;
        std::string pattern = start(piece);
        for (std::size_t at = 0; at < count; ++at) {
            if (at != 0) pattern += gap(piece.stretches[at].gap);
            pattern += posix(piece.stretches[at].pattern);
        }
        const bool blank_next =
            count < piece.stretches.size() && piece.stretches[count].gap == Gap::some_blanks;
        out += color(last.which, pattern + posix(blank_next ? some_blanks() : last.behind));
    }
    return out;
}

} // namespace

std::string nano_syntax() {
    std::string out = "## Candle recipes, for nano. Written by Waxwright's build.\n"
                      "syntax candle \"\\.candle$\"\ncomment \"" +
                      std::string(comment_sign) + "\"\n";
    const std::vector<Piece> all = pieces();
    for (std::size_t number = all.size(); number > 0; --number)
        out += lines_of(all[number - 1]);
    // A text with a comment's sign in it is more common than a comment with a text in it.
    const TextShape shape = text_shape();
    const std::string quote = posix(shape.quote);
    out += "\n# comments and texts\n" + color(Class::comment, posix(comment_shape()));
    out += color(Class::text, quote + "([^\"\\\\]|" + posix(shape.any_escape) + ")*" + quote);
    out += color(Class::comment, "^[[:blank:]]*" + posix(comment_shape()));
    return out;
}

} // namespace waxwright::editor
