// CAS numbers: how they are written, and the digit that checks the others.
#pragma once

#include <optional>
#include <string_view>

namespace waxwright {

/// The last digit that a number written as "78-70-6" (two to seven digits, two, one) should have:
/// the digits before it, each times its place counted from the right, summed, modulo 10. Nothing
/// where it isn't written so. (From memory of the CAS Registry's own description.)
std::optional<int> cas_check_digit(std::string_view number);

} // namespace waxwright
