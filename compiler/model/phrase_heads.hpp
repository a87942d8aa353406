// Answers to lines that begin a block or stand at the head of a file, and to a key without its
// colon. Each is false where the line is none of these, and leaves the finding as it was.
#pragma once

#include "model/phrase_slips.hpp"

namespace waxwright {

/// `use waxes oils wicks`: the names of modules want commas; other words are no modules.
bool answer_use(const BookLine& book, Finding& finding);
/// `makes 6 jam-jar`: a key without its colon.
bool answer_colon(const BookLine& book, Finding& finding);
/// `vessel` alone, `wax Marsh Soy`, `vessel {`: a head without its name, its brace or both.
bool answer_bare_head(const BookLine& book, Finding& finding);
/// `recipe Kitchen Jam {`: a name of several words.
bool answer_head(const BookLine& book, Finding& finding);

} // namespace waxwright
