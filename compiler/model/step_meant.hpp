// What a step in a maker's own words comes to, where no row of the phrase book is it.
#pragma once

#include <optional>
#include <string_view>

#include "model/phrase_slips.hpp"

namespace waxwright {

/// What stands above a step in its recipe.
struct StepsAbove {
    bool poured = false; // a line that begins with `pour`
};
/// By the text of the file alone; nothing where the place is not between `steps {` and its brace.
std::optional<StepsAbove> steps_above(std::string_view text, std::size_t at);

/// The step that the words of a line speak of, or the question that is left, such as how long.
/// Certain where the line speaks of nothing else, each figure found its place, and the step is
/// where it belongs in the recipe. Nothing where its words speak of no step, or of two.
std::optional<SlipAnswer> step_meant(std::string_view line, const StepsAbove& above);

} // namespace waxwright
