#include "editor/hover_card.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "emit/markdown_writer.hpp"

namespace waxwright {

namespace {

/// With each run of blanks and line ends as one space.
std::string on_one_line(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    std::string line;
    for (std::size_t at = text.find_first_not_of(blanks); at != std::string_view::npos;) {
        const std::size_t end = std::min(text.find_first_of(blanks, at), text.size());
        if (!line.empty()) line += ' ';
        line += text.substr(at, end - at);
        at = text.find_first_not_of(blanks, end);
    }
    return line;
}

} // namespace

std::string Card::code(std::string_view text) {
    std::string line = on_one_line(text);
    std::ranges::replace(line, '`', '\''); // of a text: within backticks there is no other way
    return fmt::format("`{}`", line);
}

std::string Card::user(std::string_view text) const {
    if (!markdown_) return on_one_line(text);
    const Plan none;
    return SheetWriter(none, false).user(text).take();
}

void Card::begin_part(bool in_list) {
    if (!text_.empty()) text_ += in_list && in_list_ ? "\n" : "\n\n";
    in_list_ = in_list;
}

void Card::say(std::string_view words) {
    begin_part(false);
    text_ += words;
}

void Card::item(std::string_view words) {
    begin_part(true);
    text_ += "- ";
    text_ += words;
}

void Card::lines_as_they_are(std::string_view lines) {
    begin_part(false);
    while (lines.ends_with('\n'))
        lines.remove_suffix(1);
    if (!markdown_) {
        text_ += lines;
        return;
    }
    // The fence is longer than any run of backticks within, as CommonMark wants it.
    std::string fence = "```";
    while (lines.find(fence) != std::string_view::npos)
        fence += '`';
    text_ += fmt::format("{0}text\n{1}\n{0}", fence, lines);
}

} // namespace waxwright
