#include "emit/material_parts.hpp"

#include <algorithm>

namespace waxwright {

namespace {
constexpr std::size_t last_column = 79;

/// Where the piece that begins at `at` ends: at the next blank that a line may be broken at.
std::size_t piece_end(std::string_view text, std::size_t at) {
    std::size_t end = std::min(text.find(' ', at), text.size());
    const auto goes_on = [&] {
        const std::string_view rest = text.substr(end);
        const bool share = end > at && text[end - 1] == '%'; // 2.5% eucalyptol
        return rest.starts_with(" °") || rest.starts_with(" %") || (share && !rest.empty());
    };
    while (goes_on()) {
        end = std::min(text.find(' ', end + 1), text.size());
    }
    return end;
}

} // namespace

std::size_t width_of(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

std::string wrapped(std::string_view text, std::size_t margin) {
    std::string lines;
    std::size_t column = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = piece_end(text, at);
        const std::string_view piece = text.substr(at, end - at);
        if (column > 0 && column + 1 + width_of(piece) > last_column) {
            lines += '\n';
            column = 0;
        }
        if (column == 0) {
            lines.append(margin, ' ');
            column = margin;
        } else {
            lines += ' ';
            ++column;
        }
        lines += piece;
        column += width_of(piece);
        at = end + 1;
    }
    return lines + "\n";
}

std::string hung(std::string_view head, std::string_view text) {
    std::string lines = wrapped(text, width_of(head));
    if (text.empty()) return std::string(head) + lines;
    return lines.replace(0, width_of(head), head);
}

} // namespace waxwright
