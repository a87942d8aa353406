#include "grammar/editor/pattern.hpp"

#include <algorithm>
#include <utility>

namespace waxwright::editor {

namespace {

using What = Pattern::What;

Pattern around(What what, Pattern part) {
    Pattern made{what};
    made.parts.push_back(std::move(part));
    return made;
}

std::string escaped(std::string_view text, std::string_view special) {
    std::string out;
    for (const char c : text) {
        if (special.find(c) != std::string_view::npos) out += '\\';
        out += c;
    }
    return out;
}

std::string group(const std::string& inside, Dialect dialect) {
    switch (dialect) {
    case Dialect::perl:
        return "(?:" + inside + ")";
    case Dialect::vim:
        return "\\%(" + inside + "\\)";
    case Dialect::posix:
        break;
    }
    return "(" + inside + ")";
}

/// Nothing has to be put round these before `*` stands behind them.
bool is_one_piece(const Pattern& pattern) {
    switch (pattern.what) {
    case What::one_of:
    case What::any_char:
    case What::blank:
    case What::any:
        return true;
    case What::literal:
        return pattern.text.size() == 1;
    default:
        return false;
    }
}

std::string repeated(const Pattern& part, const char* perl, const char* vim, Dialect dialect) {
    const std::string inside = render(part, dialect);
    return (is_one_piece(part) ? inside : group(inside, dialect)) +
           (dialect == Dialect::vim ? vim : perl);
}

std::string rendered_any(const Pattern& pattern, Dialect dialect) {
    std::string inside;
    for (const Pattern& part : pattern.parts) {
        if (!inside.empty()) inside += dialect == Dialect::vim ? "\\|" : "|";
        inside += render(part, dialect);
    }
    return group(inside, dialect);
}

std::string looked_ahead(const Pattern& part, bool is_there, Dialect dialect) {
    const std::string inside = render(part, dialect);
    switch (dialect) {
    case Dialect::perl:
        return (is_there ? "(?=" : "(?!") + inside + ")";
    case Dialect::vim:
        return group(inside, dialect) + (is_there ? "\\@=" : "\\@!");
    case Dialect::posix:
        break;
    }
    return is_there ? inside : "";
}

} // namespace

Pattern literal(std::string_view text) {
    return {What::literal, std::string(text)};
}
Pattern one_of(std::string_view set) {
    return {What::one_of, std::string(set)};
}
Pattern any_char() {
    return {What::any_char};
}
Pattern blanks() {
    return star({What::blank});
}
Pattern some_blanks() {
    return plus({What::blank});
}
Pattern sequence(std::vector<Pattern> parts) {
    return {What::sequence, {}, std::move(parts)};
}
Pattern any(std::vector<Pattern> parts) {
    return {What::any, {}, std::move(parts)};
}
Pattern optional(Pattern part) {
    return around(What::optional, std::move(part));
}
Pattern star(Pattern part) {
    return around(What::star, std::move(part));
}
Pattern plus(Pattern part) {
    return around(What::plus, std::move(part));
}
Pattern ahead(Pattern part) {
    return around(What::ahead, std::move(part));
}
Pattern not_ahead(Pattern part) {
    return around(What::not_ahead, std::move(part));
}
Pattern word_end() {
    return {What::word_end};
}
Pattern line_start() {
    return {What::line_start};
}
Pattern line_end() {
    return {What::line_end};
}

Pattern any_word(std::vector<std::string_view> words) {
    std::sort(words.begin(), words.end(), [](std::string_view a, std::string_view b) {
        return a.size() != b.size() ? a.size() > b.size() : a < b;
    });
    words.erase(std::unique(words.begin(), words.end()), words.end());
    std::vector<Pattern> choices;
    for (std::string_view word : words) {
        std::vector<Pattern> pieces;
        for (auto space = word.find(' '); space != word.npos; space = word.find(' ')) {
            pieces.push_back(literal(word.substr(0, space)));
            pieces.push_back(some_blanks());
            word.remove_prefix(space + 1);
        }
        pieces.push_back(literal(word));
        choices.push_back(sequence(std::move(pieces)));
    }
    return any(std::move(choices));
}

std::string render(const Pattern& pattern, Dialect dialect) {
    switch (pattern.what) {
    case What::literal:
        return escaped(pattern.text, dialect == Dialect::vim ? "\\*.^$[]~/" : "\\^$.|?*+()[]{}");
    case What::one_of:
        return "[" + pattern.text + "]";
    case What::any_char:
        return ".";
    case What::blank:
        return dialect == Dialect::perl  ? "[ \\t]"
               : dialect == Dialect::vim ? "\\s"
                                         : "[[:blank:]]";
    case What::sequence: {
        std::string all;
        for (const Pattern& part : pattern.parts)
            all += render(part, dialect);
        return all;
    }
    case What::any:
        return rendered_any(pattern, dialect);
    case What::optional:
        return repeated(pattern.parts[0], "?", "\\=", dialect);
    case What::star:
        return repeated(pattern.parts[0], "*", "*", dialect);
    case What::plus:
        return repeated(pattern.parts[0], "+", "\\+", dialect);
    case What::ahead:
        return looked_ahead(pattern.parts[0], true, dialect);
    case What::not_ahead:
        return looked_ahead(pattern.parts[0], false, dialect);
    case What::word_end:
        if (dialect == Dialect::posix) return "([^-A-Za-z0-9_]|$)";
        return looked_ahead(sequence({star(literal("-")), one_of("A-Za-z0-9_")}), false, dialect);
    case What::line_start:
        return "^";
    case What::line_end:
        return "$";
    }
    return {};
}

} // namespace waxwright::editor
