// What tidying would change, as a unified diff that `patch` and `git apply` carry out.
#pragma once

#include <string>
#include <string_view>

#include "tidy/tidy.hpp"

namespace waxwright {

/// The diff from `before`, of which `after` was made, with three lines of context; empty where
/// nothing changes. `name` is the file's in both heads, quoted where it has a quote, a backslash or
/// a control character in it. Lines are parted at LF alone, as `diff` does. There is no search:
/// the origins say which lines may be the same, so that time and memory go with the length. Where a
/// line and its origin differ, both are in the diff, be it that another line would have fitted.
std::string unified_diff(std::string_view name, std::string_view before, const Tidied& after);

} // namespace waxwright
