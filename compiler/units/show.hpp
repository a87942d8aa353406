// Numbers and quantities as people read them. Nothing here depends on the locale.
#pragma once

#include <string>

#include "units/quantity.hpp"

namespace waxwright {

/// At most `decimals` decimals, rounded half to even on the decimal text, trailing zeros dropped,
/// a thin group space (U+202F) every three digits from five digits on; never "-0".
std::string show_number(double value, int decimals);
/// A fraction as percent: 0.0625 -> "6.25 %", at most two decimals.
std::string show_percent(double fraction);
/// A value in inside units, printed in `unit` with a fitting number of decimals and the unit's
/// plain symbol: "75 °C", "10.75 fl oz", "12 mm". With no_unit: in the inside unit of `dimension`.
std::string show_in(double value, UnitId unit, Dimension dimension);
/// The quantity in the unit it was written in.
std::string show(const Quantity& quantity);
/// Both scales, whole degrees unless a half is needed: "75 °C (167 °F)"; Fahrenheit first if asked.
std::string show_temperature(double celsius, bool fahrenheit_first = false);

} // namespace waxwright
