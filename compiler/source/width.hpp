// How wide a character stands in a terminal.
#pragma once

#include <cstdint>

namespace waxwright {

/// Terminal columns of a code point: 2 for East Asian wide and emoji, 0 for marks that sit on the
/// character before and for invisible format characters, else 1. A tab is the caller's affair.
int display_width(std::uint32_t code_point);

} // namespace waxwright
