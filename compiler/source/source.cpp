#include "source/source.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "source/utf8.hpp"

namespace waxwright {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Bytes of a line between two places that are remembered.
constexpr std::uint32_t mark_every = 1024;

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
    const bool has_returns = text_.find('\r') != std::string::npos;
    if (!has_returns) { // a search for one byte is the quickest there is
        for (std::size_t at = text_.find('\n'); at != std::string::npos;
             at = text_.find('\n', at + 1)) {
            starts_.push_back(static_cast<std::uint32_t>(at + 1));
        }
        return;
    }
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

    // On a line of megabytes with a fault in each word, going on from a place before is what ends.
    if (marks_.empty() || marks_.front().line != number) marks_ = {Place{number, 1, 1, 1, 1}};
    const auto behind =
        std::upper_bound(marks_.begin(), marks_.end(), stop,
                         [](std::size_t byte, const Place& each) { return byte < each.byte - 1; });
    Place place = *std::prev(behind);
    for (std::size_t i = place.byte - 1; i < stop;) {
        if (place.byte >= marks_.back().byte + mark_every) marks_.push_back(place);
        const Character c = decode_utf8(text, i);
        i += c.length;
        if (i > stop) break; // within a character: that character's columns
        place.byte += static_cast<std::uint32_t>(c.length);
        place.column += 1;
        place.utf16 += c.code_point > 0xFFFF ? 2 : 1;
        place.display += c.code_point == '\t'
                             ? 8 - (place.display - 1) % 8
                             : static_cast<std::uint32_t>(c.good ? display_width(c.code_point) : 1);
    }
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

std::uint32_t Source::line_count() const {
    find_lines();
    return static_cast<std::uint32_t>(starts_.size());
}

std::uint32_t Source::line_at(std::uint32_t offset) const {
    find_lines();
    const auto next = std::upper_bound(starts_.begin(), starts_.end(), offset);
    return static_cast<std::uint32_t>(std::max<std::ptrdiff_t>(next - starts_.begin(), 1));
}

std::uint32_t Source::line_begin(std::uint32_t number) const {
    find_lines();
    return number == 1 ? 0 : starts_[number - 1];
}

std::string_view Source::whole_line(std::uint32_t number) const {
    const std::string_view inside = line(number);
    return number == 1 ? text().substr(0, mark_length() + inside.size()) : inside;
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

} // namespace waxwright
