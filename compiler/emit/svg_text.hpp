// What a picture's words need: escaping, their width, and breaking them into lines.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plan/plan.hpp"

namespace waxwright {

/// Text for XML: & < > " as entities; what XML 1.0 has no place for, control characters among it,
/// as U+FFFD.
std::string xml_text(std::string_view text);
/// mm that a text takes at most in the sans-serif a viewer has, at a size in mm (an estimate, on
/// the wide side).
double text_width(std::string_view text, double size);
/// The words in lines of no more than `width`; a word that is longer is broken.
std::vector<std::string> broken(std::string_view text, double width, double size);

/// A step's sentence with its temperature in both scales.
std::string sentence_of(const StepPlan& step, bool us);
/// "0:42": hours and minutes.
std::string clock_of(double minutes);
/// "70 to 85 °C, 158 to 185 °F", or one of each for a line.
std::string degrees_of(double low_c, double high_c, bool us);

} // namespace waxwright
