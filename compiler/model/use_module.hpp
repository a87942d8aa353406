// The edit that makes a file use one more module of the standard library.
#pragma once

#include <string_view>

#include "findings/fix.hpp"
#include "source/source.hpp"
#include "syntax/tree.hpp"

namespace waxwright {

/// Behind the last module that the file uses; where it uses none, on a line of its own behind
/// `language` and what is used, or above all else.
Edit use_module(const Tree& tree, const Source& source, std::string_view module);

} // namespace waxwright
