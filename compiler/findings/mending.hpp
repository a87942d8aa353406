// Carrying out fixes: which of them go together, and the text that comes of them.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "findings/finding.hpp"

namespace waxwright {

/// The fix that may be carried out without asking: the finding's only certain one, which takes away
/// nothing beyond a line, so that what stands on other lines stays there. Nothing otherwise.
const Fix* certain_fix(const Finding& finding, const Sources& sources);

/// True where the two can't both be carried out: they change the same text, or put something in at
/// the same place.
bool overlap(const Fix& a, const Fix& b);

/// The text with some edits done, which don't overlap. They may come in any order.
std::string edited(std::string_view text, std::vector<Edit> edits);

} // namespace waxwright
