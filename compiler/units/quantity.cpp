#include "units/quantity.hpp"

#include <charconv>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <system_error>

namespace waxwright {

namespace {

constexpr double largest = 1e300;

Outcome in_range(const Quantity& quantity) {
    const bool fits = std::abs(quantity.value) <= largest && quantity.doubt <= largest;
    return fits ? Outcome(quantity) : Outcome(Fault::too_large);
}

/// The unit of the one kind that goes with a unit of the other: °C and C°, °F and F°, K for either.
UnitId partner(UnitId id, std::string_view celsius, std::string_view fahrenheit) {
    if (id == no_unit) return no_unit;
    const bool american = unit(id).system == System::us;
    return find_unit(american ? fahrenheit : celsius);
}
UnitId interval_unit(UnitId point) {
    return partner(point, "C°", "F°");
}
UnitId point_unit(UnitId interval) {
    return partner(interval, "°C", "°F");
}

/// `left` with the value and the doubt of the sum; of the same dimension as `right` but for
/// temperatures.
Outcome with_value(Quantity left, double value, const Quantity& right) {
    left.value = value;
    left.doubt += right.doubt;
    left.of_volumes = left.of_volumes || right.of_volumes;
    return in_range(left);
}

std::optional<Fault> cannot_add(const Quantity& left, const Quantity& right) {
    if (left.dimension != right.dimension) return Fault::unlike;
    const bool two = left.currency != right.currency && left.dimension.money != 0;
    if (two) return Fault::currencies;
    return std::nullopt;
}

bool is_point(const Quantity& quantity) {
    return quantity.dimension.point;
}
bool is_interval(const Quantity& quantity) {
    return quantity.dimension == dimension::interval;
}

/// The exponents of a product (`sign` 1) or a quotient (-1), without marks; empty if one is too
/// large.
std::optional<Dimension> combine(const Dimension& a, const Dimension& b, int sign) {
    bool fits = true;
    const auto sum = [&](std::int8_t x, std::int8_t y) {
        const int exponent = x + sign * y;
        fits = fits && exponent >= -127 && exponent <= 127;
        return static_cast<std::int8_t>(fits ? exponent : 0);
    };
    const Dimension dimension{sum(a.mass, b.mass),         sum(a.volume, b.volume),
                              sum(a.length, b.length),     sum(a.time, b.time),
                              sum(a.interval, b.interval), sum(a.money, b.money),
                              sum(a.energy, b.energy)};
    return fits ? std::optional(dimension) : std::nullopt;
}

/// What a product and a quotient have in common; `value` and `doubt` are left to the caller.
std::variant<Quantity, Fault> frame(const Quantity& left, const Quantity& right, int sign) {
    if (is_point(left) || is_point(right)) return Fault::point_arithmetic;
    const bool two =
        left.dimension.money != 0 && right.dimension.money != 0 && left.currency != right.currency;
    if (two) return Fault::currencies;
    const std::optional<Dimension> dimension = combine(left.dimension, right.dimension, sign);
    if (!dimension) return Fault::too_large;

    Quantity result;
    result.dimension = *dimension;
    if (*dimension == dimension::count) {
        const bool likes = left.dimension == right.dimension && left.dimension != dimension::count;
        const bool count_over_ratio = sign < 0 && left.dimension == dimension::count;
        const bool a_ratio = left.dimension.ratio || right.dimension.ratio;
        result.dimension.ratio = (sign < 0 && likes) || (a_ratio && !count_over_ratio);
    }
    const bool two_volumes =
        left.dimension == dimension::volume && right.dimension == dimension::volume;
    result.of_volumes =
        result.dimension.ratio && (two_volumes || left.of_volumes || right.of_volumes);
    if (result.dimension.money != 0) {
        result.currency = left.dimension.money != 0 ? left.currency : right.currency;
    }
    if (result.dimension == left.dimension) {
        result.unit = left.unit;
    } else if (sign > 0 && result.dimension == right.dimension) {
        result.unit = right.unit;
    }
    return result;
}

// --- numbers ---------------------------------------------------------------------------------

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Takes the digits at the front of `text`.
std::string_view take_digits(std::string_view& text) {
    std::size_t length = 0;
    while (length < text.size() && is_digit(text[length]))
        ++length;
    const std::string_view digits = text.substr(0, length);
    text.remove_prefix(length);
    return digits;
}

/// Digits with at most one point among them, as a number; empty when it is past 1e300.
std::optional<double> to_double(std::string_view digits) {
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value,
                                              std::chars_format::fixed);
    if (error == std::errc::result_out_of_range) {
        // Too small for a double is nothing; only a digit before the point makes it too large.
        const std::string_view whole = digits.substr(0, digits.find('.'));
        const bool small = whole.find_first_not_of('0') == std::string_view::npos;
        return small ? std::optional(0.0) : std::nullopt;
    }
    return value <= largest ? std::optional(value) : std::nullopt;
}

/// `3/4`: what stands behind the slash, whole digits; `text` must end with them.
std::optional<double> over(std::string_view above, std::string_view text) {
    const std::string_view below = take_digits(text);
    if (above.empty() || below.empty() || !text.empty()) return std::nullopt;
    const std::optional<double> a = to_double(above);
    const std::optional<double> b = to_double(below);
    if (!a || !b || *b == 0) return std::nullopt;
    return *a / *b;
}

std::optional<double> read_unsigned(std::string_view text) {
    const std::string_view all = text;
    const std::string_view whole = take_digits(text);
    if (whole.empty()) return std::nullopt;
    if (text.empty()) return to_double(whole);
    if (text.front() == '/') return over(whole, text.substr(1));
    if (text.front() == '.') {
        text.remove_prefix(1);
        const bool good = !take_digits(text).empty() && text.empty();
        return good ? to_double(all) : std::nullopt;
    }
    const std::size_t blanks = text.find_first_not_of(" \t");
    if (blanks == 0 || blanks == std::string_view::npos) return std::nullopt;
    text.remove_prefix(blanks);
    const std::string_view above = take_digits(text);
    if (!text.starts_with('/')) return std::nullopt;
    const std::optional<double> share = over(above, text.substr(1));
    const std::optional<double> units = to_double(whole);
    return share && units ? std::optional(*units + *share) : std::nullopt;
}

} // namespace

