#include "model/phrases.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "model/schema.hpp"

namespace waxwright {

namespace {

constexpr bool certain = true;
constexpr bool asks = false;

constexpr Phrase phrases[] = {
#define PHRASE(said, meant, sure, question) {said, meant, sure, question},
#include "model/phrases.def"
};

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
char small(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Length of the number, or of the name, that a text begins with.
std::size_t number_length(std::string_view text) {
    if (text.empty() || !is_digit(text[0])) return 0;
    const std::size_t end = text.find_first_not_of("0123456789./");
    std::size_t length = std::min(end, text.size());
    while (!is_digit(text[length - 1])) // the point of `9 oz.` is none of the number's
        --length;
    return length;
}
std::size_t name_length(std::string_view text) {
    if (text.empty() || small(text[0]) < 'a' || small(text[0]) > 'z') return 0;
    std::size_t length = 0;
    while (length < text.size() && (is_digit(text[length]) || text[length] == '-' ||
                                    (small(text[length]) >= 'a' && small(text[length]) <= 'z')))
        ++length;
    return length;
}

void skip_blanks(std::string_view& text) {
    text.remove_prefix(std::min(text.find_first_not_of(" \t\r"), text.size()));
}

/// What stands in the holes of `said` where the line matches it from end to end.
std::optional<std::vector<std::string_view>> match(std::string_view said, std::string_view line) {
    std::vector<std::string_view> holes;
    while (!said.empty()) {
        const char next = said.front();
        said.remove_prefix(1);
        if (next == ' ') {
            // A number may stand close to its unit; between words there is a blank.
            const bool close = !holes.empty() && !line.empty() && !is_blank(line.front()) &&
                               line.data() == holes.back().data() + holes.back().size();
            if (!close && (line.empty() || !is_blank(line.front()))) return std::nullopt;
            skip_blanks(line);
            continue;
        }
        std::size_t length = 0;
        if (next == '*') {
            length = line.size();
        } else if (next == '#') {
            length = number_length(line);
        } else if (next == '@') {
            length = name_length(line);
        } else {
            if (line.empty() || small(line.front()) != next) return std::nullopt;
            line.remove_prefix(1);
            continue;
        }
        if (length == 0) return std::nullopt;
        holes.push_back(line.substr(0, length));
        line.remove_prefix(length);
    }
    if (!line.empty()) return std::nullopt;
    return holes;
}

std::string filled(std::string_view meant, std::span<const std::string_view> holes) {
    std::string line;
    std::size_t next = 0;
    for (const char c : meant) {
        const bool hole = (c == '*' || c == '#' || c == '@') && next < holes.size();
        hole ? line.append(holes[next++]) : line.append(1, c);
    }
    return line;
}

/// No phrase is longer; a line that is, isn't looked through for each of its findings.
constexpr std::size_t longest_line = 200;

/// The line's own words: no blanks round them, no comment. Empty of a line that is too long.
Span words_of_line(const Source& source, Span at) {
    const std::string_view text = source.text();
    const std::size_t first = at.begin > longest_line ? at.begin - longest_line : 0;
    const std::string_view near = text.substr(first, 2 * longest_line);
    const std::size_t here = at.begin - first;
    const std::size_t before = here == 0 ? std::string_view::npos : near.rfind('\n', here - 1);
    const std::size_t after = near.find('\n', here);
    const bool begins = before != std::string_view::npos || first == 0;
    const bool ends = after != std::string_view::npos || first + near.size() == text.size();
    if (!begins || !ends) return {at.file, at.begin, at.begin};
    std::size_t begin = first + (before == std::string_view::npos ? 0 : before + 1);
    std::size_t end = first + std::min(after, near.size());
    bool quoted = false;
    for (std::size_t i = begin; i < end; ++i) {
        if (text[i] == '"') quoted = !quoted;
        if (text[i] == '#' && !quoted) end = i;
    }
    while (begin < end && is_blank(text[begin]))
        ++begin;
    while (begin < end && is_blank(text[end - 1]))
        --end;
    return {at.file, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)};
}

/// A line that could not be read, or a word of it. The book has properties of recipes and vessels.
bool is_of_words(const Finding& finding) {
    switch (finding.rule) {
    case Rule::syntax:
    case Rule::unknown_verb:
    case Rule::unknown_name:
    case Rule::unknown_unit:
        return true;
    case Rule::unknown_property:
        return finding.message.starts_with("a recipe has no ") ||
               finding.message.starts_with("a vessel has no ");
    default:
        return false;
    }
}

/// `recipe Kitchen Jam {`: the kind's word, and what stands before the brace; empty where the line
/// is no such head.
std::pair<std::string_view, std::string_view> head_of(std::string_view line) {
    const std::size_t blank = line.find(' ');
    const std::size_t brace = line.find('{');
    if (blank == std::string_view::npos || brace == std::string_view::npos || brace < blank)
        return {};
    const std::string_view kind = line.substr(0, blank);
    if (find_block_kind(kind) == BlockKind::unknown) return {};
    std::string_view name = line.substr(blank, brace - blank);
    skip_blanks(name);
    while (!name.empty() && is_blank(name.back()))
        name.remove_suffix(1);
    return {kind, name};
}

/// A block's name of several words, or with capitals, is its title; one of the language's own words
/// is no name at all.
void answer_head(const Source& source, Span at, Finding& finding) {
    const std::string_view line = source.text().substr(at.begin, at.end - at.begin);
    const auto [kind, title] = head_of(line);
    // With `like` in it, it is another slip.
    if (title.empty() || title.find("like") != std::string_view::npos) return;
    if (is_reserved(title)) {
        finding.message = fmt::format("`{}` is a word of the language", title);
        finding.hint = fmt::format("take another name: `my-{}`, for example", title);
        finding.fixes = {put(at, fmt::format("{} my-{} {{", kind, title), false)};
        return;
    }
    if (title.find(' ') == std::string_view::npos) return;
    std::string name;
    for (const char c : title)
        name += is_blank(c) || c == '_' ? '-' : small(c);
    if (name_length(name) != name.size() || line.back() != '{') return;
    const std::string head = fmt::format("{} {} {{", kind, name);
    if (find_block_kind(kind) != BlockKind::recipe) {
        finding.hint = fmt::format("a name is one word, its parts joined by hyphens: `{}`", head);
        finding.fixes = {put(at, head, false)};
        return;
    }
    finding.hint = fmt::format("write `{}`, and within it `title: \"{}\"`", head, title);
    finding.fixes = {put(at, fmt::format("{}\n  title: \"{}\"", head, title), false)};
}

} // namespace

std::span<const Phrase> all_phrases() {
    return phrases;
}

std::optional<PhraseAnswer> answer_of(std::string_view line) {
    for (const Phrase& phrase : phrases) {
        const auto holes = match(phrase.said, line);
        if (holes) return PhraseAnswer{&phrase, filled(phrase.meant, *holes)};
    }
    return std::nullopt;
}

void answer_phrases(const Sources& sources, Findings& findings) {
    findings.each([&](Finding& finding) {
        if (finding.severity != Severity::error || !is_of_words(finding)) return;
        const Source& source = sources[finding.at.file];
        const Span at = words_of_line(source, finding.at);
        if (at.begin == at.end) return;
        std::string_view line = source.text().substr(at.begin, at.end - at.begin);
        const std::size_t reason = std::min(line.find(" because \""), line.size());
        const std::string_view because = line.substr(reason); // stays as it is
        line = line.substr(0, reason);
        if (line.ends_with('.')) line.remove_suffix(1); // a sentence's
        auto answer = answer_of(line);
        if (answer && !answer->line.empty()) answer->line += because;
        if (!answer) {
            if (finding.rule == Rule::syntax) answer_head(source, at, finding);
            return;
        }
        const Phrase& phrase = *answer->phrase;
        finding.fixes.clear();
        if (!answer->line.empty()) finding.fixes.push_back(put(at, answer->line, phrase.certain));
        finding.hint = phrase.question.empty() ? fmt::format("write `{}`", answer->line)
                                               : std::string(phrase.question);
    });
}

} // namespace waxwright
