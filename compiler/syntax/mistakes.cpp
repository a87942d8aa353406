#include "syntax/mistakes.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "source/utf8.hpp"
#include "syntax/slip_fixes.hpp"

namespace waxwright {

namespace {

bool is_word_char(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
}

/// The token at an offset: a word or number, else one character with its continuation bytes; empty
/// at the end of a line. In a `number` points and commas count.
std::string_view token_at(std::string_view text, std::uint32_t offset, bool number) {
    std::size_t end = offset;
    const auto in_number = [&](char c) { return (c >= '0' && c <= '9') || c == '.' || c == ','; };
    while (end < text.size() && (number ? in_number(text[end]) : is_word_char(text[end]))) {
        ++end;
    }
    if (end == offset && end < text.size() && text[end] != '\n' && text[end] != '\r') {
        ++end;
        while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) {
            ++end;
        }
    }
    return text.substr(offset, end - offset);
}

/// True if a blank stands on each side of the one byte at `offset`.
bool stands_alone(std::string_view text, std::uint32_t offset) {
    const auto is_white = [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; };
    return offset > 0 && is_white(text[offset - 1]) &&
           (offset + 1 >= text.size() || is_white(text[offset + 1]));
}

/// The lower-case word that ends, before blanks, at `offset`; empty if something else does.
std::string_view word_before(std::string_view text, std::uint32_t offset) {
    std::size_t end = offset;
    while (end > 0 && (text[end - 1] == ' ' || text[end - 1] == '\t'))
        --end;
    std::size_t begin = end;
    while (begin > 0 && is_word_char(text[begin - 1]))
        --begin;
    const bool letter = begin < end && text[begin] >= 'a' && text[begin] <= 'z';
    return end == offset || !letter ? std::string_view{} : text.substr(begin, end - begin);
}

/// The same for what a line goes on with where it should have ended.
std::string stray_hint(std::string_view text, std::uint32_t offset, std::string_view found) {
    const char first = found.empty() ? ' ' : found.front();
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    const bool between_digits = offset > 0 && is_digit(text[offset - 1]) &&
                                offset + 1 < text.size() && is_digit(text[offset + 1]);
    if (between_digits && (first == '-' || first == '/')) {
        return "a range is written 75 to 80 °C, a mixed number 2 3/4, a date 2026-12-05";
    }
    if (found == "+" || found == "*" || found == "/" || found == "-") {
        return stands_alone(text, offset) ? "" : "an operator has a space on each side";
    }
    if (found == "/" && text.substr(offset, 2) == "//") return "a comment begins with #";
    if (found == ".") return "a number ends in a digit: 200, or 200.0";
    if (found == ")") return "there is nothing for this `)` to close: take it away";
    if (found == "{" || found == "}")
        return "a brace goes at the end of a line, or on a line of its own";
    if (!is_word_char(first) || first == '-') return {};
    const std::size_t behind = text.find_first_not_of(" \t", offset + found.size());
    if (behind != std::string_view::npos && text[behind] == ':') {
        return is_digit(first) ? "a time has two digits on each side: 09:00"
                               : "put a `,` between properties on one line";
    }
    if (is_digit(first)) return {};
    const std::string_view before = word_before(text, offset);
    if (!before.empty() && (found == "wax" || found == "total" || found == "water")) {
        return fmt::format("write `of {}`", found);
    }
    constexpr std::array<std::string_view, 8> joints{"the", "a",    "an", "and",
                                                     "or",  "with", "to", "of"};
    const bool joins = std::find(joints.begin(), joints.end(), before) != joints.end();
    if (!before.empty() && !joins) {
        return fmt::format(
            "a name is one word, its parts joined by hyphens: `{}-{}`; a text goes in quotes",
            before, found);
    }
    return "a name is one word, its parts joined by hyphens; a text goes in quotes";
}

/// A hint for what people often write instead; empty where there is nothing special to say.
std::string slip_hint(std::string_view text, std::uint32_t offset, std::string_view found,
                      grammar::Expectation expected) {
    using enum grammar::Expectation;
    const std::string_view here = text.substr(offset);
    if (here.starts_with("...") || here.starts_with("…")) {
        return "write your figure in place of the dots";
    }
    if (found == ";") return "a line ends without `;`";
    if (found == "°" || found == "º" || found == "˚")
        return "write the degree sign before the letter: 75 °C";
    if (found == "“" || found == "”" || found == "„") return "write straight quotes: \"";
    if (found == "'") return "a text goes in double quotes: \"…\"";
    if (found == "×") return "write `*`, with a space on each side";
    if (found == "=" && (expected == colon || expected == line_end)) {
        return "a property is written `key: value`; `=` is for `let`";
    }
    if (!found.empty() && first_bad_utf8(found) < found.size()) return "save the file as UTF-8";
    if (found == "{" && (expected == colon || expected == value)) {
        return "inside a block only `steps {` opens another";
    }
    if (found == "-" && (expected == value || expected == operand)) {
        return "a minus goes right before its number: -5 °C";
    }
    if (expected == value && !found.empty() && found != "#") {
        return "a value is a number with its unit, a name (lower-case ASCII words joined by "
               "hyphens) or a text in quotes";
    }
    if (expected == statement) {
        constexpr std::array<std::string_view, 4> words{"language", "use", "let", "currency"};
        return did_you_mean(found, words);
    }
    if (expected == line_end) return stray_hint(text, offset, found);
    return {};
}

/// Where the text begins that is still open at `offset`; texts never go over lines.
std::uint32_t open_quote(std::string_view text, std::uint32_t offset) {
    const std::size_t line_end = text.find_last_of("\r\n", offset == 0 ? 0 : offset - 1);
    std::size_t at = line_end == std::string_view::npos ? 0 : line_end + 1;
    std::size_t quote = offset;
    for (bool open = false; at < offset; ++at) {
        if (open && text[at] == '\\') {
            ++at;
        } else if (text[at] == '"') {
            open = !open;
            quote = at;
        }
    }
    return static_cast<std::uint32_t>(quote);
}

/// The start of the line behind the last text before `offset`: where a lost `}` stood.
std::uint32_t line_behind(std::string_view text, std::uint32_t offset) {
    std::size_t at = offset;
    const auto is_white = [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; };
    while (at > 0 && is_white(text[at - 1])) {
        --at;
    }
    const std::size_t line_end = text.find('\n', at);
    if (line_end == std::string_view::npos || line_end >= text.size() - 1) {
        return static_cast<std::uint32_t>(at);
    }
    return static_cast<std::uint32_t>(std::min<std::size_t>(line_end + 1, offset));
}

/// The block or the steps a mark belongs to: the next such node up that holds it.
NodeId owner(const Tree& tree, NodeId mark) {
    for (NodeId id = mark + 1; id < tree.nodes.size(); ++id) {
        const Kind kind = tree.kind(id);
        const bool holds = id + 1 - tree.nodes[id].size <= mark;
        if (holds && (kind == Kind::block || kind == Kind::steps)) return id;
    }
    return tree.root();
}

/// What stands between the beginning of a line and a place in it, where that is blanks alone.
std::optional<std::string_view> indentation(std::string_view text, std::uint32_t at) {
    const std::size_t before = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
    const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
    const std::string_view blanks = text.substr(begin, at - begin);
    if (blanks.find_first_not_of(" \t") != std::string_view::npos) return std::nullopt;
    return blanks;
}

/// The last `}` of a block whose steps lack theirs closes them; that it stands under the block's
/// head tells which is missing, and a line for it in front of this one mends it.
void offer_brace_of_steps(const Tree& tree, NodeId block, std::string_view text, Finding& finding) {
    for (const NodeId member : tree.children(block)) {
        if (tree.kind(member) != Kind::steps) continue;
        const std::size_t last = text.substr(0, tree.nodes[member].end).find_last_not_of(" \t\r\n");
        if (last == std::string_view::npos || text[last] != '}') continue;
        const auto end = static_cast<std::uint32_t>(last + 1);
        const auto head = indentation(text, tree.nodes[block].begin);
        const auto steps = indentation(text, tree.nodes[member].begin);
        const auto brace = indentation(text, end - 1);
        if (!head || !steps || !brace || *brace != *head || steps->size() <= head->size()) continue;
        const auto line = static_cast<std::uint32_t>(end - 1 - brace->size());
        finding.hint = "the steps have no `}` of their own: write one in a line above this";
        finding.fixes = {put({tree.file(), line, line}, fmt::format("{}}}\n", *steps), true)};
    }
}

void report_unclosed(const Tree& tree, std::string_view text, NodeId mark, Findings& findings) {
    const NodeId block = owner(tree, mark);
    const std::uint32_t at = line_behind(text, tree.nodes[mark].begin);
    const bool steps = tree.kind(block) == Kind::steps;
    Finding& finding = findings.report(Rule::syntax, {tree.file(), at, at},
                                       steps ? "the steps are not closed before this"
                                             : "the block is not closed before this",
                                       "write `}` on a line of its own after its last line");
    const std::uint32_t begin = tree.nodes[block].begin;
    const auto head = static_cast<std::uint32_t>(text.find_first_of("{\r\n", begin));
    finding.related.push_back(
        {{tree.file(), begin, std::max(begin, head)},
         steps ? "the steps opened here are not closed" : "the block opened here is not closed"});
    if (!steps) offer_brace_of_steps(tree, block, text, finding);
}

void report_unopened(const Tree& tree, NodeId mark, Findings& findings) {
    const Span at = tree.span(mark);
    if (at.begin == at.end) {
        Finding& finding =
            findings.report(Rule::syntax, at, "`{` is expected here, and the line ends",
                            "write `{` at the end of the block's first line");
        finding.fixes = {put(at, " {", true)};
        return;
    }
    const std::string_view found = tree.text(mark);
    Finding& finding =
        findings.report(Rule::syntax, at, fmt::format("`steps` takes no `{}`", found),
                        "write `steps {`: it is a block, not a property");
    const bool brace = tree.whole_text().substr(at.end).find_first_not_of(" \t") ==
                       tree.whole_text().substr(at.end).find('{');
    finding.fixes = {put(at, brace ? "" : " {", true)};
}

/// True for lines outside any block that are there because of a mistake told already: the line
/// above them could not be read, and may have been their head; or a block within theirs has closed
/// it.
bool follows_mistake(const Tree& tree, const Children& statements, std::size_t index) {
    if (index == 0) return false;
    const NodeId before = statements[index - 1];
    if (tree.kind(before) == Kind::broken) {
        const std::uint32_t end = tree.nodes[before].end;
        const std::string_view between =
            tree.whole_text().substr(end, tree.nodes[statements[index]].begin - end);
        return between.find_first_of("\r\n") == std::string_view::npos;
    }
    return index > 1 && tree.kind(before) == Kind::block &&
           tree.kind(statements[index - 2]) == Kind::block &&
           tree.kind(statements[index - 2] - 1) == Kind::unclosed;
}

void report_orphans(const Tree& tree, Findings& findings) {
    const std::string_view text = tree.whole_text();
    const Children statements = tree.children(tree.root());
    for (std::size_t i = 0; i < statements.size(); ++i) {
        if (tree.kind(statements[i]) != Kind::orphans || follows_mistake(tree, statements, i)) {
            continue;
        }
        Span at = tree.span(statements[i]);
        const std::size_t line = text.find_first_of("\r\n", at.begin);
        if (line < at.end) at.end = static_cast<std::uint32_t>(line);
        const bool closed = text.substr(0, at.begin).find('}') != std::string_view::npos;
        findings.report(Rule::syntax, at, "this line belongs in a block and is not in one",
                        closed ? "look above for a `}` too many; or begin its block above it, as "
                                 "`recipe my-recipe {`, and end it with `}`"
                               : "begin its block above it, as `recipe my-recipe {` or `vessel "
                                 "my-jar {`, and end it with `}`");
    }
}

} // namespace

