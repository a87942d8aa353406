#include "editor/places.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "source/utf8.hpp"

namespace waxwright {

namespace {

std::uint32_t units_of(const Character& character, Encoding encoding) {
    switch (encoding) {
    case Encoding::utf8:
        return static_cast<std::uint32_t>(character.length);
    case Encoding::utf16:
        return character.code_point > 0xFFFF ? 2 : 1;
    case Encoding::utf32:
        break;
    }
    return 1;
}

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

std::string percent_decoded(std::string_view text) {
    std::string decoded;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const int high = text[i] == '%' && i + 2 < text.size() ? hex_digit(text[i + 1]) : -1;
        const int low = high >= 0 ? hex_digit(text[i + 2]) : -1;
        decoded += low >= 0 ? static_cast<char>(high * 16 + low) : text[i];
        if (low >= 0) i += 2;
    }
    return decoded;
}

/// What stands for itself in the path of an address (RFC 3986, unreserved, and `/`).
bool is_plain(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           std::string_view("-._~/").find(c) != std::string_view::npos;
}

} // namespace

std::string_view word(Encoding encoding) {
    switch (encoding) {
    case Encoding::utf8:
        return "utf-8";
    case Encoding::utf16:
        break;
    case Encoding::utf32:
        return "utf-32";
    }
    return "utf-16";
}

std::uint32_t units_of(std::string_view text, Encoding encoding) {
    std::uint32_t units = 0;
    for (std::size_t i = 0; i < text.size();) {
        const Character character = decode_utf8(text, i);
        units += units_of(character, encoding);
        i += character.length;
    }
    return units;
}

Json position_of(const Source& source, std::uint32_t offset, Encoding encoding) {
    const std::uint32_t line = source.line_at(offset);
    const std::uint32_t begin = source.line_begin(line);
    const std::size_t length =
        std::min<std::size_t>(offset - begin, source.whole_line(line).size());
    const std::string_view before = source.whole_line(line).substr(0, length);
    return {{"line", line - 1}, {"character", units_of(before, encoding)}};
}

Json range_of(const Source& source, Span at, Encoding encoding) {
    return {{"start", position_of(source, at.begin, encoding)},
            {"end", position_of(source, std::max(at.begin, at.end), encoding)}};
}

std::uint32_t offset_of(const Source& source, const Json& position, Encoding encoding) {
    const auto line = position.at("line").get<std::uint64_t>();
    const auto character = position.at("character").get<std::uint64_t>();
    if (line >= source.line_count()) return static_cast<std::uint32_t>(source.text().size());
    const auto number = static_cast<std::uint32_t>(line + 1);
    const std::string_view text = source.whole_line(number);
    std::uint64_t units = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const Character next = decode_utf8(text, at);
        units += units_of(next, encoding);
        if (units > character) break;
        at += next.length;
    }
    return source.line_begin(number) + static_cast<std::uint32_t>(at);
}

Span span_of(FileId file, const Source& source, const Json& range, Encoding encoding) {
    const std::uint32_t begin = offset_of(source, range.at("start"), encoding);
    return {file, begin, std::max(begin, offset_of(source, range.at("end"), encoding))};
}

std::string path_of_uri(std::string_view uri) {
    constexpr std::string_view scheme = "file://";
    if (!uri.starts_with(scheme)) return std::string(uri);
    std::string_view rest = uri.substr(scheme.size());
    const std::size_t path = rest.find('/'); // what stands before it is a host: this machine
    rest.remove_prefix(std::min(path, rest.size()));
    return percent_decoded(rest);
}

std::string uri_of_path(std::string_view path) {
    if (!path.starts_with('/')) return std::string(path);
    std::string uri = "file://";
    for (const char c : path) {
        if (is_plain(c)) {
            uri += c;
        } else {
            uri += fmt::format("%{:02X}", static_cast<unsigned char>(c));
        }
    }
    return uri;
}

} // namespace waxwright
