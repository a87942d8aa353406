#include "compare/values.hpp"

#include <cmath>
#include <utility>

#include "plan/wording.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Whole degrees, or a half if it is one: what show_temperature shows of it.
double shown_degrees(double celsius) {
    const double halves = std::round(celsius * 2) / 2;
    return std::abs(celsius - halves) < 0.01 ? halves : std::round(celsius);
}

double in_minor_units(double amount, Currency currency) {
    const int minor = currency == no_money ? 2 : all_currencies()[currency].minor;
    const double scale = std::pow(10.0, minor);
    return std::round(amount * scale) / scale;
}

double as_shown(const SheetValue& value) {
    if (value.kind == ValueKind::temperature) return shown_degrees(value.number);
    if (value.kind == ValueKind::money) return in_minor_units(value.number, value.currency);
    return value.number;
}

} // namespace

std::string_view unit_word(ValueKind kind) {
    switch (kind) {
    case ValueKind::weight:
        return "g";
    case ValueKind::volume:
        return "ml";
    case ValueKind::length:
        return "mm";
    case ValueKind::temperature:
        return "C";
    case ValueKind::share:
        return "share";
    case ValueKind::minutes:
        return "min";
    case ValueKind::money:
        return "money";
    case ValueKind::text:
    case ValueKind::count:
        break;
    }
    return "";
}

SheetValue text_value(std::string text) {
    SheetValue value;
    value.text = std::move(text);
    return value;
}

SheetValue count_value(std::int64_t count) {
    return figure_value(ValueKind::count, static_cast<double>(count));
}

SheetValue figure_value(ValueKind kind, double number) {
    SheetValue value;
    value.kind = kind;
    value.number = number;
    return value;
}

SheetValue weight_value(double grams, double division_g, UnitId unit) {
    constexpr double finest =
        1e6; // without the noise of whole divisions: 250.1, not 250.10000000000002
    SheetValue value = figure_value(ValueKind::weight, std::round(grams * finest) / finest);
    value.division_g = division_g;
    value.unit = unit;
    return value;
}

SheetValue money_value(double amount, Currency currency) {
    SheetValue value = figure_value(ValueKind::money, amount);
    value.currency = currency;
    return value;
}

namespace {

std::string shown_figure(const SheetValue& value, bool us_units) {
    switch (value.kind) {
    case ValueKind::text:
        break;
    case ValueKind::count:
        return show_number(value.number, 0);
    case ValueKind::weight:
        return show_weight(value.number, value.division_g, value.unit);
    case ValueKind::volume:
        return show_volume(value.number, us_units);
    case ValueKind::length:
        return show_length(value.number, us_units);
    case ValueKind::temperature:
        return show_temperature(value.number, us_units);
    case ValueKind::share:
        return show_percent(value.number);
    case ValueKind::minutes:
        return show_duration(value.number * 60);
    case ValueKind::money:
        return show_money(value.number, value.currency);
    }
    return {};
}

} // namespace

std::string shown(const SheetValue& value, bool us_units) {
    return shown_figure(value, us_units) + value.text;
}

std::optional<double> difference(const SheetValue& before, const SheetValue& after) {
    const bool alike =
        before.kind == after.kind && before.unit == after.unit && before.currency == after.currency;
    if (!alike || before.kind == ValueKind::text || before.kind == ValueKind::share) return {};
    return as_shown(after) - as_shown(before);
}

} // namespace waxwright