void report_mistake(FileId file, const Source& source, std::uint32_t offset,
                    const grammar::Words& wanted, Findings& findings) {
    using enum grammar::Expectation;
    const std::string_view text = source.text();
    if (wanted.expectation == closing_quote) {
        // Found out at the end of the line; the place to look is where the text begins.
        findings.report(Rule::syntax, {file, open_quote(text, offset), offset},
                        "the text is not closed on its line", wanted.hint);
        return;
    }
    const bool number =
        wanted.expectation == decimal_point || wanted.expectation == digit_before_point;
    const std::string_view found = token_at(text, offset, number);
    const auto end = offset + static_cast<std::uint32_t>(found.size());
    std::string slip = slip_hint(text, offset, found, wanted.expectation);
    Finding& finding =
        findings.report(Rule::syntax, {file, offset, end},
                        found.empty() || found == "#"
                            ? fmt::format("{} is expected here, and the line ends", wanted.expected)
                            : fmt::format("{} is expected here, not `{}`", wanted.expected, found),
                        slip.empty() ? wanted.hint : std::move(slip));
    offer_slip_fixes(finding, text, found, wanted.expectation);
}

void report_marks(const Tree& tree, Findings& findings) {
    const std::string_view text = tree.whole_text();
    report_orphans(tree, findings);
    for (NodeId id = 0; id < tree.nodes.size(); ++id) {
        switch (tree.kind(id)) {
        case Kind::unclosed:
            report_unclosed(tree, text, id, findings);
            break;
        case Kind::unopened:
            report_unopened(tree, id, findings);
            break;
        case Kind::stray: {
            const bool brace = tree.text(id).starts_with('}');
            findings.report(Rule::syntax, tree.span(id),
                            brace ? "there is nothing for this `}` to close"
                                  : "the end of the line is expected after `}`",
                            brace ? "take it away, or look above for a `}` too many"
                            : tree.text(id).find(';') != std::string_view::npos
                                ? "a line ends without `;`"
                                : "begin a new line there");
            break;
        }
        default:
            break;
        }
    }
}

