// A sheet as one page of HTML, for paper: no script, nothing from elsewhere, a print style of its
// own.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "emit/markdown.hpp"

namespace waxwright {

/// The page up to its first sheet. `title` is the user's, and is escaped.
std::string html_begin(std::string_view title);
/// One sheet: its pieces, each rendered from Markdown by cmark-gfm, and a picture of the heat (an
/// SVG, or "") behind the day. `labels` is HTML already, or "".
std::string html_sheet(std::span<const SheetPiece> pieces, std::string_view svg,
                       std::string_view labels = {});
std::string html_end();

} // namespace waxwright
