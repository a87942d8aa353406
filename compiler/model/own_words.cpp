#include "model/own_words.hpp"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "findings/registry.hpp"
#include "model/line_meant.hpp"
#include "model/step_meant.hpp"
#include "model/step_words.hpp"
#include "source/utf8.hpp"

namespace waxwright {

namespace {

void tell(SlipAnswer& answer, Span at, Finding& finding) {
    finding.hint = std::move(answer.hint);
    finding.fixes.clear();
    if (!answer.line.empty()) finding.fixes.push_back(put(at, std::move(answer.line), false));
    offer_others(answer, at, finding);
}

} // namespace

bool begins_a_step(std::string_view text) {
    const std::span<const VerbInfo> verbs = all_verbs();
    return std::any_of(verbs.begin(), verbs.end(), [&](const VerbInfo& verb) {
        const std::string_view first = verb.words.substr(0, verb.words.find(' '));
        if (text.size() < first.size()) return false;
        const bool same = std::equal(first.begin(), first.end(), text.begin(),
                                     [](char a, char b) { return a == small(b); });
        return same && (text.size() == first.size() || is_blank(text[first.size()]));
    });
}

namespace {

/// `allow no-stir`, and no `allow to set`.
bool is_allow(std::string_view line) {
    constexpr std::string_view word = "allow ";
    if (!line.starts_with(word)) return false;
    const std::string_view rest = trimmed(line.substr(word.size()));
    return find_rule(rest.substr(0, rest.find(' '))).has_value();
}

/// True where the words of a step could not be read. Of the grammar's other findings, such as of a
/// semicolon or of a quote that isn't closed, the hint is better.
bool is_of_step_words(const BookLine& book, const Finding& finding) {
    constexpr std::string_view starts[] = {
        "the end of the line is expected here", "a step is expected here",
        "a name after `rest` is expected here", "a value is expected here"};
    const auto begins = [&](std::string_view start) { return finding.message.starts_with(start); };
    const bool other = is_allow(book.line) || first_bad_utf8(book.line) < book.line.size();
    if (other || !steps_above(book.text, book.at.begin)) return false;
    if (finding.rule == Rule::unknown_verb) return true;
    return finding.rule == Rule::syntax &&
           (finding.message.ends_with("is not how this step is written") ||
            std::any_of(std::begin(starts), std::end(starts), begins));
}

} // namespace

bool answer_step(const BookLine& book, std::string_view because, Finding& finding) {
    if (!is_of_step_words(book, finding)) return false;
    auto meant =
        step_meant(book.line, steps_above(book.text, book.at.begin).value_or(StepsAbove{}));
    if (!meant || meant->line == squeezed(book.line)) return false;
    finding.hint = std::move(meant->hint);
    finding.fixes.clear();
    if (meant->line.empty()) return true;
    const auto degrees =
        degrees_answer({book.at, meant->line, book.text, book.block, book.declared});
    if (!degrees) {
        finding.fixes = {put(book.at, fmt::format("{}{}", meant->line, because), meant->certain)};
        return true;
    }
    finding.hint += "; " + degrees->hint;
    for (const std::string& line : degrees->others)
        finding.fixes.push_back(put(book.at, fmt::format("{}{}", line, because), false));
    return true;
}

// What the grammar says of words that begin no step has no sense to a maker.
void offer_note(const BookLine& book, Finding& finding) {
    if (!finding.fixes.empty() || !is_of_step_words(book, finding)) return;
    std::string_view words = book.line;
    if (words.find_first_of("\"\\{};:") != std::string_view::npos) return;
    if (words.starts_with("note ")) words = trimmed(words.substr(5));
    if (words.find(' ') == std::string_view::npos) return; // half a verb, in an editor
    std::string note = fmt::format("note \"{}\"", words);
    const std::string own = fmt::format("for words of your own write `{}`", note);
    const bool verb = finding.rule == Rule::unknown_verb;
    if (finding.hint.empty() || (!verb && !begins_a_step(words))) {
        finding.hint = own;
    } else if (verb) {
        finding.hint = fmt::format("{}; {}", own, finding.hint);
    } else {
        finding.hint += "; " + own;
    }
    finding.fixes = {put(book.at, std::move(note), false)};
}

void offer_others(SlipAnswer& slip, Span at, Finding& finding) {
    for (std::string& other : slip.others)
        finding.fixes.push_back(put(at, std::move(other), false));
}

bool says_more(const BookLine& book, std::string_view meant) {
    const auto above = steps_above(book.text, book.at.begin);
    if (!above) return false;
    constexpr std::string_view before_pour[] = {"wipe", "set wick", "warm", "melt", "add"};
    const bool late = above->poured &&
                      std::any_of(std::begin(before_pour), std::end(before_pour),
                                  [&](std::string_view begin) { return meant.starts_with(begin); });
    return late || step_words(book.line).any(cues(Cue::part, Cue::doubt));
}

namespace {

/// What is no property can be told of the thing in words. Without a colon it isn't one either, and
/// steps are a recipe's alone.
bool offer_about(const BookLine& book, Finding& finding) {
    const std::size_t steps = finding.hint.find("; a step goes inside");
    const bool other =
        book.block.kind != BlockKind::unknown && book.block.kind != BlockKind::recipe;
    if (steps != std::string::npos && other) finding.hint.resize(steps);
    const bool listed = finding.hint.find(", about, ") != std::string::npos;
    const bool unknown = finding.rule == Rule::unknown_property && finding.fixes.empty() && listed;
    const bool quotes = book.line.find_first_of("\"\\{}") != std::string_view::npos;
    if (!unknown || quotes || book.block.has("about")) return false;
    std::string about = fmt::format("about: \"{}\"", squeezed(book.line));
    finding.hint += fmt::format("; words of your own: `{}`", about);
    finding.fixes = {put(book.at, std::move(about), false)};
    return true;
}

} // namespace

bool answer_line(const BookLine& book, Finding& finding) {
    const bool sure = std::any_of(finding.fixes.begin(), finding.fixes.end(),
                                  [](const Fix& fix) { return fix.certain; });
    const bool of_name = finding.rule == Rule::unknown_name;
    if (sure || of_name || steps_above(book.text, book.at.begin)) return false;
    auto meant = line_meant(book);
    if (!meant) return offer_about(book, finding);
    tell(*meant, book.at, finding);
    return true;
}

bool answer_better(const BookLine& book, BlockKind row_in, Finding& finding) {
    if (steps_above(book.text, book.at.begin)) {
        // `leave half an inch at the top`, `add 2 g of dye`: what is measured tells what is meant.
        const StepWords words = step_words(book.line);
        const bool dye = words.has(Cue::colour) && !words.amounts.empty();
        return (dye || !words.lengths.empty()) && !words.has(Cue::trim) &&
               answer_step(book, {}, finding);
    }
    auto meant = line_meant(book);
    // The rows for any block were written with recipes and vessels in mind.
    const BlockKind kind = book.block.kind;
    const bool other = kind == BlockKind::wax || kind == BlockKind::wick ||
                       kind == BlockKind::pot || kind == BlockKind::scale ||
                       kind == BlockKind::maker;
    if (meant && other && row_in == BlockKind::unknown && finding.rule != Rule::unknown_unit) {
        tell(*meant, book.at, finding);
        return true;
    }
    if (!meant || meant->line.empty()) return false;
    const bool counted = meant->line.starts_with("makes: ");
    const bool blend = meant->line.find(" + ") != std::string::npos;
    if (!counted && !blend) return false;
    tell(*meant, book.at, finding);
    return true;
}

} // namespace waxwright
