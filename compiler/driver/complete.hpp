// What may stand at a place of a call, for shells: their scripts (shells/) ask for it with
// `waxwright --complete WORDS…`, and know nothing of commands and options themselves.
#pragma once

#include <string>
#include <vector>

namespace waxwright {

/// `words` are those behind `waxwright`, as far as the cursor; the last is the one that is being
/// written, empty where it is not begun. The first line of what is returned says which files fit:
/// `:none`, `:recipes` (and folders), `:folders` or `:files`. Then comes a line for each word that
/// fits: the word, a tab, what it is.
std::string completions(const std::vector<std::string>& words);

} // namespace waxwright
