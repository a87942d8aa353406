// How much one candle may hold, where that is doubtful.
#pragma once

#include <optional>

#include "reckon/inputs.hpp"

namespace waxwright {

/// ml of wax and what is in it at the high end of the doubts of the vessel's figures; nothing where
/// none of them is doubtful, or what it holds isn't known.
std::optional<double> most_contents(const Inputs& in);

} // namespace waxwright
