// Places as LSP 3.17 counts them: lines and characters from 0, characters in the units that client
// and server agreed on.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "editor/json.hpp"
#include "source/source.hpp"

namespace waxwright {

/// What a character of a position is. UTF-16 is what counts where a client says nothing.
enum class Encoding : std::uint8_t { utf8, utf16, utf32 };
std::string_view word(Encoding encoding); // "utf-16"

/// The units that a text takes.
std::uint32_t units_of(std::string_view text, Encoding encoding);

Json position_of(const Source& source, std::uint32_t offset, Encoding encoding);
Json range_of(const Source& source, Span at, Encoding encoding);

/// The byte offset of a position. A line past the last is the end of the text, a character past the
/// end of its line the line's end; one within a character is that character's begin. Throws Json's
/// exceptions where `position` is none.
std::uint32_t offset_of(const Source& source, const Json& position, Encoding encoding);
/// The same for a range; an end before its begin is taken as the begin.
Span span_of(FileId file, const Source& source, const Json& range, Encoding encoding);

/// The path of a `file:` address; what it is otherwise, as of a text that was never saved.
std::string path_of_uri(std::string_view uri);
/// The `file:` address of an absolute path (RFC 8089).
std::string uri_of_path(std::string_view path);

} // namespace waxwright
