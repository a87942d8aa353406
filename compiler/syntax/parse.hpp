// Text to tree. Every mistake of the file is found in one run; a line that can't be read is one
// `broken` node and one finding.
#pragma once

#include "findings/finding.hpp"
#include "source/source.hpp"
#include "syntax/tree.hpp"

namespace waxwright {

/// Parentheses may be nested this deep. Recursion of the parser and of every later pass is bounded
/// by it, so that no input can use up a stack (a level takes under 2 KiB of it unoptimised).
inline constexpr int deepest_nesting = 128;

/// Files over this many bytes are not read: offsets are 32 bits wide, with room to spare.
inline constexpr std::size_t largest_file = 64u << 20;

/// Parses a file, recording findings of `syntax` and `nesting`. Never throws for any input.
Tree parse(FileId file, const Source& source, Findings& findings);

} // namespace waxwright