Outcome add(const Quantity& left, const Quantity& right) {
    const double value = left.value + right.value;
    if (is_point(left) && is_point(right)) return Fault::point_arithmetic;
    if (is_point(left) && is_interval(right)) return with_value(left, value, right);
    if (is_interval(left) && is_point(right)) {
        Quantity point = left;
        point.dimension = dimension::point;
        point.unit = left.unit == no_unit ? right.unit : point_unit(left.unit);
        return with_value(point, value, right);
    }
    if (const auto fault = cannot_add(left, right)) return *fault;
    Quantity sum = left;
    if (sum.unit == no_unit) sum.unit = right.unit;
    return with_value(sum, value, right);
}

Outcome subtract(const Quantity& left, const Quantity& right) {
    const double value = left.value - right.value;
    if (is_point(left) && is_point(right)) {
        Quantity interval = left;
        interval.dimension = dimension::interval;
        interval.unit = interval_unit(left.unit == no_unit ? right.unit : left.unit);
        return with_value(interval, value, right);
    }
    if (is_point(left) && is_interval(right)) return with_value(left, value, right);
    if (is_interval(left) && is_point(right)) return Fault::point_arithmetic;
    if (const auto fault = cannot_add(left, right)) return *fault;
    Quantity difference = left;
    if (difference.unit == no_unit) difference.unit = right.unit;
    return with_value(difference, value, right);
}

Outcome multiply(const Quantity& left, const Quantity& right) {
    auto framed = frame(left, right, 1);
    if (const Fault* fault = std::get_if<Fault>(&framed)) return *fault;
    Quantity& product = std::get<Quantity>(framed);
    product.value = left.value * right.value;
    product.doubt = std::abs(left.value) * right.doubt + std::abs(right.value) * left.doubt;
    return in_range(product);
}

Outcome divide(const Quantity& left, const Quantity& right) {
    auto framed = frame(left, right, -1);
    if (const Fault* fault = std::get_if<Fault>(&framed)) return *fault;
    if (right.value == 0) return Fault::by_zero;
    Quantity& quotient = std::get<Quantity>(framed);
    quotient.value = left.value / right.value;
    quotient.doubt = (left.doubt + std::abs(quotient.value) * right.doubt) / std::abs(right.value);
    return in_range(quotient);
}

std::optional<double> read_number(std::string_view text) {
    const bool negative = text.starts_with('-');
    const std::optional<double> number = read_unsigned(text.substr(negative ? 1 : 0));
    if (!number || *number > largest) return std::nullopt;
    return negative && *number != 0 ? -*number : *number;
}

} // namespace waxwright
