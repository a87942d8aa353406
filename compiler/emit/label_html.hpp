// Labels on paper: one page of HTML without script, nothing from elsewhere, printed at true size.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "plan/label.hpp"

namespace waxwright {

enum class Paper : std::uint8_t { a4, letter };
/// "a4" or "letter".
std::optional<Paper> find_paper(std::string_view word);

/// Sheets of labels to be cut out, as many of each as its count says, and one where it says none.
/// A label's sheets begin on a new one; cut marks stand off the labels' corners, and each sheet has
/// a line of a stated length, to see that it was not printed smaller. `title` is the user's.
/// A label that is higher than the paper goes on over the next sheet.
std::string html_labels(std::span<const Label> labels, Paper paper, std::string_view title);

/// The same, one of each, as a part of a page that has more on it.
std::string html_label_part(std::span<const Label> labels);

} // namespace waxwright
