// What changed between two versions of a file, as text.
#pragma once

#include <string>

#include "compare/compare.hpp"

namespace waxwright {

/// For people: Markdown. "" where nothing is other.
std::string comparison_markdown(const Comparison& comparison);
/// For programs: one JSON object, whose keys are the contract of docs/comparison-json.md.
std::string comparison_json(const Comparison& comparison);

} // namespace waxwright
