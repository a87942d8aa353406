// Phrases of the trade in a completion. A line that says all is answered by `check`, and its fix is
// what is offered; for one that is still being written the phrase book is asked.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"
#include "model/phrase_text.hpp"
#include "model/phrases.hpp"

namespace waxwright {

namespace {

/// True if the line belongs where the cursor is: steps among the steps, properties in a block.
bool belongs(const TypingPlace& place, std::string_view line) {
    const std::string_view word = first_word(line);
    const bool property = trimmed(line.substr(word.size())).starts_with(':');
    if (place.room == TypingPlace::Room::steps) return !property;
    return property || word == "pour" || word == "have" || word == "allow";
}

/// What a row says, for people: `…` for its holes.
std::string said_by(const Phrase& phrase) {
    std::string said;
    for (const char c : phrase.said) {
        const bool hole = std::string_view("*#@~^").find(c) != std::string_view::npos;
        said += hole ? std::string_view("…") : std::string_view(&c, 1);
    }
    return said;
}

void add_phrase(Completing& c, Group group, Proposal item) {
    const std::string_view typed = c.line_typed();
    item.at = Span{c.asked.file, c.line_begin(), c.asked.offset};
    item.filter = typed;
    c.ask_again = true; // with a letter more another row may be meant, or none
    c.add(group, std::move(item));
}

/// One blank for several, small letters: what lines are compared by.
std::string plain_words(std::string_view line) {
    std::string words;
    std::ranges::transform(squeezed(trimmed(line)), std::back_inserter(words), small);
    return words;
}

/// True if the answer is only what was typed and more: that is offered word by word.
bool goes_on(std::string_view typed, std::string_view answer) {
    return plain_words(answer).starts_with(plain_words(typed));
}

/// True if the answer takes away the end of what was typed, which is only half there; or makes a
/// note of one word, which is most likely the begin of another.
bool is_no_offer(std::string_view typed, std::string_view answer) {
    const bool one_word = first_word(typed).size() == typed.size();
    return plain_words(typed).starts_with(plain_words(answer)) ||
           (one_word && first_word(answer) == "note");
}

/// The fixes of the line as a whole: those that make a note of it, or the others.
void add_answers(Completing& c, bool notes) {
    const std::uint32_t begin = c.line_begin();
    const std::string_view typed = trimmed(c.line_typed());
    const auto end = begin + static_cast<std::uint32_t>(typed.size());
    std::set<std::string_view> offered;
    for (const Finding& finding : c.asked.look().workshop.findings.all()) {
        if (finding.at.file != c.asked.file || finding.at.begin > c.asked.offset) continue;
        for (const Fix& fix : finding.fixes) {
            if (fix.edits.size() != 1) continue;
            const Edit& edit = fix.edits.front();
            if (edit.at.begin != begin || edit.at.end != end) continue;
            if (goes_on(typed, edit.text) || is_no_offer(typed, edit.text)) continue;
            const bool note = first_word(edit.text) == "note";
            if (note != notes || !offered.insert(edit.text).second) continue;
            add_phrase(c, notes ? Group::begun : Group::meant,
                       {.label = edit.text.substr(0, edit.text.find('\n')),
                        .kind = ProposalKind::phrase,
                        .detail = fmt::format("for `{}`", typed),
                        .words = finding.hint,
                        .text = edit.text});
        }
    }
}

/// What the line may come to; behind all that may stand there as it is.
void add_begun(Completing& c) {
    constexpr std::size_t fewest = 3; // letters of a line that may be one
    constexpr std::size_t most = 6;   // are more than anybody reads
    const std::string_view typed = c.line_typed();
    if (static_cast<std::size_t>(std::ranges::count_if(typed, is_letter)) < fewest) return;
    std::set<std::string> offered;
    for (const PhraseAnswer& answer : answers_begun(typed, c.place.kind)) {
        if (offered.size() >= most || goes_on(typed, answer.line)) continue;
        if (!belongs(c.place, answer.line) || !offered.insert(answer.line).second) continue;
        add_phrase(c, Group::begun,
                   {.label = answer.line,
                    .kind = ProposalKind::phrase,
                    .detail = fmt::format("for `{}`", said_by(*answer.phrase)),
                    .words = answer.question,
                    .text = with_places(answer.line, c.snippets()),
                    .snippet = true});
    }
}

} // namespace

void complete_phrases(Completing& c) {
    const std::string_view rest = trimmed(c.line_rest());
    const bool at_end = rest.empty() || rest.starts_with('#') || rest.starts_with('}');
    const bool one_line = c.place.begin >= c.line_begin();
    if (!at_end || !one_line || trimmed(c.line_typed()).empty()) return;
    add_answers(c, false);
    if (c.place.room != TypingPlace::Room::file) add_begun(c);
    add_answers(c, true); // what isn't half a line of another may be a note
}

} // namespace waxwright
