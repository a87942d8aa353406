// Where the phrase book's answers go: the findings of lines that could not be read.
#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "model/own_words.hpp"
#include "model/phrase_slips.hpp"
#include "model/phrases.hpp"
#include "model/step_meant.hpp"
#include "model/step_words.hpp"

namespace waxwright {

namespace {

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
    case Rule::syntax: // an open block ends at a line that may have a finding of its own
        return !finding.message.starts_with("the block is not closed");
    case Rule::unknown_verb:
    case Rule::unknown_name:
    case Rule::unknown_unit:
    case Rule::unknown_property:
        return true;
    case Rule::unit_mismatch:
        return finding.message.ends_with("a number is wanted here") ||
               finding.message.ends_with("a share (%) is wanted here") ||
               finding.message.ends_with("a blend is in percents or parts") ||
               finding.message.starts_with("a date is wanted here");
    case Rule::missing_unit:
        return finding.message.ends_with("is neither percents nor parts");
    default:
        return false;
    }
}

/// A temperature without a thermometer: a slip to answer, and none that the book has a row for.
bool is_bare_temperature(const Finding& finding) {
    return finding.rule == Rule::missing_unit &&
           finding.message.ends_with("a temperature is wanted here");
}

/// `use waxes oils wicks`: the names of modules want commas. False where it is no such line.
bool answer_use(Span at, std::string_view line, Finding& finding) {
    if (finding.rule != Rule::syntax || !line.starts_with("use ")) return false;
    std::string better = "use";
    std::string_view rest = line.substr(3);
    while (!rest.empty()) {
        const std::size_t begin = std::min(rest.find_first_not_of(" \t,"), rest.size());
        rest.remove_prefix(begin);
        const std::string_view name = rest.substr(0, rest.find_first_of(" \t,"));
        if (name.empty()) break;
        if (!is_kebab(name)) return false;
        better += better.size() > 3 ? ", " : " ";
        better += name;
        rest.remove_prefix(name.size());
    }
    if (better == line) return false;
    finding.hint = fmt::format("write `{}`", better);
    finding.fixes = {put(at, std::move(better), true)};
    return true;
}

/// True if the value is of a kind that the property takes, as far as its first sign shows; of a
/// choice, one of its words. A block whose kind isn't known may take anything.
bool may_take(const PropertyInfo* info, std::string_view value, std::string_view text) {
    if (info == nullptr || value.empty()) return true;
    if (info->shape == Shape::word) {
        const std::string words = fmt::format(" {} ", info->words);
        return words.find(fmt::format(" {} ", value)) != std::string::npos;
    }
    if (info->shape == Shape::text) return value.front() == '"';
    const bool named = info->refers != BlockKind::unknown;
    const bool figure = is_digit(value.front()) || value.front() == '-' || value.front() == '(';
    const bool let =
        is_kebab(value) && text.find(fmt::format("let {}", value)) != std::string::npos;
    return named || figure || let || info->dimension == dimension::money;
}

/// `made for: candles`: a key that has hyphens where blanks are. False where it is none.
bool answer_key(Span at, std::string_view line, std::string_view text, BlockKind in,
                Finding& finding) {
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos || finding.rule != Rule::syntax) return false;
    const std::string key = joined_by_hyphens(line.substr(0, colon));
    const std::optional<Key> found = find_key(key);
    if (key == line.substr(0, colon) || !found) return false;
    const PropertyInfo* info = find_property(in, *found);
    if (!may_take(info, trimmed(line.substr(colon + 1)), text)) {
        std::string words(info->words);
        for (std::size_t blank = words.find(' '); blank != std::string::npos;
             blank = words.find(' ', blank + 2))
            words.replace(blank, 1, ", ");
        finding.hint = words.empty() ? fmt::format("write `{}: …` ({})", key, info->doc)
                                     : fmt::format("write `{}:` and one of: {}", key, words);
        finding.fixes.clear();
        return true;
    }
    std::string better = neat_line(key + std::string(line.substr(colon)));
    finding.hint = fmt::format("write `{}`", better);
    finding.fixes = {put(at, std::move(better), true)};
    return true;
}

/// `makes 6 jam-jar`: a key without its colon. Sure where no block, and no step, begins so; what
/// begins at the margin may be a block's head. False where it is none.
bool answer_colon(const Source& source, Span at, std::string_view line, Finding& finding) {
    const std::size_t blank = line.find(' ');
    if (finding.rule != Rule::syntax || blank == std::string_view::npos) return false;
    const std::string_view key = line.substr(0, blank);
    if (!find_key(key) || line.find_first_of(":={") != std::string_view::npos) return false;
    const bool at_margin = at.begin == 0 || source.text()[at.begin - 1] == '\n';
    const bool kind = find_block_kind(key) != BlockKind::unknown;
    if (kind && at_margin) return false;
    const bool sure = !kind && !begins_a_step(line);
    std::string_view value = trimmed(line.substr(blank));
    for (const std::string_view joint : {"to ", "at ", "of ", "is ", "for "})
        if (value.starts_with(joint)) value = trimmed(value.substr(joint.size()));
    std::string better = neat_line(fmt::format("{}: {}", key, value));
    finding.hint = fmt::format("write `{}`", better);
    finding.fixes = {put(at, std::move(better), sure)};
    return true;
}

