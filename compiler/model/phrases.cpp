#include "model/phrases.hpp"

#include <algorithm>
#include <iterator>
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

struct NumberWord {
    std::string_view word;
    std::string_view digits;
};
constexpr NumberWord number_words[] = {
    {"one", "1"},      {"two", "2"},         {"three", "3"},     {"four", "4"},
    {"five", "5"},     {"six", "6"},         {"seven", "7"},     {"eight", "8"},
    {"nine", "9"},     {"ten", "10"},        {"eleven", "11"},   {"twelve", "12"},
    {"twenty", "20"},  {"thirty", "30"},     {"forty", "40"},    {"fifty", "50"},
    {"a dozen", "12"}, {"a quarter", "1/4"}, {"half an", "1/2"}, {"half a", "1/2"},
};

/// The word for a number that a text begins with; nothing where it has none.
const NumberWord* number_word(std::string_view text) {
    for (const NumberWord& each : number_words) {
        if (text.size() <= each.word.size() || !is_blank(text[each.word.size()])) continue;
        const bool same = std::equal(each.word.begin(), each.word.end(), text.begin(),
                                     [](char a, char b) { return a == small(b); });
        if (same) return &each;
    }
    return nullptr;
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

/// What stands in the holes of `said` where the line matches it from end to end. Words for numbers
/// are in digits.
std::optional<std::vector<std::string_view>> match(std::string_view said, std::string_view line) {
    std::vector<std::string_view> holes;
    std::string_view behind_hole; // what is left of the line right behind the last one
    while (!said.empty()) {
        const char next = said.front();
        said.remove_prefix(1);
        if (next == ' ') {
            // A number may stand close to its unit; between words there is a blank.
            const bool close = !holes.empty() && !line.empty() && !is_blank(line.front()) &&
                               line.data() == behind_hole.data();
            if (!close && (line.empty() || !is_blank(line.front()))) return std::nullopt;
            skip_blanks(line);
            continue;
        }
        std::size_t length = 0;
        const NumberWord* word = next == '#' ? number_word(line) : nullptr;
        if (next == '*') {
            length = line.size();
        } else if (next == '#') {
            length = word != nullptr ? word->word.size() : number_length(line);
        } else if (next == '@') {
            length = name_length(line);
        } else {
            if (line.empty() || small(line.front()) != next) return std::nullopt;
            line.remove_prefix(1);
            continue;
        }
        if (length == 0) return std::nullopt;
        holes.push_back(word != nullptr ? word->digits : line.substr(0, length));
        line.remove_prefix(length);
        behind_hole = line;
    }
    if (!line.empty()) return std::nullopt;
    return holes;
}

/// With its holes filled in order; `again` is where they begin again from the first.
std::string filled(std::string_view meant, std::span<const std::string_view> holes,
                   char again = '\0') {
    std::string line;
    std::size_t next = 0;
    bool quoted = false; // a text keeps its capitals, a name has none
    for (std::size_t i = 0; i < meant.size(); ++i) {
        const char c = meant[i];
        if (c == again) next = 0;
        if (c == '"') quoted = !quoted;
        if (meant.substr(i, 2) == "##") {
            line += '#';
            ++i;
            continue;
        }
        const bool hole = (c == '*' || c == '#' || c == '@') && next < holes.size();
        if (!hole) {
            line += c;
            continue;
        }
        for (const char each : holes[next++])
            line += c == '@' && !quoted ? small(each) : each;
    }
    return line;
}

} // namespace

std::span<const Phrase> all_phrases() {
    return phrases;
}

namespace {

std::optional<PhraseAnswer> first_answer(std::string_view line) {
    for (const Phrase& phrase : phrases) {
        const auto holes = match(phrase.said, line);
        if (!holes) continue;
        std::string meant = filled(phrase.meant, *holes);
        if (meant == line) continue;
        return PhraseAnswer{&phrase, std::move(meant), filled(phrase.question, *holes, '`')};
    }
    return std::nullopt;
}

} // namespace

std::optional<PhraseAnswer> answer_of(std::string_view line) {
    auto answer = first_answer(line);
    constexpr int most =
        4; // `fragrance: lavender oil` is `scent: lavender oil`, and that a row too
    for (int i = 1; i < most && answer && answer->phrase->certain; ++i) {
        auto next = first_answer(answer->line);
        if (!next) break;
        answer = std::move(next);
    }
    return answer;
}

} // namespace waxwright
