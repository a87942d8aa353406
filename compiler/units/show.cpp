#include "units/show.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>

#include <fmt/format.h>

#include "units/figures.hpp"

namespace waxwright {

namespace {

/// Decimals to show `value` with. A figure of few decimals is shown whole, as whoever wrote it
/// would know it again (0.1875 oz, 10.75 fl oz); a longer one, which was converted or reckoned, is
/// cut to about three figures (28.35 g, 0.0625), a temperature to one decimal (93.3 °C).
int fitting_decimals(double value, bool temperature) {
    if (!std::isfinite(value)) return 0;
    const double size = std::abs(value);
    const int whole = temperature ? 2 : 4;
    double scale = 1;
    for (int decimals = 0; decimals <= whole; ++decimals, scale *= 10) {
        // Noise of a conversion there and back is far under 1e-9 of the value.
        if (std::abs(size * scale - std::round(size * scale)) <= 1e-9 * size * scale)
            return decimals;
    }
    if (temperature && size >= 0.1) return 1;
    if (size >= 10) return 2;
    if (size >= 0.1) return 3;
    return std::min(2 - static_cast<int>(std::floor(std::log10(size))), 20);
}

/// A unit to show in what was written in none: for what nobody counts in the inside unit, another.
struct Shown {
    std::string symbol;
    double per_inside; // numbers of it in an inside unit
};

std::string power_of(std::string_view symbol, int exponent) {
    return exponent == 1 ? std::string(symbol) : fmt::format("{}^{}", symbol, exponent);
}

/// The inside unit of a dimension, but hours for a rate: "g/h", "J/g/K", "USD/h", "mm^3".
Shown inside_unit(Dimension dimension, Currency currency) {
    if (dimension == dimension::power) return {"W", 1};
    const std::string_view code = code_of(currency);
    struct Part {
        std::string_view symbol;
        int exponent;
    };
    const bool rate = dimension.time == -1;
    const Part parts[] = {
        {code.empty() ? "money" : code, dimension.money},
        {"J", dimension.energy},
        {"g", dimension.mass},
        {"ml", dimension.volume},
        {"mm", dimension.length},
        {"K", dimension.interval},
        {rate ? "h" : "s", dimension.time},
    };
    std::string above;
    std::string below;
    for (const auto& [symbol, exponent] : parts) {
        if (exponent > 0) above += (above.empty() ? "" : "*") + power_of(symbol, exponent);
        if (exponent < 0) below += "/" + power_of(symbol, -exponent);
    }
    if (above.empty() && !below.empty()) above = "1";
    return {above + below, rate ? 3600.0 : 1.0};
}

/// Number, doubt and unit. The doubt is shown with the decimals it needs itself.
std::string compose(double number, double doubt, bool temperature, std::string_view symbol) {
    std::string text = figures(number, fitting_decimals(number, temperature), Zeros::dropped);
    if (!symbol.empty()) text.append(" ").append(symbol);
    if (doubt > 0) {
        text += " ± " + figures(doubt, fitting_decimals(doubt, temperature), Zeros::dropped);
    }
    return text;
}

/// As show_in, with a doubt in inside units (0: none).
std::string show_with(double value, double doubt, UnitId id, Dimension dimension,
                      Currency currency) {
    if (id != no_unit) {
        const UnitId printed = plain(id);
        const Unit& found = unit(printed);
        const double number = from_inside(value, printed);
        const bool temperature =
            found.dimension == dimension::point || found.dimension == dimension::interval;
        const bool one = std::abs(number - 1) < 1e-9;
        const std::string_view symbol = one ? found.symbol : plural(printed);
        return compose(number, doubt / found.factor, temperature, symbol);
    }
    if (dimension == dimension::count) return compose(value, doubt, false, {});
    if (dimension == dimension::ratio) return compose(value * 100, doubt * 100, false, "%");
    if (dimension == dimension::point) return compose(value, doubt, true, "°C");
    if (dimension == dimension::interval) return compose(value, doubt, true, "C°");
    if (dimension == dimension::time) return compose(value / 60, doubt / 60, false, "min");
    const Shown shown = inside_unit(dimension, currency);
    if (dimension == dimension::wage && currency != no_money) {
        return show_money(value * shown.per_inside, currency) + "/h";
    }
    return compose(value * shown.per_inside, doubt * shown.per_inside, false, shown.symbol);
}

/// Whole degrees; a half if it is one, as in 72.5 °C.
std::string degrees(double value) {
    const double halves = std::round(value * 2);
    const bool half = std::abs(value * 2 - halves) < 0.02 && std::fmod(halves, 2) != 0;
    return figures(half ? halves / 2 : value, half ? 1 : 0, Zeros::dropped);
}

} // namespace

std::string show_number(double value, int decimals) {
    return figures(value, std::clamp(decimals, 0, 20), Zeros::dropped);
}

std::string show_percent(double fraction) {
    return show_number(fraction * 100, 2) + " %";
}

std::string show_in(double value, UnitId unit, Dimension dimension) {
    return show_with(value, 0, unit, dimension, no_money);
}

std::string show(const Quantity& quantity) {
    if (quantity.dimension == dimension::money && quantity.currency != no_money) {
        return show_money(quantity.value, quantity.currency);
    }
    return show_with(quantity.value, quantity.doubt, quantity.unit, quantity.dimension,
                     quantity.currency);
}

std::string show_temperature(double celsius, bool fahrenheit_first) {
    const std::string c = degrees(celsius) + " °C";
    const std::string f = degrees(celsius * 1.8 + 32) + " °F";
    return fahrenheit_first ? fmt::format("{} ({})", f, c) : fmt::format("{} ({})", c, f);
}

std::string range_words(double low, double high, UnitId unit, Dimension dimension) {
    std::string from = show_in(low, unit, dimension);
    std::string to = show_in(high, unit, dimension);
    if (from == to) return to;
    // The unit is said once: the blank before it is the last one.
    const std::size_t blank = from.rfind(' ');
    if (blank != std::string::npos && to.ends_with(from.substr(blank))) from.resize(blank);
    return fmt::format("{} to {}", from, to);
}

} // namespace waxwright
