// Lines in a maker's own words that no row of the phrase book has: what the finding says of them.
#pragma once

#include <string_view>

#include "model/phrase_slips.hpp"

namespace waxwright {

/// True if the text begins with the first word of a step.
bool begins_a_step(std::string_view text);

/// A step in words that no row of the book has: the finding gets what it comes to. `because` is
/// the reason behind the line, which stays. False where the words speak of no step.
bool answer_step(const BookLine& book, std::string_view because, Finding& finding);
/// The same of a line of a block.
bool answer_line(const BookLine& book, Finding& finding);
/// Where the row that was found only asks, and the line's own words come to more: a blend with its
/// figures, a vessel of the file with its count. `row_in` is the kind that the row is for. False
/// where they don't.
bool answer_better(const BookLine& book, BlockKind row_in, Finding& finding);
/// True where a step says more than what a row of the book would make of it: `pour into half the
/// jars`, or stands where that has no place: `clean jars` behind the pour.
bool says_more(const BookLine& book, std::string_view meant);
/// Any other words among the steps can be a note of the maker's own.
void offer_note(const BookLine& book, Finding& finding);

void offer_others(SlipAnswer& slip, Span at, Finding& finding);

} // namespace waxwright
