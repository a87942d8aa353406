#include "findings/nearest.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

#include <fmt/format.h>

namespace waxwright {

namespace {

/// Edits from one word to another, or any number over `limit` when it takes more. Counted in bytes.
/// A pair of neighbours swapped is one edit, and is not edited again (optimal string alignment).
class Distance {
public:
    explicit Distance(std::string_view from) : from_(from) {}

    std::size_t to(std::string_view word, std::size_t limit) {
        const std::size_t longer = std::max(word.size(), from_.size());
        if (longer - std::min(word.size(), from_.size()) > limit) return limit + 1;
        // Not before, so that nothing is made for a word of megabytes.
        for (std::vector<std::size_t>* row : {&before_, &last_, &row_})
            row->resize(from_.size() + 1);
        for (std::size_t j = 0; j < last_.size(); ++j)
            last_[j] = j;
        for (std::size_t i = 1; i <= word.size(); ++i) {
            if (next_row(word, i) > limit) return limit + 1;
            before_.swap(last_);
            last_.swap(row_);
        }
        return last_.back();
    }

private:
    /// Fills the row of the word's first `i` letters; returns its least number.
    std::size_t next_row(std::string_view word, std::size_t i) {
        row_[0] = i;
        std::size_t least = i;
        for (std::size_t j = 1; j <= from_.size(); ++j) {
            const bool same = word[i - 1] == from_[j - 1];
            row_[j] = std::min({last_[j] + 1, row_[j - 1] + 1, last_[j - 1] + (same ? 0 : 1)});
            const bool swapped =
                i > 1 && j > 1 && word[i - 1] == from_[j - 2] && word[i - 2] == from_[j - 1];
            if (swapped) row_[j] = std::min(row_[j], before_[j - 2] + 1);
            least = std::min(least, row_[j]);
        }
        return least;
    }

    std::string_view from_;
    std::vector<std::size_t> before_, last_, row_; // of the word's first i-2, i-1 and i letters
};

/// `lode` and `leaf` are short, and two edits off; they share their first letter with one word
/// alone.
std::string_view near_short_word(std::string_view wrong, std::span<const std::string_view> words) {
    constexpr std::size_t edits = 2;
    if (wrong.size() < 3 || wrong.size() > 5) return {};
    Distance distance(wrong);
    std::string_view only;
    for (const std::string_view word : words) {
        if (word.empty() || word.front() != wrong.front() || word == only) continue;
        if (distance.to(word, edits) > edits) continue;
        if (!only.empty()) return {};
        only = word;
    }
    return only;
}

} // namespace

Near find_near(std::string_view wrong, std::span<const std::string_view> words,
               std::size_t most_edits) {
    Near best;
    if (wrong.empty()) return best;
    // With as many edits as letters nothing of the word is left: `x` is not near `g`.
    const std::size_t most =
        std::min({std::clamp<std::size_t>(wrong.size() / 3, 1, 3), wrong.size() - 1, most_edits});
    std::size_t limit = most;
    Distance distance(wrong);
    for (const std::string_view word : words) {
        const std::size_t edits = distance.to(word, limit);
        if (edits > limit) continue;
        if (best.word.empty() || edits < best.edits) {
            best = {word, edits, true};
        } else if (word != best.word) {
            best.alone = false;
        }
        if (edits == 0) break;
        limit = edits;
    }
    return best;
}

std::string_view nearest(std::string_view wrong, std::span<const std::string_view> words,
                         std::size_t most_edits) {
    return find_near(wrong, words, most_edits).word;
}

std::string_view maybe_meant(std::string_view wrong, std::span<const std::string_view> words) {
    const std::string_view word = nearest(wrong, words);
    return word.empty() ? near_short_word(wrong, words) : word;
}

std::string did_you_mean(std::string_view wrong, std::span<const std::string_view> words) {
    const std::string_view word = maybe_meant(wrong, words);
    return word.empty() ? std::string() : fmt::format("did you mean `{}`?", word);
}

} // namespace waxwright
