// Whether a label as it is drawn has room on its vessel, and which markets labels are for: words
// for people.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "emit/label_svg.hpp"

namespace waxwright {

/// "62 × 118 mm", up to the next whole one.
std::string drawn_size(const LabelDrawing& drawn);

/// Where on the vessel it goes, a sentence each; where it has no room there, what to do.
std::vector<std::string> fit_words(const Label& label, const LabelDrawing& drawn);

/// For which markets a sheet has labels, and how to choose; Markdown.
inline constexpr std::string_view which_markets =
    "There is one for each market that the `maker` says in `sells-in`, or for all three where it "
    "says none; `waxwright label --for eu` makes those of one market.";
/// The same as HTML.
std::string which_markets_html();

} // namespace waxwright
