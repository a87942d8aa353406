#include "source/utf8.hpp"

#include <cstring>

#include <utf8proc.h>

namespace waxwright {

Character decode_utf8(std::string_view text, std::size_t at) {
    const auto lead = static_cast<unsigned char>(text[at]);
    if (lead < 0x80) return {lead, 1, true}; // nearly all of a recipe
    utf8proc_int32_t code_point = 0;
    const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data() + at); // NOLINT
    const auto length =
        utf8proc_iterate(bytes, static_cast<utf8proc_ssize_t>(text.size() - at), &code_point);
    if (length <= 0) return {0xFFFD, 1, false};
    return {static_cast<std::uint32_t>(code_point), static_cast<std::uint32_t>(length), true};
}

bool turns_direction(std::uint32_t code_point) {
    return code_point == 0x061C || code_point == 0x200E || code_point == 0x200F ||
           (code_point >= 0x202A && code_point <= 0x202E) ||
           (code_point >= 0x2066 && code_point <= 0x2069);
}

int display_width(std::uint32_t code_point) {
    return utf8proc_charwidth(static_cast<utf8proc_int32_t>(code_point));
}

std::size_t first_bad_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        // Nearly all of a recipe is ASCII: eight bytes are looked at in one go.
        std::uint64_t eight = 0;
        while (i + sizeof eight <= text.size()) {
            std::memcpy(&eight, text.data() + i, sizeof eight);
            if ((eight & 0x8080808080808080u) != 0) break;
            i += sizeof eight;
        }
        if (i == text.size()) break;
        const Character c = decode_utf8(text, i);
        if (!c.good) return i;
        i += c.length;
    }
    return text.size();
}

} // namespace waxwright
