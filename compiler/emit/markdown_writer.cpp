#include "emit/markdown_writer.hpp"

#include <algorithm>
#include <array>
#include <charconv>

#include "plan/wording.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr std::string_view word_joiner = "\u2060"; // of no width

/// Signs that can begin markup somewhere in a line of GFM, and `$`, which GitHub reads as
/// mathematics. Any of them may have a backslash before it, in a table's cell too.
constexpr bool needs_backslash(char c) {
    switch (c) {
    case '\\':
    case '`':
    case '*':
    case '_':
    case '~':
    case '|':
    case '<':
    case '[':
    case '#':
    case '&':
    case '!':
    case '$':
        return true;
    default:
        return false;
    }
}

/// Length of the control character at `at`, of C0, DEL or C1; 0 if there is none.
std::size_t control_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0xFFu;
    };
    if (byte(at) < 0x20 || byte(at) == 0x7F) return 1;
    return byte(at) == 0xC2 && byte(at + 1) < 0xA0 ? 2 : 0;
}

/// True for the bytes that are themselves whatever stands round them: nearly all of a text.
constexpr std::array<bool, 256> is_plain = [] {
    std::array<bool, 256> table{};
    for (std::size_t byte = 0x20; byte < 0x7F; ++byte) {
        table[byte] = !needs_backslash(static_cast<char>(byte));
    }
    for (const char sign : {':', '.', '@'}) // these can make a link of what stands round them
        table[static_cast<unsigned char>(sign)] = false;
    for (std::size_t byte = 0xC3; byte < 256; ++byte) {
        table[byte] = true;
    }
    return table;
}();

/// True for a sign by which GFM makes a link of a bare web address; a backslash before it stops
/// that.
bool makes_link(std::string_view text, std::size_t at) {
    if (text[at] == ':') return text.substr(at + 1, 2) == "//";
    if (text[at] != '.' || at < 3) return false;
    return std::all_of(text.begin() + static_cast<std::ptrdiff_t>(at) - 3,
                       text.begin() + static_cast<std::ptrdiff_t>(at),
                       [](char c) { return c == 'w' || c == 'W'; });
}

bool makes_address(std::string_view text, std::size_t at) {
    const auto part = [&](std::size_t i) {
        const char c = text[i];
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               std::string_view(".-_+").find(c) != std::string_view::npos;
    };
    return text[at] == '@' && at > 0 && at + 1 < text.size() && part(at - 1) && part(at + 1);
}

/// Bytes of a line's beginning that would make it a list item, a quotation, an underlining or a
/// table's second row; a backslash goes before the last of them.
std::size_t marker_length(std::string_view line) {
    if (line.empty()) return 0;
    if (std::string_view("-+>=:").find(line[0]) != std::string_view::npos) return 1;
    const std::size_t digits = line.find_first_not_of("0123456789");
    if (digits == 0 || digits == std::string_view::npos) return 0;
    return line[digits] == '.' || line[digits] == ')' ? digits + 1 : 0;
}

std::string whole(double value) {
    return show_number(value, 0);
}

} // namespace

void SheetWriter::append(std::string_view words, bool escaped) {
    std::size_t done = 0; // what is before it has been copied
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (is_plain[static_cast<unsigned char>(words[i])]) continue;
        const std::size_t control = control_length(words, i);
        if (control == 0 && escaped && makes_address(words, i)) { // no backslash helps with that
            text_ += words.substr(done, i + 1 - done);
            text_ += word_joiner;
            done = i + 1;
            continue;
        }
        if (control == 0 && !(escaped && (needs_backslash(words[i]) || makes_link(words, i)))) {
            continue;
        }
        text_ += words.substr(done, i - done);
        if (control == 0) {
            text_ += '\\';
            done = i; // the sign itself is copied with what follows
            continue;
        }
        const bool blank = words[i] == '\n' || words[i] == '\r' || words[i] == '\t';
        text_ += blank ? std::string_view(" ") : std::string_view("\uFFFD");
        i += control - 1;
        done = i + 1;
    }
    text_ += words.substr(done);
}

SheetWriter& SheetWriter::user(std::string_view words) {
    append(words, true);
    return *this;
}

SheetWriter& SheetWriter::message(std::string_view words) {
    std::string plain;
    plain.reserve(words.size());
    for (std::size_t at = 0; at < words.size();) {
        const std::size_t mark = std::min(words.find_first_of("`+", at), words.size());
        plain += words.substr(at, mark - at);
        const bool doubt = words.substr(mark, 2) == "+-";
        plain += doubt ? "±" : words.substr(mark, 1) == "+" ? "+" : "";
        at = mark + (doubt ? 2 : 1);
    }
    return user(plain);
}

SheetWriter& SheetWriter::user_first(std::string_view words) {
    words.remove_prefix(std::min(words.find_first_not_of(" \t\r\n"), words.size()));
    const std::size_t marker = marker_length(words);
    if (marker > 0) {
        say(words.substr(0, marker - 1)).say("\\").say(words.substr(marker - 1, 1));
        words.remove_prefix(marker);
    }
    return user(words);
}

SheetWriter& SheetWriter::paragraph(std::string_view label, std::string_view words) {
    say("\n").say(label);
    std::string_view before = " ";
    while (!words.empty()) {
        const std::size_t end = std::min(words.find('\n'), words.size());
        const std::string_view line = words.substr(0, end);
        words.remove_prefix(std::min(end + 1, words.size()));
        if (line.find_first_not_of(" \t\r") == std::string_view::npos) continue;
        say(before).user_first(line);
        before = "\\\n";
    }
    return say("\n");
}

SheetWriter& SheetWriter::number(std::int64_t number) {
    char digits[24];
    const auto end = std::to_chars(digits, digits + sizeof digits, number).ptr;
    text_.append(digits, end);
    return *this;
}

SheetWriter& SheetWriter::percent(double fraction) {
    return say(show_percent(fraction));
}

SheetWriter& SheetWriter::temperature(double celsius) {
    return say(show_temperature(celsius, us_units));
}

SheetWriter& SheetWriter::temperatures(const TemperatureRange& range) {
    if (range.low == range.high) return temperature(range.low);
    const std::string c = whole(range.low) + " to " + whole(range.high) + " °C";
    const std::string f =
        whole(range.low * 1.8 + 32) + " to " + whole(range.high * 1.8 + 32) + " °F";
    return say(us_units ? f : c).say(" (").say(us_units ? c : f).say(")");
}

SheetWriter& SheetWriter::interval(double celsius) {
    const std::string c = show_number(celsius, 1) + " C°";
    const std::string f = show_number(celsius * 1.8, 1) + " F°";
    return say(us_units ? f : c).say(" (").say(us_units ? c : f).say(")");
}

SheetWriter& SheetWriter::volume(double ml) {
    return say(show_volume(ml, us_units));
}

SheetWriter& SheetWriter::length(double mm) {
    return say(show_length(mm, us_units));
}

SheetWriter& SheetWriter::weight(double grams, double division_g, const ScalePlan& scale) {
    return say(show_weight(grams, division_g, scale.unit));
}

SheetWriter& SheetWriter::pour(double grams, const ScalePlan& scale) {
    return say(show_pour(grams, scale));
}

SheetWriter& SheetWriter::duration(double minutes) {
    return say(show_duration(minutes * 60));
}

SheetWriter& SheetWriter::heading(std::string_view words) {
    return say("\n## ").say(words).say("\n\n");
}

} // namespace waxwright