/// Of what begins with the same bytes as they do, the first that turns the direction of writing.
void report_turned_text(FileId file, std::string_view text, Findings& findings) {
    for (const char lead : {'\xD8', '\xE2'}) {
        for (std::size_t at = text.find(lead); at != std::string_view::npos;
             at = text.find(lead, at + 1)) {
            const Character c = decode_utf8(text, at);
            if (!turns_direction(c.code_point)) continue;
            const auto begin = static_cast<std::uint32_t>(at);
            findings.report(Rule::syntax, {file, begin, begin + c.length},
                            fmt::format("a mark that turns the direction of writing (U+{:04X}) "
                                        "is here: it makes a text look different from what it is",
                                        c.code_point),
                            "take it away");
            return;
        }
    }
}

void report_bad_characters(FileId file, const Source& source, Findings& findings) {
    const std::string_view text = source.text();
    const auto bad = static_cast<std::uint32_t>(first_bad_utf8(text));
    if (bad < text.size()) {
        findings.report(Rule::syntax, {file, bad, bad + 1}, "this is not UTF-8 text",
                        "save the file as UTF-8");
    }
    report_turned_text(file, text, findings);
    const auto is_control = [](char each) {
        const auto c = static_cast<unsigned char>(each);
        return (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0x7F;
    };
    unsigned any = 0; // all of the text is looked at, so that the loop can go many bytes at a time
    for (const char each : text) {
        const auto c = static_cast<unsigned char>(each);
        any |= static_cast<unsigned>(c < 0x20) & static_cast<unsigned>(c != '\t') &
               static_cast<unsigned>(c != '\n') & static_cast<unsigned>(c != '\r');
        any |= static_cast<unsigned>(c == 0x7F);
    }
    if (any == 0) return;
    const auto found = std::find_if(text.begin(), text.end(), is_control);
    const auto at = static_cast<std::uint32_t>(found - text.begin());
    findings.report(Rule::syntax, {file, at, at + 1},
                    fmt::format("there is a control character (U+{:04X}) here",
                                static_cast<unsigned char>(*found)),
                    "take it away; in a text it is written \\u{…}");
}

} // namespace waxwright
