// A test burn in one line.
#pragma once

#include <string>

#include "plan/plan.hpp"

namespace waxwright {

/// "first, the verdict was pass, on 2026-11-02: 3 candles, tallest flame 25 mm, …": what its maker
/// wrote down.
std::string test_burn_words(const TestPlan& test, bool us_units);

} // namespace waxwright
