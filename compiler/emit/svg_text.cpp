#include "emit/svg_text.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD"; // U+FFFD

/// U+FFFE and U+FFFF, which XML 1.0 has no place for, begin so; the third byte is BE or BF.
bool is_no_character(std::string_view text, std::size_t at) {
    return text.substr(at, 2) == "\xEF\xBF" && at + 2 < text.size() &&
           (text[at + 2] == '\xBE' || text[at + 2] == '\xBF');
}

std::size_t letter_length(char first) {
    const auto byte = static_cast<unsigned char>(first);
    if (byte < 0x80) return 1;
    if (byte < 0xE0) return 2;
    return byte < 0xF0 ? 3 : 4;
}

/// Of the size, a hair over what common sans-serif faces have.
double letter_width(char c) {
    if (std::string_view("MWmw@%").find(c) != std::string_view::npos) return 1.0;
    if (std::string_view(" .,:;'!|ijl()[]ft/-").find(c) != std::string_view::npos) return 0.42;
    return c >= 'A' && c <= 'Z' ? 0.78 : 0.66;
}

std::int64_t whole_f(double celsius) {
    return std::llround(celsius * 1.8 + 32);
}

} // namespace

std::string xml_text(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '&') {
            out += "&amp;";
        } else if (c == '<') {
            out += "&lt;";
        } else if (c == '>') {
            out += "&gt;";
        } else if (c == '"') {
            out += "&quot;";
        } else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) {
            out += replacement;
        } else if (is_no_character(text, i)) {
            out += replacement;
            i += 2;
        } else {
            out += c;
        }
    }
    return out;
}

double text_width(std::string_view text, double size) {
    double width = 0;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = std::min(letter_length(text[i]), text.size() - i);
        width += length > 1 ? (length == 2 ? 0.8 : 1.05) : letter_width(text[i]);
        i += length;
    }
    return width * size;
}

namespace {

/// How much of a text from its beginning fits: all of it, or up to a letter.
std::size_t fitting(std::string_view text, double width, double size) {
    double used = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t length = std::min(letter_length(text[at]), text.size() - at);
        used += text_width(text.substr(at, length), size);
        if (used > width * (1 + 1e-9)) return at;
        at += length;
    }
    return at;
}

} // namespace

std::vector<std::string> broken(std::string_view text, double width, double size) {
    std::vector<std::string> lines;
    std::string line;
    double used = 0; // of the line
    const auto put = [&](std::string_view word) {
        const double blank = line.empty() ? 0 : text_width(" ", size);
        const double left = width - used - blank;
        if (fitting(word, left, size) == word.size()) {
            if (!line.empty()) line += ' ';
            line += word;
            used += blank + text_width(word, size);
            return;
        }
        if (!line.empty()) lines.push_back(line);
        line.clear();
        for (std::size_t fits = fitting(word, width, size); fits < word.size();
             fits = fitting(word, width, size)) {
            if (fits == 0) break; // not even a letter does
            lines.emplace_back(word.substr(0, fits));
            word.remove_prefix(fits);
        }
        used = text_width(word, size);
        line = word;
    };
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t blank = std::min(text.find_first_of(" \n", at), text.size());
        if (blank > at) put(text.substr(at, blank - at));
        at = blank + 1;
    }
    if (!line.empty()) lines.push_back(line);
    return lines;
}

std::string sentence_of(const StepPlan& step, bool us) {
    std::string text = step.text;
    if (!step.temperature.empty() && step.at_c) {
        text.replace(step.temperature.begin, step.temperature.end - step.temperature.begin,
                     show_temperature(*step.at_c, us));
    }
    return text;
}

std::string clock_of(double minutes) {
    const std::int64_t whole = std::llround(minutes);
    return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

std::string degrees_of(double low_c, double high_c, bool us) {
    const std::int64_t low = std::llround(low_c), high = std::llround(high_c);
    const bool line = low == high;
    const std::string celsius =
        line ? fmt::format("{} °C", low) : fmt::format("{} to {} °C", low, high);
    const std::string fahrenheit =
        line ? fmt::format("{} °F", whole_f(low_c))
             : fmt::format("{} to {} °F", whole_f(low_c), whole_f(high_c));
    return us ? fmt::format("{}, {}", fahrenheit, celsius)
              : fmt::format("{}, {}", celsius, fahrenheit);
}

} // namespace waxwright