/// `title: “Low Tide”`: quotation marks as they are printed. False where the line has no pair.
bool answer_quotes(Span at, std::string_view line, Finding& finding) {
    if (finding.rule != Rule::syntax) return false;
    constexpr std::string_view printed[] = {"“", "”", "„", "«", "»"};
    std::string better(line);
    std::size_t marks = 0;
    for (const std::string_view mark : printed) {
        for (std::size_t i = better.find(mark); i != std::string::npos; i = better.find(mark)) {
            better.replace(i, mark.size(), "\"");
            ++marks;
        }
    }
    if (marks != 2) return false;
    finding.hint = fmt::format("write straight quotes: `{}`", better);
    finding.fixes = {put(at, std::move(better), true)};
    return true;
}

/// `stir 2 min then pour at 60 °C`: two steps on one line. False where it is none.
bool answer_two_steps(const Source& source, Span at, std::string_view line, Finding& finding) {
    constexpr std::string_view joints[] = {", and then ", ", then ", " and then ", " then ",
                                           "; ",          ", and ",  " and ",      ", "};
    for (const std::string_view joint : joints) {
        const std::size_t place = line.find(joint);
        if (place == std::string_view::npos || line.find(':') < place) continue;
        const std::string_view behind = line.substr(place + joint.size());
        if (joint == ", " && behind.starts_with("stir")) continue; // belongs to its `add`
        std::string steps[] = {std::string(line.substr(0, place)), std::string(behind)};
        std::string question;
        const bool both = std::all_of(std::begin(steps), std::end(steps), [&](std::string& step) {
            const auto answer = answer_of(step);
            if (answer && question.empty()) question = answer->question;
            const bool good =
                (answer && answer->phrase->said.front() != '#') || begins_a_step(step);
            if (answer && !answer->line.empty()) step = answer->line;
            if (answer && good) return true;
            auto meant = step_meant(step, StepsAbove{});
            if (!meant || meant->line.empty()) return good;
            step = std::move(meant->line);
            return true;
        });
        if (!both) continue;
        finding.hint =
            fmt::format("these are two steps, on a line each: `{}` and `{}`", steps[0], steps[1]);
        if (!question.empty()) finding.hint += "; " + question;
        const std::string_view text = source.text();
        const std::size_t begin = text.rfind('\n', at.begin) + 1;
        const std::string_view indent = text.substr(begin, at.begin - begin);
        finding.fixes = {put(at, fmt::format("{}\n{}{}", steps[0], indent, steps[1]), false)};
        return true;
    }
    return false;
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
    while (!name.empty() && is_blank(name.front()))
        name.remove_prefix(1);
    while (!name.empty() && is_blank(name.back()))
        name.remove_suffix(1);
    return {kind, name};
}

/// `vessel` alone, `vessel my-jar`, `vessel {`: a head at the margin without its name, its brace or
/// both. False where the line is no such head.
bool answer_bare_head(const Source& source, Span at, std::string_view line, Finding& finding) {
    const std::string_view text = source.text();
    if (finding.rule != Rule::syntax || (at.begin > 0 && text[at.begin - 1] != '\n')) return false;
    const std::size_t blank = std::min(line.find(' '), line.size());
    const std::string_view word = line.substr(0, blank);
    const BlockKind kind = find_block_kind(word);
    std::string_view rest = trimmed(line.substr(blank));
    const bool brace = rest.ends_with('{');
    if (brace) rest = trimmed(rest.substr(0, rest.size() - 1));
    const bool named = is_kebab(rest) && !is_reserved(rest);
    if (kind == BlockKind::unknown || (brace && named) || (!rest.empty() && !named)) return false;
    const std::string name = named ? std::string(rest) : usual_name(kind);
    std::string head = fmt::format("{} {} {{", word, name);
    const std::size_t next = text.find_first_not_of(" \t\r\n", at.end);
    if (next != std::string_view::npos && text[next] == '{') return false; // told by that brace
    if (!brace) finding.message = fmt::format("`{}` is not a whole block", line);
    const std::string title = fmt::format("write `{}`", head);
    if (brace) {
        finding.hint = fmt::format("give it a name: {}", title);
    } else {
        finding.hint =
            fmt::format("{}: {}, a line for each thing it has, and `}}`",
                        named ? "a block has braces" : "give it a name and braces", title);
    }
    const bool has_lines = next != std::string_view::npos && text[next - 1] != '\n';
    if (!brace && !has_lines) head += "\n}";
    finding.fixes = {{title, {{at, std::move(head)}}, false}};
    return true;
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
    const std::string name = joined_by_hyphens(title);
    if (!is_kebab(name) || line.back() != '{') return;
    const std::string head = fmt::format("{} {} {{", kind, name);
    if (find_block_kind(kind) != BlockKind::recipe) {
        finding.hint = fmt::format("a name is one word, its parts joined by hyphens: `{}`", head);
        finding.fixes = {put(at, head, true)};
        return;
    }
    finding.hint = fmt::format("write `{}`, and within it `title: \"{}\"`", head, title);
    finding.fixes = {put(at, fmt::format("{}\n  title: \"{}\"", head, title), true)};
}

} // namespace

