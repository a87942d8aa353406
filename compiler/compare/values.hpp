// A figure or words of a sheet as one kind of value, so that two versions of them can be held
// against each other. Units: g, ml, mm, °C, minutes, fractions, money in its major unit.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "units/money.hpp"
#include "units/unit.hpp"

namespace waxwright {

enum class ValueKind : std::uint8_t {
    text,
    count,
    weight,
    volume,
    length,
    temperature,
    share,
    minutes,
    money
};
/// "g", "C", "share": what the number is in, for other programs; "" for words and counts.
std::string_view unit_word(ValueKind kind);

struct SheetValue {
    ValueKind kind = ValueKind::text;
    double number = 0;            // of a weight as the scale shows it
    std::string text{};           // the words; of a figure what the sheet says behind it, its doubt
    double division_g = 0;        // of a weight
    UnitId unit = no_unit;        // of a weight: its scale's
    Currency currency = no_money; // of money
};

SheetValue text_value(std::string text);
SheetValue count_value(std::int64_t count);
/// Of any kind but text, weight and money.
SheetValue figure_value(ValueKind kind, double number);
/// `grams` in whole divisions.
SheetValue weight_value(double grams, double division_g, UnitId unit);
SheetValue money_value(double amount, Currency currency);

/// As the sheet shows it; in US units lengths in inches, volumes in fluid ounces, °F first.
std::string shown(const SheetValue& value, bool us_units);
/// By how much the one is more than the other, both as they are shown: negative where it is less.
/// Nothing for words, shares (a percent of percents is read in two ways), and values of two kinds,
/// scales or currencies.
std::optional<double> difference(const SheetValue& before, const SheetValue& after);

} // namespace waxwright
