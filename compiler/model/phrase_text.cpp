#include "model/phrase_text.hpp"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "units/unit.hpp"

namespace waxwright {

bool is_kebab(std::string_view name) {
    return !name.empty() && name.front() >= 'a' && name.front() <= 'z' && name.back() != '-' &&
           name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") ==
               std::string_view::npos;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_blank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back()))
        text.remove_suffix(1);
    return text;
}

std::string joined_by_hyphens(std::string_view words) {
    std::string name;
    for (const char c : trimmed(words)) {
        const bool joint = is_blank(c) || c == '_';
        if (joint && !name.empty() && name.back() == '-') continue;
        name += joint ? '-' : small(c);
    }
    return name;
}

namespace {

/// Length of the number that a text begins with, its comma and what is behind it included.
std::size_t figure_length(std::string_view text) {
    std::size_t length = std::min(text.find_first_not_of("0123456789./,"), text.size());
    while (length > 0 && !is_digit(text[length - 1]))
        --length;
    return length;
}

/// `1,5` with a point. Three digits behind a comma may be thousands: those stay.
std::string with_point(std::string_view number) {
    std::string text(number);
    const std::size_t comma = text.find(',');
    if (comma == std::string::npos || text.find(',', comma + 1) != std::string::npos) return text;
    if (text.size() - comma - 1 != 3 || text.starts_with("0,")) text[comma] = '.';
    return text;
}

std::size_t word_length(std::string_view text) {
    std::size_t length = 0;
    while (length < text.size() && is_letter(text[length]))
        ++length;
    const bool ends = length == text.size() ||
                      (!is_digit(text[length]) && text[length] != '-' && text[length] != '_');
    return ends ? length : 0;
}

/// What the language has for a unit's word; empty where it is one, or may be another.
std::string_view unit_for(std::string_view word) {
    if (word.size() < 2 || find_unit(word) != no_unit) return {};
    std::string lower(word);
    std::transform(lower.begin(), lower.end(), lower.begin(), small);
    if (lower == "ounce" || lower == "ounces" || lower == "ozs") return "oz";
    const UnitMeant meant = unit_meant(word, {});
    return meant.surely ? meant.unit : std::string_view{};
}

/// What a number's unit is written as: how much of the text is its word, and what stands for it.
struct UnitWord {
    std::size_t length = 0;
    std::string_view unit{};
};
UnitWord unit_word(std::string_view text) {
    const std::size_t first = word_length(text);
    if (text.substr(0, first) == "fluid") { // `9 fluid ounces`
        const std::size_t blank = text.find_first_not_of(" \t", first);
        const std::size_t second =
            blank == std::string_view::npos ? 0 : word_length(text.substr(blank));
        if (second > 0 && text.substr(blank, 5) == "ounce") return {blank + second, "fl oz"};
    }
    return {first, unit_for(text.substr(0, first))};
}

std::string rewritten(std::string_view line, bool units) {
    std::string out;
    bool quoted = false;
    for (std::size_t i = 0; i < line.size();) {
        const char c = line[i];
        if (c == '"') quoted = !quoted;
        if (!quoted && is_blank(c)) {
            const std::size_t next = std::min(line.find_first_not_of(" \t\r", i), line.size());
            const bool comment = next < line.size() && line[next] == '#';
            out += comment ? line.substr(i, next - i) : std::string_view(" ");
            i = next;
            continue;
        }
        if (!quoted && c == '#') return out.append(line.substr(i));
        const bool begins = i == 0 || (!is_letter(line[i - 1]) && !is_digit(line[i - 1]) &&
                                       line[i - 1] != '-' && line[i - 1] != ':');
        if (quoted || !units || !is_digit(c) || !begins) {
            out += c;
            ++i;
            continue;
        }
        const std::size_t length = figure_length(line.substr(i));
        out += with_point(line.substr(i, length));
        i += length;
        const std::size_t next = std::min(line.find_first_not_of(" \t", i), line.size());
        const UnitWord word = unit_word(line.substr(next));
        if (word.unit.empty()) continue;
        out += ' ';
        out += word.unit;
        i = next + word.length;
    }
    return out;
}

} // namespace

std::string usual_name(BlockKind kind) {
    return kind == BlockKind::vessel ? std::string("my-jar")
                                     : std::string("my-").append(word(kind));
}

std::string squeezed(std::string_view line) {
    return rewritten(line, false);
}

std::string neat_line(std::string_view line) {
    return rewritten(line, true);
}

