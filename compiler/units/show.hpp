// Numbers and quantities as people read them. Nothing here depends on the locale.
#pragma once

#include <string>

#include "units/quantity.hpp"

namespace waxwright {

/// At most `decimals` decimals (0 to 20), rounded half to even on the shortest decimal text that
/// reads back to the value, trailing zeros dropped, a thin group space (U+202F) every three digits
/// from five digits on; never "-0", never "nan" (see figures.hpp).
std::string show_number(double value, int decimals);
/// A fraction as percent: 0.0625 -> "6.25 %", at most two decimals.
std::string show_percent(double fraction);
/// A value in inside units, printed in `unit` with a fitting number of decimals and the unit's
/// plain symbol: "75 °C", "10.75 fl oz", "12 mm", "14 days". With no_unit: in the inside unit of
/// `dimension`, but shares in %, times in min, rates by the hour ("4 g/h").
std::string show_in(double value, UnitId unit, Dimension dimension);
/// The quantity in the unit it was written in, with its doubt if it has one: "0.92 g/ml ± 0.02".
/// Money with its code: "7.25 EUR", "18.00 USD/h".
std::string show(const Quantity& quantity);
/// Both scales, whole degrees unless a half is needed: "75 °C (167 °F)"; Fahrenheit first if asked.
std::string show_temperature(double celsius, bool fahrenheit_first = false);

/// "70 to 78 mm"; one figure where both are equal.
std::string range_words(double low, double high, UnitId unit, Dimension dimension);

} // namespace waxwright
