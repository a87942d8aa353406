// The words for every commitment point of the grammar: what was expected there, and how it is
// written. A must<> without words here does not compile. All are findings of the rule `syntax`.
#pragma once

#include "grammar/expectation.hpp"
#include "grammar/rules.hpp"

namespace waxwright::grammar {

template <typename Rule>
inline constexpr Words words{};

// clang-format off
template <> inline constexpr Words words<comma_in_number>{"a number with a decimal point", "write a point, not a comma, and no separator for thousands: 2.5 g, 1000 g", Expectation::decimal_point};
template <> inline constexpr Words words<point_first>{"a digit before the point", "write 0.5, not .5", Expectation::digit_before_point};
template <> inline constexpr Words words<no_exponent>{"the unit of the number", "a number has no exponent: write it out, 2000 or 0.002"};
template <> inline constexpr Words words<cash_number>{"a number after the money sign", "write $7.25, or 7.25 EUR"};
template <> inline constexpr Words words<doubt_figure>{"a figure after +-", "write how far off it may be: 0.92 g/ml +- 0.02"};
template <> inline constexpr Words words<group_operand>{"a value in the parentheses", "write (100% - 20%), for example", Expectation::operand};
template <> inline constexpr Words words<group_close>{"a closing `)`", "close the parenthesis on this line, or end the line within it at an operator"};
template <> inline constexpr Words words<rest_name>{"a name after `rest`", "write `rest coconut`: what the percents leave"};
template <> inline constexpr Words words<factor_needed>{"a value after the operator", "write a number, a name or a parenthesis there", Expectation::operand};
template <typename Room> inline constexpr Words words<product_needed<Room>>{"a value after the operator", "write a number, a name or a parenthesis there", Expectation::operand};
template <> inline constexpr Words words<operand_needed>{"a value", "write a number with its unit, or the name of a let", Expectation::value};
template <> inline constexpr Words words<basis>{"a name after `of`", "write `of wax`, `of total` or `of water`"};
template <> inline constexpr Words words<phrase_needed>{"another value after the comma", "take the comma away, or go on after it"};
template <> inline constexpr Words words<value_needed>{"a value", "write the value on the same line as its name", Expectation::value};
template <> inline constexpr Words words<plus_ends_line>{"the start of a line", "put the `+` at the end of the line before: a line that ends in `+` goes on"};
template <> inline constexpr Words words<member_close>{"the end of the line", "", Expectation::line_end};
template <> inline constexpr Words words<statement_close>{"the end of the line", "", Expectation::line_end};
template <> inline constexpr Words words<text_close>{"a closing quote", "a text begins and ends with \" on one line; a quote inside is written \\\"", Expectation::closing_quote};
template <> inline constexpr Words words<because_text>{"a text in quotes", "write because \"the reason\""};
template <> inline constexpr Words words<because_blank>{"a text in quotes", "write because \"the reason\""};
template <> inline constexpr Words words<pour_needed>{"how many of which recipe", "write `pour 24 tide-line` in a batch; a step of a recipe goes inside `steps {`"};
template <> inline constexpr Words words<have_needed>{"how much of what", "write `have 6 lb soy`"};
template <> inline constexpr Words words<lot_text>{"the lot in quotes", "write lot \"B771\""};
template <> inline constexpr Words words<clause_needed>{"a step after the comma", "write `, stir 2 min`"};
template <> inline constexpr Words words<step_needed>{"a step", "a step begins with its verb: `melt to 75 °C`, `pour at 60 °C`"};
template <> inline constexpr Words words<allow_out_of_steps>{"a step", "put this line in the recipe, above `steps {`"};
template <> inline constexpr Words words<allow_rule>{"the name of a rule", "write `allow load-near-limit because \"the reason\"`"};
template <> inline constexpr Words words<some_blanks_needed>{"`because` and the reason", "write `allow load-near-limit because \"the reason\"`"};
template <> inline constexpr Words words<allow_because>{"`because` and the reason", "write `allow load-near-limit because \"the reason\"`"};
template <> inline constexpr Words words<key_colon>{"`:`", "a property is written `key: value`; a step goes inside `steps {`", Expectation::colon};
template <> inline constexpr Words words<member_needed>{"a property", "write `key: value`; in a recipe also `steps {` or `allow RULE because \"…\"`"};
template <> inline constexpr Words words<head_name>{"a name for the block", "write `kind name {`; a name is lower-case words joined by hyphens"};
template <> inline constexpr Words words<head_like>{"the name of the block this one is like", "write `recipe stronger like gentle {`"};
template <> inline constexpr Words words<head_open>{"`{`", "write `kind name {`; a name is one word, its parts joined by hyphens"};
template <> inline constexpr Words words<language_number>{"the edition's number", "write `language 1`"};
template <> inline constexpr Words words<use_item>{"a module's name or a file in quotes", "write `use waxes, oils` or `use \"bench.candle\"`"};
template <> inline constexpr Words words<currency_code>{"an ISO 4217 code", "write `currency CAD`"};
template <> inline constexpr Words words<let_name>{"a name", "write `let house-load = 7% of wax`"};
template <> inline constexpr Words words<let_equals>{"`=`", "write `let house-load = 7% of wax`"};
template <> inline constexpr Words words<statement_needed>{"a block or a statement", "a file has `language`, `use`, `let`, `currency` and blocks such as `recipe tide-line {`", Expectation::statement};
// clang-format on

} // namespace waxwright::grammar
