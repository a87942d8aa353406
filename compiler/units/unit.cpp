// Reading a unit as written, and the way in and out of it.
#include "units/unit.hpp"

#include <cmath>
#include <cstddef>
#include <optional>

namespace waxwright {

namespace {

constexpr bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_blank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back()))
        text.remove_suffix(1);
    return text;
}

/// Where the first `/`, or `per` between blanks, begins and how long it is.
struct Mark {
    std::size_t at;
    std::size_t length; // 0: there is none
};

Mark find_over(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '/') return {i, 1};
        const bool per = text[i] == 'p' && text.substr(i, 3) == "per" &&
                         (i == 0 || is_blank(text[i - 1])) &&
                         (i + 3 == text.size() || is_blank(text[i + 3]));
        if (per) return {i, 3};
    }
    return {text.size(), 0};
}

/// One unit or currency by itself.
std::optional<UnitReading> read_single(std::string_view text) {
    if (const UnitId id = find_unit(text); id != no_unit) {
        const Unit& found = unit(id);
        return UnitReading{found.dimension, found.factor, found.offset, id, no_money};
    }
    if (const Currency currency = find_currency(text); currency != no_money) {
        return UnitReading{dimension::money, 1, 0, no_unit, currency};
    }
    return std::nullopt;
}

/// Nobody gives a thermometer reading per anything: in a quotient degrees are an interval.
UnitReading as_interval(UnitReading reading) {
    if (reading.dimension.point) reading.dimension = dimension::interval;
    reading.offset = 0;
    return reading;
}

Dimension over(Dimension a, const Dimension& b) {
    const auto minus = [](std::int8_t x, std::int8_t y) { return static_cast<std::int8_t>(x - y); };
    Dimension d{minus(a.mass, b.mass),    minus(a.volume, b.volume),     minus(a.length, b.length),
                minus(a.time, b.time),    minus(a.interval, b.interval), minus(a.money, b.money),
                minus(a.energy, b.energy)};
    d.ratio = d == dimension::count; // `oz per lb`
    return d;
}

/// More units than this behind one another are no unit anybody writes; exponents stay in range.
constexpr int most_over = 16;

/// 1/100, 1/3600 and 5/9 have no exact double; 100, 3600 and 1.8 have one, or a far closer one.
double inverse(double factor) {
    const double plain = 1 / factor;
    const double tenths = std::round(plain * 10) / 10;
    return std::abs(plain - tenths) <= 1e-14 * plain ? tenths : plain;
}

} // namespace

std::variant<UnitReading, UnknownUnit> read_unit(std::string_view text) {
    Mark mark = find_over(text);
    std::string_view part = trimmed(text.substr(0, mark.at));
    const std::string_view whole = text; // told where a part is missing, as in `g/`
    const std::optional<UnitReading> first = read_single(part);
    if (!first) return UnknownUnit{part.empty() ? whole : part};
    if (mark.length == 0) return *first;

    UnitReading sum = as_interval(*first);
    sum.id = no_unit;
    for (int i = 0; mark.length != 0; ++i) {
        text.remove_prefix(mark.at + mark.length);
        mark = find_over(text);
        part = trimmed(text.substr(0, mark.at));
        std::optional<UnitReading> next = read_single(part);
        if (!next || i == most_over) return UnknownUnit{part.empty() ? whole : part};
        next = as_interval(*next);
        if (next->currency != no_money) {
            if (sum.currency == no_money) sum.currency = next->currency;
            if (sum.currency != next->currency) return UnknownUnit{part};
        }
        sum.dimension = over(sum.dimension, next->dimension);
        sum.factor /= next->factor;
    }
    if (sum.dimension.money == 0) sum.currency = no_money;
    sum.of_volumes = sum.dimension.ratio && first->dimension == dimension::volume;
    return sum;
}

double to_inside(double written, const UnitReading& unit) {
    if (unit.offset != 0) return (written - 32) / 1.8; // °F is the one unit with an offset
    return unit.factor < 1 ? written / inverse(unit.factor) : written * unit.factor;
}

double to_inside(double written, UnitId id) {
    return to_inside(written, {unit(id).dimension, unit(id).factor, unit(id).offset, id, no_money});
}

double from_inside(double inside, UnitId id) {
    const Unit& wanted = unit(id);
    if (wanted.offset != 0) return inside * 1.8 + 32;
    return wanted.factor < 1 ? inside * inverse(wanted.factor) : inside / wanted.factor;
}

} // namespace waxwright