std::string spaced(std::string_view figure) {
    std::string text = squeezed(trimmed(figure));
    const std::size_t number = figure_length(text);
    if (number == 0 || number == text.size()) return text;
    const std::size_t unit = std::min(text.find_first_not_of(' ', number), text.size());
    const bool close = text[unit] == '%';
    return fmt::format("{}{}{}", text.substr(0, number), close ? "" : " ", text.substr(unit));
}

std::string_view cut_word(std::string_view& text) {
    const std::size_t end = std::min(text.find_first_of(" \t"), text.size());
    const std::string_view word = text.substr(0, end);
    text = trimmed(text.substr(end));
    return word;
}

bool is_number(std::string_view text) {
    return !text.empty() && is_digit(text.front()) && is_digit(text.back()) &&
           text.find_first_not_of("0123456789.") == std::string_view::npos;
}
bool is_whole(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

std::string cut_amount(std::string_view& text) {
    std::string_view rest = text;
    const std::string amount = spaced(cut_word(rest));
    std::string_view behind = amount; // of `5kg`
    const std::string_view number = cut_word(behind);
    if (!is_number(number) || (!behind.empty() && find_unit(behind) == no_unit)) return {};
    std::string_view next = rest;
    const std::string_view unit = cut_word(next);
    text = rest;
    if (!behind.empty() || find_unit(unit) == no_unit) return std::string(amount);
    text = next;
    return fmt::format("{} {}", amount, unit);
}

namespace {

constexpr std::string_view codes[] = {"EUR", "GBP", "USD", "CAD", "AUD", "NZD", "CHF",
                                      "SEK", "NOK", "DKK", "PLN", "JPY", "INR", "ZAR"};

} // namespace

bool is_common_currency(std::string_view code) {
    return std::find(std::begin(codes), std::end(codes), code) != std::end(codes);
}

std::string_view currency_shown(std::string_view text) {
    constexpr std::string_view statement = "currency ";
    const std::size_t at = text.find(statement);
    const std::string_view declared =
        at == std::string_view::npos ? std::string_view() : text.substr(at + statement.size(), 3);
    const auto used = [&](std::string_view code) {
        return code == declared || text.find(fmt::format(" {}", code)) != std::string_view::npos;
    };
    if (text.find("€") != std::string_view::npos) return "EUR";
    if (text.find("£") != std::string_view::npos) return "GBP";
    const auto* const found = std::find_if(std::begin(codes), std::end(codes), used);
    if (found != std::end(codes)) return *found;
    return text.find('$') != std::string_view::npos ? "USD" : "";
}

namespace {

/// No block that people write is longer; in others the nearest lines are looked at.
constexpr std::size_t longest_block = 8192;

/// The kind of the block that a line opens.
BlockKind opened_by(std::string_view line) {
    line = trimmed(line);
    const std::string_view word = line.substr(0, line.find_first_of(" \t"));
    const bool opens = word.size() < line.size() && line.find('{') != std::string_view::npos;
    return opens ? find_block_kind(word) : BlockKind::unknown;
}

} // namespace

BlockAround block_around(std::string_view text, std::size_t at) {
    const std::size_t first = at > longest_block ? at - longest_block : 0;
    const std::size_t last = std::min(text.size(), at + longest_block);
    for (std::size_t end = std::min(text.find('\n', at), last); end > first;) {
        const std::size_t before = text.rfind('\n', end - 1);
        const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
        const BlockKind kind = opened_by(text.substr(begin, end - begin));
        if (kind != BlockKind::unknown) {
            std::size_t stop = at;
            while (stop < last) { // to the next line at the margin
                stop = std::min(text.find('\n', stop), last);
                if (stop + 1 < last && (is_letter(text[stop + 1]) || text[stop + 1] == '}')) break;
                stop = std::min(stop + 1, last);
            }
            return {kind, text.substr(begin, stop - begin)};
        }
        if (before == std::string_view::npos) break;
        end = before;
    }
    return {};
}

bool BlockAround::has(std::string_view key) const {
    for (std::size_t at = lines.find(key); at != std::string_view::npos;
         at = lines.find(key, at + 1)) {
        const std::size_t colon = lines.find_first_not_of(" \t", at + key.size());
        const bool begins =
            at > 0 && std::string_view(" \t\n{,").find(lines[at - 1]) != std::string_view::npos;
        if (begins && colon != std::string_view::npos && lines[colon] == ':') return true;
    }
    return false;
}

} // namespace waxwright
