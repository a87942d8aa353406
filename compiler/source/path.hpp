// Paths as text: no file system is asked, and `/` parts folders.
#pragma once

#include <string>
#include <string_view>

namespace waxwright {

/// `path` as it is seen from the folder of the file `user`: `.` and empty parts go, and `..` takes
/// the part before it away where there is one.
std::string path_from(std::string_view user, std::string_view path);

/// The way from the absolute `folder` to the absolute `path`.
std::string relative_path(std::string_view path, std::string_view folder);

} // namespace waxwright
