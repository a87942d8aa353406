// Where a call may write: never over what it reads.
#pragma once

#include <string>
#include <vector>

#include "driver/options.hpp"
#include "source/source.hpp"

namespace waxwright {

/// Why one of these files may not be written: it is one that was read, by whatever spelling or
/// link; it is another one of them; or it is a recipe file that is there already. "" where all is
/// well.
std::string output_clash(const std::vector<std::string>& outputs, const Sources& sources);

} // namespace waxwright
