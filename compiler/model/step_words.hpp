// A step in a maker's own words, taken apart: what each word speaks of, and the figures.
#pragma once

#include <array>
#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace waxwright {

/// What a word of a step speaks of. A word may speak of several: `drop` of adding and of cooling.
enum class Cue : unsigned char {
#define CUE(what, words) what,
#include "model/step_words.def"
    count
};

/// The figures are as the language has them: `70 °C`, `1/4 in`, `2 weeks`.
struct StepWords {
    std::array<bool, static_cast<std::size_t>(Cue::count)> said{};
    std::vector<Cue> in_order{}; // the first word of each cue, in the order of the line
    std::vector<std::string> temperatures{};
    std::vector<std::string> times{};
    std::vector<std::string> lengths{};
    std::vector<std::string> shares{};  // `1%`
    std::vector<std::string> amounts{}; // weights and volumes
    std::vector<std::string> numbers{}; // without a unit, or with degrees of no thermometer
    std::vector<std::string> others{};  // words that are none of these
    bool range = false;                 // `2-3 min`: its first figure is taken
    bool overnight = false;             // taken for 12 h
    bool odd = false;                   // a figure or a sign that is not read here, such as `.5`

    bool has(Cue cue) const { return said[static_cast<std::size_t>(cue)]; }
    bool any(std::initializer_list<Cue> cues) const;
    /// True if the one's first word stands before the other's, or the other has none.
    bool before(Cue one, Cue other) const;
};
/// Of a line without its comment and its reason; any text is taken.
StepWords step_words(std::string_view line);

} // namespace waxwright