namespace {

/// False for a line whose key is none of the block's: `load: 10%` in a wax.
bool has_property(BlockKind kind, std::string_view line) {
    const std::size_t colon = line.find(':');
    if (kind == BlockKind::unknown || colon == std::string_view::npos) return true;
    const std::optional<Key> key = find_key(line.substr(0, colon));
    return !key || find_property(kind, *key) != nullptr;
}

} // namespace

void answer_phrases(const Sources& sources, Findings& findings) {
    std::map<FileId, Declared> declared; // of the files that have such a line
    findings.each([&](Finding& finding) {
        const bool of_words = is_of_words(finding);
        if (finding.severity != Severity::error) return;
        if (!of_words && !is_bare_temperature(finding)) return;
        const Source& source = sources[finding.at.file];
        const Span at = words_of_line(source, finding.at);
        if (at.begin == at.end) return;
        std::string_view line = source.text().substr(at.begin, at.end - at.begin);
        const std::size_t reason = std::min(line.find(" because \""), line.size());
        const std::string_view because = line.substr(reason); // stays as it is
        line = line.substr(0, reason);
        const bool sentence = line.ends_with('.');
        if (sentence) line.remove_suffix(1);
        const auto [names, fresh] = declared.try_emplace(at.file);
        if (fresh) names->second = declared_in(source.text());
        const BlockAround block = block_around(source.text(), at.begin);
        const BookLine book{at, line, source.text(), block, names->second};
        auto slip = of_words ? slip_answer(book) : degrees_answer(book);
        if (slip) {
            finding.hint = std::move(slip->hint);
            finding.fixes.clear();
            if (!slip->line.empty()) {
                finding.fixes.push_back(put(at, std::move(slip->line), slip->certain));
            }
            offer_others(*slip, at, finding);
            return;
        }
        if (!of_words) return;
        auto answer = answer_of(line, block.kind);
        if (answer && !has_property(block.kind, answer->line)) answer.reset();
        const bool writes_range = answer && !answer->line.empty() && step_words(line).range;
        if (writes_range && answer_step(book, because, finding)) return;
        if (answer && !answer->phrase->certain && answer_better(book, answer->phrase->in, finding))
            return;
        if (answer && !answer->line.empty()) answer->line += because;
        // The rest of a line may be a step, before it is a comment.
        const bool unread = finding.rule == Rule::syntax || finding.rule == Rule::unknown_verb;
        const bool maybe_two = !answer || answer->phrase->meant.find("##") != std::string::npos;
        if (unread && maybe_two && answer_two_steps(source, at, line, finding)) return;
        if (!answer) {
            if (answer_step(book, because, finding)) return;
            if (answer_key(at, line, source.text(), block.kind, finding) ||
                answer_use(at, line, finding) || answer_colon(source, at, line, finding) ||
                answer_quotes(at, line, finding)) {
                return;
            }
            if (sentence && finding.rule == Rule::syntax && begins_a_step(line)) {
                finding.hint = "a line has no full stop at its end";
                finding.fixes = {put(at, fmt::format("{}{}", line, because), true)};
                return;
            }
            if (answer_bare_head(source, at, line, finding)) return;
            if (answer_line(book, finding)) return;
            if (finding.rule == Rule::syntax) answer_head(source, at, finding);
            offer_note(book, finding);
            return;
        }
        const Phrase& phrase = *answer->phrase;
        const bool changed = phrase.certain && says_more(book, answer->line);
        if (changed && answer_step(book, because, finding)) return;
        finding.fixes.clear();
        // `let cool to 65` is `cool to 65`, and that wants a thermometer.
        if (auto degrees = degrees_answer({at, answer->line, book.text, block, names->second});
            degrees && !degrees->others.empty()) {
            finding.hint = answer->question.empty()
                               ? std::move(degrees->hint)
                               : fmt::format("{}; {}", answer->question, degrees->hint);
            offer_others(*degrees, at, finding);
            return;
        }
        if (!answer->line.empty())
            finding.fixes.push_back(put(at, answer->line, phrase.certain && !changed));
        if (auto degrees = degrees_answer(book)) offer_others(*degrees, at, finding);
        const std::string_view ask = changed ? "is it this? " : "";
        finding.hint = answer->question.empty() ? fmt::format("{}write `{}`", ask, answer->line)
                                                : std::move(answer->question);
    });
}

} // namespace waxwright
