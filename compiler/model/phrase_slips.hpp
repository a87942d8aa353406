// Answers to lines of a block that no row of the phrase book can hold: those that hang on what else
// the block or the file has, or that have to be worked out.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "findings/finding.hpp"
#include "model/phrase_text.hpp"

namespace waxwright {

/// The blocks that a file declares, by their names. What can't be read is left out.
using Declared = std::map<std::string_view, BlockKind>;
Declared declared_in(std::string_view text);

/// A line as the phrase book sees it.
struct BookLine {
    Span at;               // the words of the line
    std::string_view line; // the same without a reason behind it
    std::string_view text; // of the whole file
    BlockAround block;
    const Declared& declared;
};

/// What to write, or ask.
struct SlipAnswer {
    std::string hint;
    std::string line{};                // empty where there is none to offer
    bool certain = false;              // of the line
    std::vector<std::string> others{}; // lines to choose from besides; none is certain then
};
std::optional<SlipAnswer> slip_answer(const BookLine& book);
/// The same of lines with a number of things: what is in stock, what a batch pours, how many wicks.
std::optional<SlipAnswer> count_answer(const BookLine& book);
/// The same of a load in figures that it does not take.
std::optional<SlipAnswer> load_answer(const BookLine& book);
/// The same of figures that are written in another way: `60° C`, `70 - 75 °C`, `about 250 ml`; of a
/// step with a list's number or with a dye, and of a maker's country.
std::optional<SlipAnswer> figure_answer(const BookLine& book);
/// The same of a step whose temperature has no thermometer: a line with °C, one with °F, without
/// those at which no wax is worked.
std::optional<SlipAnswer> degrees_answer(const BookLine& book);

/// A day and a time as people write them, in the language's way: two where the day and the month
/// may be either; none where it is no date.
struct DatesMeant {
    std::vector<std::string> dates{};
    bool certain = false; // year, month, day were all there, in that order
};
DatesMeant dates_meant(std::string_view written);

} // namespace waxwright
