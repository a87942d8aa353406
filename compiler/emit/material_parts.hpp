// What the pages and the lists of materials have in common.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace waxwright {

/// Characters of UTF-8 text; what the library has in its figures takes one column each.
std::size_t width_of(std::string_view text);

/// A text broken into lines that end before column 80, each behind `margin` blanks and with a line
/// end. A number and its degree, a percent and what it is of, stay together. A text of nothing is
/// an empty line.
std::string wrapped(std::string_view text, std::size_t margin);
/// The same behind `head`, further lines as far in as the head is wide.
std::string hung(std::string_view head, std::string_view text);

} // namespace waxwright
