// From exact masses to what a scale can show: whole divisions that still add up. g.
#pragma once

#include <span>

namespace waxwright {

/// The division to weigh in where no scale is named: 0.1 g under 20 g, else 1 g (common practice).
/// What is within 1e-9 of 20 g is not under it.
double usual_division(double grams, bool ounces = false);
/// The same for lines that are weighed together: 0.1 g if any of them is under 20 g. In ounces it
/// is 0.1 oz, and 0.01 oz under 2 oz.
double usual_division(std::span<const double> exact, bool ounces = false);
inline constexpr double an_ounce = 28.349523125; // g, as units/unit_table.cpp has it

/// `count` divisions in g. Of divisions that are a whole part of a gram (0.1 g, 0.05 g) it is the
/// double nearest the decimal number, so that 3 × 0.1 g is 0.3 g.
double divisions(double count, double division);

/// Rounds lines to whole divisions by the method of largest remainders (as seats are shared out by
/// votes): their sum is rounded to a division (a half away from 0), each line down to one, and the
/// divisions that are left go one each to the lines with the largest remainders, among equals to
/// the earlier. What is within 1e-9, relative, of a whole division counts as it (at most 1e-6 of a
/// division), and remainders within 1e-8 of a division of each other as equal. `weighed` has the
/// length of `exact`, whose masses are 0 or more, and is filled in g. Returns the sum in g. A
/// division so fine that a double can't count it (over 2^53 of them) leaves the masses as they are.
double weigh_out(std::span<const double> exact, double division, std::span<double> weighed);

} // namespace waxwright
