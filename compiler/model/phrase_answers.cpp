// Where the phrase book's answers go: the findings of lines that could not be read.
#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "model/line_fault.hpp"
#include "model/own_words.hpp"
#include "model/phrase_heads.hpp"
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
        if (joint == ", " && (behind.starts_with("stir") || behind.starts_with("mix")))
            continue; // belongs to its `add`
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

/// A line of a file that could not be read, with what belongs to it and isn't looked at.
struct Unread {
    BookLine book;
    std::string_view because; // the reason behind the line, which stays as it is
    bool sentence;            // it had a full stop at its end
};

void answer_unknown(const Unread& unread, Finding& finding) {
    const auto& [book, because, sentence] = unread;
    const auto [at, line, text, block, declared] = book;
    if (answer_step(book, because, finding)) return;
    if (answer_key(at, line, text, block.kind, finding) || answer_use(book, finding) ||
        answer_colon(book, finding) || answer_quotes(at, line, finding)) {
        return;
    }
    if (sentence && finding.rule == Rule::syntax && begins_a_step(line)) {
        finding.hint = "a line has no full stop at its end";
        finding.fixes = {put(at, fmt::format("{}{}", line, because), true)};
        return;
    }
    if (answer_bare_head(book, finding)) return;
    if (answer_line(book, finding)) return;
    if (finding.rule == Rule::syntax) answer_head(book, finding);
    offer_note(book, finding);
}

/// False for a line whose key is none of the block's: `load: 10%` in a wax.
bool has_property(BlockKind kind, std::string_view line) {
    const std::size_t colon = line.find(':');
    if (kind == BlockKind::unknown || colon == std::string_view::npos) return true;
    const std::optional<Key> key = find_key(line.substr(0, colon));
    return !key || find_property(kind, *key) != nullptr;
}

void answer_line_alone(const Source& source, const Unread& unread, Finding& finding) {
    const BookLine& book = unread.book;
    const Span at = book.at;
    const bool of_words = is_of_words(finding);
    if (!of_words && !is_bare_temperature(finding)) return;
    if (auto slip = of_words ? slip_answer(book) : degrees_answer(book)) {
        finding.hint = std::move(slip->hint);
        finding.fixes.clear();
        for (std::string& other : slip->others)
            other += unread.because;
        if (!slip->line.empty()) {
            finding.fixes.push_back(put(at, slip->line.append(unread.because), slip->certain));
        }
        offer_others(*slip, at, finding);
        return;
    }
    if (!of_words) return;
    auto answer = answer_of(book.line, book.block.kind);
    if (answer && !has_property(book.block.kind, answer->line)) answer.reset();
    const bool writes_range = answer && !answer->line.empty() && step_words(book.line).range;
    if (writes_range && answer_step(book, unread.because, finding)) return;
    if (answer && !answer->phrase->certain && answer_better(book, answer->phrase->in, finding))
        return;
    if (answer && !answer->line.empty()) answer->line += unread.because;
    // The rest of a line may be a step, before it is a comment.
    const bool no_step = finding.rule == Rule::syntax || finding.rule == Rule::unknown_verb;
    const bool maybe_two = !answer || answer->phrase->meant.find("##") != std::string::npos;
    if (no_step && maybe_two && answer_two_steps(source, at, book.line, finding)) return;
    if (!answer) {
        answer_unknown(unread, finding);
        return;
    }
    const Phrase& phrase = *answer->phrase;
    const bool changed = phrase.certain && says_more(book, answer->line);
    if (changed && answer_step(book, unread.because, finding)) return;
    finding.fixes.clear();
    // `let cool to 65` is `cool to 65`, and that wants a thermometer.
    if (auto degrees = degrees_answer({at, answer->line, book.text, book.block, book.declared});
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
}

/// A line that would be written for certain, and still is none of the language, is answered in its
/// turn: what is told is the answer to that.
void answer_what_is_left(const Source& source, const Unread& unread, Finding& finding) {
    constexpr int most = 4;
    const Span at = unread.book.at;
    for (int i = 0; i < most; ++i) {
        const bool whole = finding.fixes.size() == 1 && finding.fixes[0].edits.size() == 1 &&
                           finding.fixes[0].edits[0].at == at;
        if (!whole) return;
        const std::string line = finding.fixes[0].edits[0].text;
        auto fault = fault_of_line(line, unread.book);
        if (!fault) return;
        Unread next = unread;
        next.book.line = std::string_view(line).substr(0, line.find(" because \""));
        answer_line_alone(source, next, *fault);
        const bool sure = finding.fixes[0].certain;
        const bool rough = finding.hint.starts_with("is it this?");
        if (!sure && (!rough || (fault->fixes.empty() && fault->hint.empty()))) return;
        const bool same = !fault->fixes.empty() && fault->fixes[0].edits[0].text == line;
        if (fault->hint.empty()) fault->hint = fault->message;
        finding.hint = std::move(fault->hint);
        finding.fixes = std::move(fault->fixes);
        if (same || !sure || i + 1 == most) {
            for (Fix& fix : finding.fixes)
                fix.certain = false;
        }
    }
}

} // namespace

void answer_phrases(const Sources& sources, Findings& findings) {
    std::map<FileId, Declared> declared; // of the files that have such a line
    findings.each([&](Finding& finding) {
        if (finding.severity != Severity::error) return;
        if (!is_of_words(finding) && !is_bare_temperature(finding)) return;
        const Source& source = sources[finding.at.file];
        const Span at = words_of_line(source, finding.at);
        if (at.begin == at.end) return;
        std::string_view line = source.text().substr(at.begin, at.end - at.begin);
        const std::size_t reason = std::min(line.find(" because \""), line.size());
        const std::string_view because = line.substr(reason);
        line = line.substr(0, reason);
        const bool sentence = line.ends_with('.');
        if (sentence) line.remove_suffix(1);
        const auto [names, fresh] = declared.try_emplace(at.file);
        if (fresh) names->second = declared_in(source.text());
        const BlockAround block = block_around(source.text(), at.begin);
        const Unread unread{{at, line, source.text(), block, names->second}, because, sentence};
        answer_line_alone(source, unread, finding);
        answer_what_is_left(source, unread, finding);
    });
}

} // namespace waxwright
