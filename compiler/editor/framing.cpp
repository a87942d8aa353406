#include "editor/framing.hpp"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

namespace waxwright {

namespace {

constexpr std::string_view header_end = "\r\n\r\n";
/// A header of this many bytes without an end is none.
constexpr std::size_t longest_header = 4096;

bool same_word(std::string_view a, std::string_view b) {
    const auto lower = [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    };
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [&](char x, char y) { return lower(x) == lower(y); });
}

} // namespace

void Framing::feed(std::string_view bytes) {
    const std::size_t skipped = std::min(skip_, bytes.size());
    skip_ -= skipped;
    bytes_.append(bytes.substr(skipped));
}

/// How long the message is; nothing where the header doesn't say so.
std::optional<std::size_t> Framing::read_header(std::string_view header) const {
    std::optional<std::size_t> length;
    while (!header.empty()) {
        const std::size_t end = std::min(header.find("\r\n"), header.size());
        const std::string_view line = header.substr(0, end);
        header.remove_prefix(std::min(end + 2, header.size()));
        const std::size_t colon = line.find(':');
        if (colon == std::string_view::npos) continue;
        if (!same_word(line.substr(0, colon), "Content-Length")) continue;
        const std::size_t digits = line.find_first_not_of(" \t", colon + 1);
        if (digits == std::string_view::npos) continue;
        std::size_t number = 0;
        const char* const last = line.data() + line.size();
        const auto [stop, problem] = std::from_chars(line.data() + digits, last, number);
        if (problem == std::errc() &&
            std::string_view(stop, last).find_first_not_of(" \t") == std::string_view::npos) {
            length = number;
        }
    }
    return length;
}

std::optional<std::string> Framing::next() {
    for (;;) {
        const std::size_t end = bytes_.find(header_end, at_);
        if (end == std::string::npos) {
            if (bytes_.size() - at_ > longest_header) at_ = bytes_.size();
            break;
        }
        const std::size_t begin = end + header_end.size();
        const auto length = read_header(std::string_view(bytes_).substr(at_, end - at_));
        if (!length) {
            at_ = begin;
        } else if (*length > longest_message) {
            const std::size_t here = std::min(*length, bytes_.size() - begin);
            skip_ = *length - here;
            at_ = begin + here;
        } else if (bytes_.size() - begin < *length) {
            break;
        } else {
            at_ = begin + *length;
            return bytes_.substr(begin, *length);
        }
    }
    bytes_.erase(0, at_);
    at_ = 0;
    return std::nullopt;
}

std::string framed(std::string_view message) {
    return fmt::format("Content-Length: {}\r\n\r\n{}", message.size(), message);
}

} // namespace waxwright
