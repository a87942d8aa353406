// A number with its dimension, and the arithmetic a recipe may do with it.
#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "units/dimension.hpp"
#include "units/money.hpp"
#include "units/unit.hpp"

namespace waxwright {

/// A value in the inside units of `unit.hpp`, with what is needed to show it as it was written.
struct Quantity {
    double value = 0;
    Dimension dimension{};
    UnitId unit = no_unit;        // the (first) unit it was written in
    Currency currency = no_money; // where the dimension has money in it
    double doubt = 0;             // half-width of `+-`, inside units, never negative
    bool of_volumes = false;      // a ratio of volumes (`2 tsp per cup`), which is none of weights
};

/// Why two quantities cannot be put together.
enum class Fault : std::uint8_t {
    unlike,           // dimensions differ
    point_arithmetic, // point + point, interval - point, a point times or over anything
    currencies,       // two currencies
    by_zero,
    too_large, // past 1e300, or a unit to a power past 127
};

using Outcome = std::variant<Quantity, Fault>;

/// Sums and differences keep the left operand's unit for showing (point - point is an interval in
/// the matching interval unit, interval + point a point in the matching point unit; a left operand
/// without a unit takes the right one's). Doubts add. A bare count and a ratio are unlike.
Outcome add(const Quantity& left, const Quantity& right);
Outcome subtract(const Quantity& left, const Quantity& right);
/// Products and quotients; three lengths multiplied stay a length cubed. The quotient of likes is a
/// ratio; money over the same money is a ratio; a count over a count, a count over a ratio and a
/// product in which the units cancel are counts; a ratio times or over a count is a ratio. The unit
/// for showing is that of the operand that has the result's dimension. Relative doubts add to first
/// order.
Outcome multiply(const Quantity& left, const Quantity& right);
Outcome divide(const Quantity& left, const Quantity& right);

/// A number as the grammar has it: `14.5`, `-3`, `3/4`, `1 1/2` (any spaces or tabs between).
/// A digit must stand on both sides of the point; the sign, if any, stands straight before the
/// first digit and is that of the whole. Empty when the text is no such number, when a denominator
/// is 0 or when it is over 1e300.
std::optional<double> read_number(std::string_view text);

} // namespace waxwright
