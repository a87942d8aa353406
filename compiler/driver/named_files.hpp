// The files that a call names, folders and all.
#pragma once

#include <string>
#include <vector>

namespace waxwright {

/// The files to look at: folders become their `.candle` files, and each file comes once, whatever
/// path leads to it. A folder without any is told on standard error, and `good` is false then.
std::vector<std::string> named_files(const std::vector<std::string>& named, bool& good);

} // namespace waxwright
