// The standard library, compiled into the binary from stdlib/*.candle (see source/embed.cmake).
#pragma once

#include <span>
#include <string_view>

namespace waxwright {

struct LibraryModule {
    std::string_view name; // as `use` takes it
    std::string_view text;
};

/// In alphabetical order.
std::span<const LibraryModule> library_modules();

} // namespace waxwright
