// What a commitment point of the grammar waits for: in words, and what hints and fixes go by.
// It includes nothing, so that what words a mistake needs no PEGTL.
#pragma once

namespace waxwright::grammar {

enum class Expectation {
    other, // no hint or fix is decided by it
    decimal_point,
    digit_before_point,
    value,
    operand, // a value within a sum: in parentheses, or behind an operator
    colon,
    line_end,
    closing_quote,
    statement, // or a block
};

/// `expected` completes "… expected here"; `hint` shows how it is written.
struct Words {
    const char* expected = nullptr;
    const char* hint = "";
    Expectation expectation = Expectation::other;
};

} // namespace waxwright::grammar
