#include "source/source.hpp"

#include <algorithm>
#include <utility>

#include "source/width.hpp"

namespace waxwright {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// One character of a text. A byte that is no UTF-8 is a character of its own.
struct Character {
    std::uint32_t code_point;
    std::uint32_t length; // bytes, 1 to 4
    bool good;
};

constexpr Character bad_byte{0xFFFD, 1, false};

/// The character at `at`, which is within the text. Strict as RFC 3629 has it: no overlong form,
/// no surrogate, nothing over U+10FFFF.
Character decode(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[at + i]); };
    const std::uint32_t lead = byte(0);
    if (lead < 0x80) return {lead, 1, true};
    const std::uint32_t length = lead < 0xC2 ? 0 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    if (length == 0 || lead > 0xF4 || text.size() - at < length) return bad_byte;
    std::uint32_t code_point = lead & (0x7Fu >> length);
    for (std::uint32_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0u) != 0x80) return bad_byte;
        code_point = code_point << 6 | (byte(i) & 0x3Fu);
    }
    const bool overlong =
        (length == 3 && code_point < 0x800) || (length == 4 && code_point < 0x10000);
    const bool surrogate = code_point >= 0xD800 && code_point <= 0xDFFF;
    if (overlong || surrogate || code_point > 0x10FFFF) return bad_byte;
    return {code_point, length, true};
}

} // namespace

Source::Source(std::string name, std::string text, bool library)
    : name_(std::move(name)), text_(std::move(text)), library_(library) {}

std::uint32_t Source::mark_length() const {
    return text_.starts_with(byte_order_mark) ? static_cast<std::uint32_t>(byte_order_mark.size())
                                              : 0;
}

void Source::find_lines() const {
    if (!starts_.empty()) return;
    starts_.push_back(mark_length());
    for (std::size_t i = 0; i < text_.size(); ++i) {
        const bool pair = text_[i] == '\r' && i + 1 < text_.size() && text_[i + 1] == '\n';
        if (pair) continue; // the line ends behind the '\n'
        if (text_[i] == '\n' || text_[i] == '\r') {
            starts_.push_back(static_cast<std::uint32_t>(i + 1));
        }
    }
}

Place Source::place(std::uint32_t offset) const {
    find_lines();
    const auto next = std::upper_bound(starts_.begin(), starts_.end(), offset);
    const auto number =
        static_cast<std::uint32_t>(std::max<std::ptrdiff_t>(next - starts_.begin(), 1));
    const std::string_view text = line(number);
    // A place in a line end or in the byte order mark is taken as the nearest one of the line.
    const std::uint32_t start = starts_[number - 1];
    const std::size_t stop =
        std::min<std::size_t>(offset > start ? offset - start : 0, text.size());

    // Places are mostly asked for in order: on a line of megabytes with a fault in each word, going
    // on from the last one is what ends.
    const bool goes_on = last_.line == number && last_.byte - 1 <= stop;
    Place place = goes_on ? last_ : Place{number, 1, 1, 1, 1};
    for (std::size_t i = place.byte - 1; i < stop;) {
        const Character c = decode(text, i);
        i += c.length;
        if (i > stop) break; // within a character: that character's columns
        place.byte += static_cast<std::uint32_t>(c.length);
        place.column += 1;
        place.utf16 += c.code_point > 0xFFFF ? 2 : 1;
        place.display += c.code_point == '\t'
                             ? 8 - (place.display - 1) % 8
                             : static_cast<std::uint32_t>(c.good ? display_width(c.code_point) : 1);
    }
    last_ = place;
    place.byte = static_cast<std::uint32_t>(stop + 1);
    return place;
}

std::string_view Source::line(std::uint32_t number) const {
    find_lines();
    if (number == 0 || number > starts_.size()) return {};
    const std::uint32_t begin = starts_[number - 1];
    std::size_t end = number < starts_.size() ? starts_[number] : text_.size();
    while (end > begin && (text_[end - 1] == '\n' || text_[end - 1] == '\r'))
        --end;
    return text().substr(begin, end - begin);
}

std::string_view Source::slice(Span span) const {
    const std::size_t end = std::min<std::size_t>(span.end, text_.size());
    const std::size_t begin = std::min<std::size_t>(span.begin, end);
    return text().substr(begin, end - begin);
}

FileId Sources::add(std::string name, std::string text, bool library) {
    files_.push_back(std::make_unique<Source>(std::move(name), std::move(text), library));
    return static_cast<FileId>(files_.size() - 1);
}

std::size_t first_bad_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        if (static_cast<unsigned char>(text[i]) < 0x80) { // nearly all of a recipe
            ++i;
            continue;
        }
        const Character c = decode(text, i);
        if (!c.good) return i;
        i += c.length;
    }
    return text.size();
}

} // namespace waxwright
