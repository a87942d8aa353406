// The set of files that `begin` writes, compiled into the binary from examples/begin and
// examples/begin-us (see source/embed.cmake).
#pragma once

#include <span>
#include <string_view>

namespace waxwright {

struct BeginFile {
    std::string_view name; // without its .candle
    std::string_view text; // its first line says, as a comment, what it is for
};

/// With grams, millimetres and °C; in alphabetical order, which is that of working through them.
std::span<const BeginFile> begin_files();
/// The same with ounces, inches and °F.
std::span<const BeginFile> begin_files_us();

} // namespace waxwright
