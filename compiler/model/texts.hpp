// Texts in double quotes and their escapes: \" \\ \n \u{...}
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace waxwright {

/// Where a text has an escape that does not exist: offset and length within the quoted text.
struct BadEscape {
    std::size_t offset;
    std::size_t length;
};

/// The first escape of a quoted text that is none; nothing when all are good.
std::optional<BadEscape> bad_escape(std::string_view quoted);

/// What a quoted text says, its quotes taken off and escapes resolved; nothing if one is bad.
std::optional<std::string> decoded_text(std::string_view quoted);

} // namespace waxwright
