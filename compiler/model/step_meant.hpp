// What a step in a maker's own words comes to, where no row of the phrase book is it.
#pragma once

#include <optional>
#include <string_view>

#include "model/phrase_slips.hpp"

namespace waxwright {

/// The step that the words of a line speak of, or the question that is left, such as how long.
/// Certain where each word of it is known, and each figure found its place. Nothing where its words
/// speak of no step, or of two.
std::optional<SlipAnswer> step_meant(std::string_view line);

/// True if the place stands between `steps {` and its brace, by the text of the file alone.
bool is_among_steps(std::string_view text, std::size_t at);

} // namespace waxwright
