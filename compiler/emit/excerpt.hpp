// The source line of a finding with its place marked.
#pragma once

#include <string>
#include <string_view>

#include "source/source.hpp"

namespace waxwright {

/// Appends the line of the span's beginning, indented by 4, and under it a run of `=` as wide as
/// the span is on that line, at least one. Tabs are spread out to blanks, so that both lines agree
/// in every terminal; of a long line only what is around the span is shown, with `…` at each cut.
/// `paint` and `plain` are put round the marker (SGR codes, or nothing).
void append_excerpt(std::string& out, const Source& source, Span span, std::string_view paint,
                    std::string_view plain);

} // namespace waxwright
