#include "findings/spelling.hpp"

#include <algorithm>
#include <iterator>
#include <string>
#include <vector>

#include "findings/nearest.hpp"

namespace waxwright {

namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// The numbers in a word, parted by blanks: `tin-8oz` and `tin-6oz` are two things.
std::string numbers(std::string_view word) {
    std::string text;
    for (std::size_t i = 0; i < word.size(); ++i) {
        if (!is_digit(word[i])) continue;
        if (i > 0 && !is_digit(word[i - 1]) && !text.empty()) text += ' ';
        text += word[i];
    }
    return text;
}

/// The letters and digits, all small: what is left of a name without its hyphens.
std::string squashed(std::string_view word) {
    std::string text;
    for (const char c : word) {
        if (c == '-' || c == '_') continue;
        text += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return text;
}

/// The word between hyphens that holds [begin, end); empty if a hyphen is in there.
std::string_view word_around(std::string_view name, std::size_t begin, std::size_t end) {
    if (name.substr(begin, end - begin).find('-') != std::string_view::npos) return {};
    const std::size_t before = begin == 0 ? std::string_view::npos : name.rfind('-', begin - 1);
    const std::size_t first = before == std::string_view::npos ? 0 : before + 1;
    return name.substr(first, std::min(name.find('-', end), name.size()) - first);
}

/// True if the two differ within one word of theirs, which is long enough for so many edits.
bool differ_within_a_word(std::string_view wrong, std::string_view meant, std::size_t edits) {
    const std::size_t shorter = std::min(wrong.size(), meant.size());
    std::size_t head = 0;
    while (head < shorter && wrong[head] == meant[head])
        ++head;
    std::size_t tail = 0;
    while (tail < shorter - head &&
           wrong[wrong.size() - 1 - tail] == meant[meant.size() - 1 - tail])
        ++tail;
    const std::string_view ours = word_around(wrong, head, wrong.size() - tail);
    const std::string_view theirs = word_around(meant, head, meant.size() - tail);
    const std::size_t letters = std::min(ours.size(), theirs.size());
    return letters >= (edits == 1 ? 5U : 8U) && ours.front() == theirs.front() &&
           ours.back() == theirs.back();
}

/// True if two neighbours have changed their places, and that is all.
bool are_swapped(std::string_view wrong, std::string_view meant) {
    std::size_t at = 0;
    while (at < wrong.size() && wrong[at] == meant[at])
        ++at;
    return at + 1 < wrong.size() && wrong[at] == meant[at + 1] && wrong[at + 1] == meant[at] &&
           wrong.substr(at + 2) == meant.substr(at + 2);
}

/// True if one edit more leads to another word: `lavendin` is near lavandin, and lavender too.
bool has_rival(std::string_view wrong, const Near& near, std::span<const std::string_view> words) {
    std::vector<std::string_view> others;
    std::copy_if(words.begin(), words.end(), std::back_inserter(others),
                 [&](std::string_view word) { return word != near.word; });
    const Near rival = find_near(wrong, others, near.edits + 1);
    return !rival.word.empty() && squashed(wrong) != squashed(near.word);
}

} // namespace

bool surely_meant(std::string_view wrong, std::string_view meant,
                  std::span<const std::string_view> words, Spelling kind) {
    const Near near = find_near(wrong, words);
    if (!near.alone || near.word != meant || numbers(wrong) != numbers(meant)) return false;
    if (near.edits == 0 || near.edits > 2) return false;
    if (kind == Spelling::name) {
        if (wrong == std::string(meant) + "s") return true; // `6 jam-jars`
        if (has_rival(wrong, near, words)) return false;
        return squashed(wrong) == squashed(meant) || differ_within_a_word(wrong, meant, near.edits);
    }
    if (squashed(wrong) == squashed(meant)) return true; // `Melt`
    const std::size_t letters = std::min(wrong.size(), meant.size());
    if (wrong.front() != meant.front()) return false; // `cold` is not `hold`
    if (near.edits == 2) return letters >= 8;
    const bool other_letter = wrong.size() == meant.size() && !are_swapped(wrong, meant);
    return letters >= (other_letter ? 6U : 3U); // `stove` is not `stone`
}

void offer_nearest(Finding& finding, Span at, std::string_view wrong,
                   std::span<const std::string_view> words, Spelling kind, bool may_be_sure) {
    const std::string_view near = nearest(wrong, words);
    if (near.empty()) return;
    const bool certain = may_be_sure && surely_meant(wrong, near, words, kind);
    finding.fixes.push_back(put(at, std::string(near), certain));
}

} // namespace waxwright
