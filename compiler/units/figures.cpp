#include "units/figures.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include <fmt/format.h>

namespace waxwright {

namespace {

constexpr std::string_view group_space = "\u202F";

/// A number without its sign: 0.`digits` times ten to the power `point`.
struct Decimal {
    std::string digits; // none of it leading zeros; empty for 0
    int point;
};

/// The shortest text that reads back to the same double.
Decimal shortest(double value) {
    std::array<char, 32> buffer{}; // "1.7976931348623157e+308" is the longest
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::scientific)
                         .ptr;
    const std::string_view text(buffer.data(), static_cast<std::size_t>(end - buffer.data()));
    const std::size_t e = text.find('e');
    Decimal decimal{{}, 0};
    for (const char c : text.substr(0, e)) {
        if (c != '.') decimal.digits += c;
    }
    const std::size_t sign = text[e + 1] == '+' ? 1 : 0; // from_chars takes no plus
    std::from_chars(text.data() + e + 1 + sign, text.data() + text.size(), decimal.point);
    decimal.point += 1;
    if (value == 0) decimal.digits.clear();
    return decimal;
}

/// Cuts it off behind `decimals` decimals.
void round(Decimal& decimal, int decimals, Ties ties) {
    const int kept = decimal.point + decimals; // digits
    if (kept >= static_cast<int>(decimal.digits.size())) return;
    if (kept < 0) {
        decimal.digits.clear();
        return;
    }
    const auto cut = static_cast<std::size_t>(kept);
    const char next = decimal.digits[cut];
    const bool more = decimal.digits.find_first_not_of('0', cut + 1) != std::string::npos;
    const bool odd = cut > 0 && (decimal.digits[cut - 1] - '0') % 2 != 0;
    const bool up = next > '5' || (next == '5' && (more || odd || ties == Ties::up));
    decimal.digits.resize(cut);
    if (!up) return;
    std::size_t i = cut;
    while (i > 0 && decimal.digits[i - 1] == '9')
        decimal.digits[--i] = '0';
    if (i > 0) {
        ++decimal.digits[i - 1];
    } else {
        decimal.digits.insert(0, "1");
        ++decimal.point;
    }
}

std::string grouped(std::string_view whole) {
    if (whole.size() < 5) return std::string(whole);
    std::string text;
    for (std::size_t i = 0; i < whole.size(); ++i) {
        if (i > 0 && (whole.size() - i) % 3 == 0) text += group_space;
        text += whole[i];
    }
    return text;
}

/// The same for the numbers a sheet is full of: few decimals, not large, and not so near a tie that
/// the decimal text has to decide. Nothing where that is not so.
std::optional<std::string> plain_figures(double value, int decimals, Zeros zeros) {
    constexpr std::array<double, 4> powers = {1, 10, 100, 1000};
    if (decimals > 3 || !(value > -1e9 && value < 1e9)) return std::nullopt;
    const double scaled = std::abs(value) * powers[static_cast<std::size_t>(decimals)];
    const double whole_part = std::floor(scaled);
    if (std::abs(scaled - whole_part - 0.5) < 1e-3) return std::nullopt;
    auto rest = static_cast<std::uint64_t>(scaled - whole_part > 0.5 ? whole_part + 1 : whole_part);
    if (rest == 0) return std::nullopt;
    std::array<char, 24> buffer; // NOLINT: filled from its end
    std::size_t at = buffer.size();
    bool kept = zeros == Zeros::kept;
    for (int i = 0; i < decimals; ++i, rest /= 10) {
        kept = kept || rest % 10 != 0;
        if (kept) buffer[--at] = static_cast<char>('0' + rest % 10);
    }
    if (at != buffer.size()) buffer[--at] = '.';
    if (rest >= 10000) return std::nullopt; // to be grouped
    do {
        buffer[--at] = static_cast<char>('0' + rest % 10);
    } while ((rest /= 10) != 0);
    if (value < 0) buffer[--at] = '-';
    return std::string(buffer.data() + at, buffer.size() - at);
}

} // namespace

std::string figures(double value, int decimals, Zeros zeros, Ties ties) {
    if (std::optional<std::string> text = plain_figures(value, decimals, zeros)) return *text;
    if (std::isnan(value)) return "?";
    if (std::isinf(value)) return value < 0 ? "-∞" : "∞";
    if (std::abs(value) >= 1e15) return fmt::format("{:.6g}", value);
    Decimal decimal = shortest(std::abs(value));
    round(decimal, decimals, ties);

    // The digit `i` places behind the point (negative: before it).
    const auto digit = [&](int i) {
        const int at = decimal.point + i;
        const bool there = at >= 0 && at < static_cast<int>(decimal.digits.size());
        return there ? decimal.digits[static_cast<std::size_t>(at)] : '0';
    };
    std::string whole;
    for (int i = -decimal.point; i < 0; ++i)
        whole += digit(i);
    std::string fraction;
    for (int i = 0; i < decimals; ++i)
        fraction += digit(i);
    if (zeros == Zeros::dropped) fraction.erase(fraction.find_last_not_of('0') + 1);

    const bool nothing = decimal.digits.find_first_not_of('0') == std::string::npos;
    std::string text = value < 0 && !nothing ? "-" : "";
    text += nothing || whole.empty() ? "0" : grouped(whole);
    if (!fraction.empty()) text.append(".").append(fraction);
    return text;
}

} // namespace waxwright
