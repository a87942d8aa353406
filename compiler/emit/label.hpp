// Labels as text: for people, as Markdown, and for programs, as TOML.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "plan/label.hpp"

namespace waxwright {

/// What is printed on it, line by line; the signs of Unicode and [GHS07] stand for drawings.
std::vector<std::string> label_lines(const Label& label);

/// Grouped by market: first the rules that were applied and what can't be known, then each label:
/// its text, what is to be filled in, its sizes and its arithmetic.
std::string markdown_labels(std::span<const Label> labels);

/// The text of each alone, as the part of a sheet behind its record.
std::string markdown_label_part(std::span<const Label> labels);

/// The same facts for other programs; the keys are the contract.
std::string toml_labels(std::span<const Label> labels);

} // namespace waxwright
