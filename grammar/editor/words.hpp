// The words of the language by what they are, each from the table that the compiler reads.
#pragma once

#include <string_view>
#include <vector>

#include "model/schema.hpp"

namespace waxwright::editor {

using Words = std::vector<std::string_view>;

Words kinds();
Words keys();
Words verbs(); // whole: "second pour"
Words rule_names();
Words modules();
Words currency_codes();
/// What may stand behind a number: units, codes of currencies, `part` and `parts`.
Words units();
/// The words of the language that mean the same wherever they stand: `to`, `like`, `in-room`.
Words joining_words();
/// The words that begin a line of a file besides the kinds: `use`, `let`; not `allow`.
Words statement_words();

/// A property that chooses among words, and what it may choose in any block.
struct ChoiceOf {
    Key key;
    Words words;
};
std::vector<ChoiceOf> choices();

/// True for a unit as written, quotients and all, and for `part` and `parts`.
bool is_unit(std::string_view text);

} // namespace waxwright::editor
