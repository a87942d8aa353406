// A number as decimal text, the one place where it is rounded for people.
#pragma once

#include <cstdint>
#include <string>

namespace waxwright {

enum class Zeros : std::uint8_t { dropped, kept };
enum class Ties : std::uint8_t { even, up };

/// `value` with at most (or, with zeros kept, exactly) `decimals` decimals, 0 to 20. What is
/// rounded is the shortest decimal text that reads back to the same double, so 2.675 is the tie it
/// looks like; ties go to the even digit (from memory of NIST SP 811, B.7.1), or up, away from 0,
/// as money is rounded. Three-digit groups are set off by U+202F when there are five digits or more
/// before the point. From 1e15 on, where a double has no decimals worth telling, `1.5e+20`. Never
/// "-0", never "nan": a number that is none is "?", an infinite one "∞".
std::string figures(double value, int decimals, Zeros zeros, Ties ties = Ties::even);

} // namespace waxwright
