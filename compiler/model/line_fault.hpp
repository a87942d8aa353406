// Whether a line that the phrase book would write is one of the language: what is found in it where
// it stands alone in a block of its kind.
#pragma once

#include <optional>
#include <string_view>

#include "model/phrase_slips.hpp"

namespace waxwright {

/// The kind of a block of the standard library; unknown where it has no such name.
BlockKind library_kind(std::string_view name);
/// The same of a block of the file, or else of the library.
BlockKind kind_of_name(const BookLine& book, std::string_view name);
/// The names of such blocks that the file has, and behind them the library's; of any kind where it
/// is unknown.
std::vector<std::string_view> names_of(const BookLine& book, BlockKind kind);

/// What is still wrong with `line` in the place of the book's: words, units and names that the
/// language and the file don't have, with fixes that write the whole line at `book.at`. Nothing
/// where it can be read. A line with a brace isn't looked at.
std::optional<Finding> fault_of_line(std::string_view line, const BookLine& book);

} // namespace waxwright
