#include "model/phrases.hpp"

#include <algorithm>
#include <iterator>
#include <utility>
#include <vector>

#include "model/phrase_text.hpp"

namespace waxwright {

namespace {

constexpr bool certain = true;
constexpr bool asks = false;

constexpr Phrase phrases[] = {
#define PHRASE(said, meant, sure, question) {BlockKind::unknown, said, meant, sure, question},
#include "model/phrases_steps.def"
#define PHRASE(said, meant, sure, question) {BlockKind::unknown, said, meant, sure, question},
#define PHRASE_IN(kind, said, meant, sure, question) {BlockKind::kind, said, meant, sure, question},
#include "model/phrases_lines.def"
};

/// Words that one kind of hole takes, and what the language has for them. Where one begins another,
/// the longer comes first.
struct HoleWord {
    char hole;
    std::string_view word;
    std::string_view meant;
};
constexpr HoleWord hole_words[] = {
    {'#', "half a dozen", "6"},
    {'#', "one dozen", "12"},
    {'#', "two dozen", "24"},
    {'#', "a dozen", "12"},
    {'#', "three quarters of an", "3/4"},
    {'#', "three quarters of a", "3/4"},
    {'#', "three quarters", "3/4"},
    {'#', "one quarter", "1/4"},
    {'#', "one half", "1/2"},
    {'#', "one", "1"},
    {'#', "two", "2"},
    {'#', "three", "3"},
    {'#', "four", "4"},
    {'#', "five", "5"},
    {'#', "six", "6"},
    {'#', "seven", "7"},
    {'#', "eight", "8"},
    {'#', "nine", "9"},
    {'#', "ten", "10"},
    {'#', "eleven", "11"},
    {'#', "twelve", "12"},
    {'#', "twenty", "20"},
    {'#', "thirty", "30"},
    {'#', "forty", "40"},
    {'#', "fifty", "50"},
    {'#', "a quarter of an", "1/4"},
    {'#', "a quarter of a", "1/4"},
    {'#', "a quarter", "1/4"},
    {'#', "quarter of an", "1/4"},
    {'#', "quarter", "1/4"},
    {'#', "a half", "1/2"},
    {'#', "half of an", "1/2"},
    {'#', "half an", "1/2"},
    {'#', "half a", "1/2"},
    {'#', "half", "1/2"},
    {'#', "½", "1/2"},
    {'#', "¼", "1/4"},
    {'#', "¾", "3/4"},
    {'~', "°f", "°F"},
    {'~', "f", "°F"},
    {'~', "deg f", "°F"},
    {'~', "deg. f", "°F"},
    {'~', "degrees f", "°F"},
    {'~', "degrees fahrenheit", "°F"},
    {'~', "fahrenheit", "°F"},
    {'~', "°c", "°C"},
    {'~', "c", "°C"},
    {'~', "deg c", "°C"},
    {'~', "deg. c", "°C"},
    {'~', "degrees c", "°C"},
    {'~', "degrees celsius", "°C"},
    {'~', "celsius", "°C"},
    {'^', "tbsp", "tbsp"},
    {'^', "tsp", "tsp"},
    {'^', "tablespoons", "tbsp"},
    {'^', "tablespoon", "tbsp"},
    {'^', "teaspoons", "tsp"},
    {'^', "teaspoon", "tsp"},
    {'^', "ml", "ml"},
    {'^', "cups", "cups"},
    {'^', "cup", "cup"},
};
bool is_hole(char c) {
    return c == '*' || c == '#' || c == '@' || c == '~' || c == '^';
}

/// The word for a hole that a text begins with; nothing where it has none. A number's word ends at
/// a blank.
const HoleWord* hole_word(char hole, std::string_view text) {
    for (const HoleWord& each : hole_words) {
        if (each.hole != hole || text.size() < each.word.size()) continue;
        const bool last = text.size() == each.word.size();
        const char next = last ? ' ' : text[each.word.size()];
        const bool letter = small(next) >= 'a' && small(next) <= 'z';
        const bool is_sign = hole == '#' && static_cast<unsigned char>(each.word[0]) >= 0x80;
        const bool ends = hole == '#' && !is_sign ? is_blank(next) : !letter;
        const bool same = std::equal(each.word.begin(), each.word.end(), text.begin(),
                                     [](char a, char b) { return a == small(b); });
        if (ends && same) return &each;
    }
    return nullptr;
}

/// Length of the number, or of the name, that a text begins with. With a comma and three digits
/// behind it, it is no number: it may be thousands.
std::size_t number_length(std::string_view text) {
    if (text.empty() || !is_digit(text[0])) return 0;
    const std::size_t end = text.find_first_not_of("0123456789./,");
    std::size_t length = std::min(end, text.size());
    while (!is_digit(text[length - 1])) // the point of `9 oz.` is none of the number's
        --length;
    const std::size_t comma = text.substr(0, length).find(',');
    if (comma == std::string_view::npos) return length;
    const bool one = text.substr(comma + 1, length - comma - 1).find(',') == std::string_view::npos;
    return one && length - comma - 1 != 3 ? length : 0;
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

/// What stands in the holes of `said`. Words for numbers are in digits, degrees in their signs.
using Holes = std::vector<std::string_view>;

/// Where the line matches it from end to end; nothing where it doesn't. Where the line ends too
/// early and is a beginning of it, `begun` has the holes that it has so far.
std::optional<Holes> match(std::string_view said, std::string_view line,
                           std::optional<Holes>* begun = nullptr) {
    Holes holes;
    std::string_view behind_hole; // what is left of the line right behind the last one
    while (!said.empty()) {
        if (line.empty() && begun != nullptr) *begun = holes;
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
        if (next == '%' && !line.empty() && line.data() == behind_hole.data()) {
            skip_blanks(line); // `20 %` is `20%`
        }
        std::size_t length = 0;
        const HoleWord* word = hole_word(next, line);
        if (word != nullptr) {
            length = word->word.size();
        } else if (next == '*') {
            length = line.size();
        } else if (next == '#') {
            length = number_length(line);
        } else if (next == '@') {
            length = name_length(line);
        } else if (!is_hole(next)) {
            if (line.empty() || small(line.front()) != next) return std::nullopt;
            line.remove_prefix(1);
            continue;
        }
        if (length == 0) return std::nullopt;
        holes.push_back(word != nullptr ? word->meant : line.substr(0, length));
        line.remove_prefix(length);
        behind_hole = line;
    }
    if (!line.empty()) return std::nullopt;
    return holes;
}

/// With its holes filled in order; `again` is where they begin again from the first. `{2}` is the
/// second hole, wherever it stands.
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
        if (c == '{' && i + 2 < meant.size() && meant[i + 2] == '}' && is_digit(meant[i + 1])) {
            const auto number = static_cast<std::size_t>(meant[i + 1] - '1');
            if (number < holes.size()) line += holes[number];
            i += 2;
            continue;
        }
        const bool hole = is_hole(c) && next < holes.size();
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

/// Neat within its backticks.
std::string neat_question(std::string_view question) {
    std::string neat;
    for (bool code = false; !question.empty(); code = !code) {
        const std::size_t end = std::min(question.find('`'), question.size());
        const std::string_view part = question.substr(0, end);
        neat += code ? neat_line(part) : std::string(part);
        if (end < question.size()) neat += '`';
        question.remove_prefix(std::min(end + 1, question.size()));
    }
    return neat;
}

/// `makes: half jam-jar`: half of a thing that is counted, or a share, and no figure.
bool is_half_of_a_thing(std::string_view said, std::span<const std::string_view> holes) {
    const bool counts = said.starts_with("makes") || said.starts_with("make ") ||
                        said.starts_with("pour # @") || said.starts_with("# @") ||
                        said.starts_with("fragrance: #");
    return counts && std::any_of(holes.begin(), holes.end(), [](std::string_view hole) {
               return is_digit(hole.front()) && hole.find('/') != std::string_view::npos;
           });
}

std::optional<PhraseAnswer> first_answer(std::string_view line, BlockKind in) {
    const std::string as_it_is = squeezed(line);
    const std::string neat = neat_line(line);
    for (const Phrase& phrase : phrases) {
        if (phrase.in != BlockKind::unknown && phrase.in != in) continue;
        const auto holes = match(phrase.said, line);
        if (!holes || is_half_of_a_thing(phrase.said, *holes)) continue;
        std::string meant = neat_line(filled(phrase.meant, *holes));
        // A row for words and capitals has nothing to say of a unit: that has its own finding.
        const bool same_words = phrase.said == phrase.meant && meant == neat;
        if (meant == as_it_is || same_words) continue;
        return PhraseAnswer{&phrase, std::move(meant),
                            neat_question(filled(phrase.question, *holes, '`'))};
    }
    return std::nullopt;
}

} // namespace

NumberBegun number_that_begins(std::string_view text) {
    if (const HoleWord* word = hole_word('#', text)) return {word->meant, word->word.size()};
    const std::size_t length = number_length(text);
    return {text.substr(0, length), length};
}

DegreesBegun degrees_that_begin(std::string_view text) {
    const HoleWord* word = hole_word('~', text);
    return word == nullptr ? DegreesBegun{} : DegreesBegun{word->meant, word->word.size()};
}

std::optional<PhraseAnswer> answer_of(std::string_view line, BlockKind in) {
    auto answer = first_answer(line, in);
    constexpr int most =
        4; // `fragrance: lavender oil` is `scent: lavender oil`, and that a row too
    for (int i = 1; i < most && answer && answer->phrase->certain; ++i) {
        auto next = first_answer(answer->line, in);
        if (!next) break;
        answer = std::move(next);
    }
    return answer;
}

std::vector<PhraseAnswer> answers_begun(std::string_view line, BlockKind in) {
    constexpr std::size_t most_holes = 9;
    std::vector<PhraseAnswer> answers;
    for (const Phrase& phrase : phrases) {
        if (phrase.in != BlockKind::unknown && phrase.in != in) continue;
        if (phrase.meant.empty() || phrase.said == phrase.meant) continue;
        std::optional<Holes> holes;
        if (match(phrase.said, line, &holes) || !holes) continue;
        if (is_half_of_a_thing(phrase.said, *holes)) continue;
        holes->resize(most_holes, "…");
        answers.push_back({&phrase, neat_line(filled(phrase.meant, *holes)),
                           neat_question(filled(phrase.question, *holes, '`'))});
    }
    return answers;
}

} // namespace waxwright
