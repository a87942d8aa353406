// Mending a misspelt word: the nearest one as a fix, and when that is certain.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "findings/finding.hpp"

namespace waxwright {

/// Whose word it is. The language's own words are few, so a near one is meant. Names are the
/// makers': two things may well have names that are near, and one of them not be there.
enum class Spelling : std::uint8_t { word, name };

/// True where `wrong` can't be anything but `meant` misspelt: no other word of `words` is as near,
/// and every digit is the same. A word of the language begins with the right letter; it has a
/// letter more, one less or two swapped, another letter in six, or two edits in eight: `pore` may
/// be `pour` or `poke`. A name differs in hyphens and capitals only, or within one of its words: by
/// one edit in five letters or two in eight, its first and last letter being right (`clover` is not
/// `clove`).
bool surely_meant(std::string_view wrong, std::string_view meant,
                  std::span<const std::string_view> words, Spelling kind);

/// Offers the nearest of `words` in the place of `wrong`, if one is near; certain as above, unless
/// something else speaks against it.
void offer_nearest(Finding& finding, Span at, std::string_view wrong,
                   std::span<const std::string_view> words, Spelling kind, bool may_be_sure = true);

} // namespace waxwright
