// What `check --mend` did and what it left, a line each in the form of the GNU coding standards.
#pragma once

#include <string>

#include "findings/finding.hpp"

namespace waxwright {

/// "tide-line.candle:5:10: mended: `lavander` is now `lavender` [unknown-name]"; where `refused` is
/// a reason, "… not mended: …".
std::string mend_line(std::string_view file, const Place& place, Rule rule, std::string_view was,
                      std::string_view is, std::string_view refused);

/// "tide-line.candle:7:10: left: error: a load of … [missing-basis]; on offer: write `6% of wax`,
/// …; or: …". Notes only with `notes`, warnings only without `quiet`.
std::string left_lines(const Findings& findings, const Sources& sources, bool notes, bool quiet);

} // namespace waxwright
