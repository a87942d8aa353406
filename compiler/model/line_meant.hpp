// What a line of a block in a maker's own words comes to, where no row of the phrase book is it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/phrase_slips.hpp"

namespace waxwright {

/// A key in other words (`batch size: 8`), a blend as people write it (`lavender/rosemary 2:1`), a
/// load with words behind it (`6% by weight`). Never certain. Nothing where it speaks of none.
std::optional<SlipAnswer> line_meant(const BookLine& book);

/// `60% lavender + 40% rosemary` of a blend in other words; where it has no figures they are `…`.
/// Empty where it is no blend.
std::string blend_meant(std::string_view value, std::string_view share_unsaid);

} // namespace waxwright
