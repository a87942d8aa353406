// The nearest word: what a misspelt one was probably meant to be.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace waxwright {

/// The word of `words` that takes fewest edits (a letter more, less, changed, or two swapped) from
/// `wrong`; empty when none is within a third of its length (at least 1 edit, at most 3, never as
/// many as it has letters, never over `most_edits`). Letters are counted in bytes. Ties go to the
/// earlier word.
std::string_view nearest(std::string_view wrong, std::span<const std::string_view> words,
                         std::size_t most_edits = 3);

/// The same with what it takes, and whether no other word takes as few.
struct Near {
    std::string_view word;
    std::size_t edits = 0;
    bool alone = true;
};
Near find_near(std::string_view wrong, std::span<const std::string_view> words,
               std::size_t most_edits = 3);

/// The nearest; where there is none, the only word two edits away from a short one that begins with
/// the same letter: `load` for `lode`. Good enough to ask, never to write.
std::string_view maybe_meant(std::string_view wrong, std::span<const std::string_view> words);

/// "did you mean `x`?" of what may be meant, or "" when nothing is near.
std::string did_you_mean(std::string_view wrong, std::span<const std::string_view> words);

} // namespace waxwright
