// waxwright(1), made from the command line's own description.
#pragma once

#include <string>
#include <string_view>

namespace waxwright {

/// The page as roff, with the man macros. `date` is printed at its foot, as it is.
std::string man_page(std::string_view date);

} // namespace waxwright
