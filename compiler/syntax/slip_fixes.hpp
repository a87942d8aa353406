// What to write in the place of a mistake of the pen: the fixes that a line's first fault may have.
#pragma once

#include <string_view>

#include "findings/finding.hpp"
#include "grammar/expectation.hpp"

namespace waxwright {

/// Adds to a finding of `syntax` what mends it, where that can be told from `found`, the word or
/// sign at its place, and what the grammar has there.
void offer_slip_fixes(Finding& finding, std::string_view text, std::string_view found,
                      grammar::Expectation expected);

} // namespace waxwright
