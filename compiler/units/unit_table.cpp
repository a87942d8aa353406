// The table of single units, and looking a spelling up in it.
//
// Sources of the factors. All are exact by definition.
// - Pound 453.59237 g: UK Weights and Measures Act 1985, Schedule 1; from memory of NIST Handbook
//   44, Appendix C, section 4. An ounce is 1/16 pound, by the same.
// - Inch 25.4 mm: 16 CFR 500.19 (2.54 cm, marked exact). A foot is 12 inches.
// - US gallon 231 cubic inches = 3785.411784 ml; quart 1/4, pint 1/8, cup 1/16, fluid ounce 1/128
//   gallon; tablespoon 1/2, teaspoon 1/6 fluid ounce: from memory of NIST Handbook 44, Appendix C.
// - Imperial gallon 4546.09 ml: from memory of the UK Weights and Measures Act 1985, Schedule 1 as
//   first enacted; fluid ounce 1/160, pint 1/8 gallon.
// - Degree Fahrenheit: t/°C = (t/°F - 32)/1.8, an interval of it is 5/9 K: from memory of NIST
//   Special Publication 811, Appendix B.8.
#include "units/unit.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <iterator>

namespace waxwright {

namespace {

using namespace dimension;
using enum System;

constexpr double pound = 453.59237;           // g
constexpr double us_gallon = 3785.411784;     // ml
constexpr double us_ounce = 29.5735295625;    // ml, gallon / 128
constexpr double imperial_ounce = 28.4130625; // ml, gallon / 160
constexpr double imperial_pint = 568.26125;   // ml, gallon / 8
constexpr double day = 86400;                 // s
constexpr double week = 7 * day;              // s

struct Row {
    Unit unit;
    std::string_view plain;  // the spelling that is printed; empty: this one
    std::string_view plural; // what it is called after a number other than 1; empty: the same
};

constexpr Row rows[] = {
    {{"mg", mass, 0.001, 0, metric}, {}, {}},
    {{"g", mass, 1, 0, metric}, {}, {}},
    {{"kg", mass, 1000, 0, metric}, {}, {}},
    {{"oz", mass, pound / 16, 0, us}, {}, {}},
    {{"lb", mass, pound, 0, us}, {}, {}},
    {{"lbs", mass, pound, 0, us}, "lb", {}},

    {{"ml", volume, 1, 0, metric}, {}, {}},
    {{"mL", volume, 1, 0, metric}, "ml", {}},
    {{"cl", volume, 10, 0, metric}, {}, {}},
    {{"dl", volume, 100, 0, metric}, {}, {}},
    {{"l", volume, 1000, 0, metric}, {}, {}},
    {{"L", volume, 1000, 0, metric}, "l", {}},
    {{"tsp", volume, 4.92892159375, 0, us}, {}, {}},
    {{"tbsp", volume, 14.78676478125, 0, us}, {}, {}},
    {{"fl oz", volume, us_ounce, 0, us}, {}, {}},
    {{"cup", volume, us_gallon / 16, 0, us}, {}, "cups"},
    {{"cups", volume, us_gallon / 16, 0, us}, "cup", "cups"},
    {{"pint", volume, us_gallon / 8, 0, us}, {}, "pints"},
    {{"pints", volume, us_gallon / 8, 0, us}, "pint", "pints"},
    {{"quart", volume, us_gallon / 4, 0, us}, {}, "quarts"},
    {{"quarts", volume, us_gallon / 4, 0, us}, "quart", "quarts"},
    {{"gallon", volume, us_gallon, 0, us}, {}, "gallons"},
    {{"gallons", volume, us_gallon, 0, us}, "gallon", "gallons"},
    {{"imp fl oz", volume, imperial_ounce, 0, imperial}, {}, {}},
    {{"imp pint", volume, imperial_pint, 0, imperial}, {}, "imp pints"},
    {{"imp pints", volume, imperial_pint, 0, imperial}, "imp pint", "imp pints"},

    {{"mm", length, 1, 0, metric}, {}, {}},
    {{"cm", length, 10, 0, metric}, {}, {}},
    {{"m", length, 1000, 0, metric}, {}, {}},
    {{"in", length, 25.4, 0, us}, {}, {}},
    {{"ft", length, 304.8, 0, us}, {}, {}},

    {{"°C", point, 1, 0, metric}, {}, {}},
    {{"C", point, 1, 0, metric}, "°C", {}},
    {{"°F", point, 5.0 / 9, -160.0 / 9, us}, {}, {}},
    {{"F", point, 5.0 / 9, -160.0 / 9, us}, "°F", {}},
    {{"C°", interval, 1, 0, metric}, {}, {}},
    {{"F°", interval, 5.0 / 9, 0, us}, {}, {}},
    {{"K", interval, 1, 0, both}, {}, {}},

    {{"s", time, 1, 0, both}, {}, {}},
    {{"sec", time, 1, 0, both}, "s", {}},
    {{"second", time, 1, 0, both}, "s", {}},
    {{"seconds", time, 1, 0, both}, "s", {}},
    {{"min", time, 60, 0, both}, {}, {}},
    {{"minute", time, 60, 0, both}, "min", {}},
    {{"minutes", time, 60, 0, both}, "min", {}},
    {{"h", time, 3600, 0, both}, {}, {}},
    {{"hour", time, 3600, 0, both}, "h", {}},
    {{"hours", time, 3600, 0, both}, "h", {}},
    {{"d", time, day, 0, both}, "day", "days"},
    {{"day", time, day, 0, both}, {}, "days"},
    {{"days", time, day, 0, both}, "day", "days"},
    {{"week", time, week, 0, both}, {}, "weeks"},
    {{"weeks", time, week, 0, both}, "week", "weeks"},

    {{"J", energy, 1, 0, both}, {}, {}},
    {{"kJ", energy, 1000, 0, both}, {}, {}},
    {{"W", power, 1, 0, both}, {}, {}},
    {{"kW", power, 1000, 0, both}, {}, {}},

    {{"%", ratio, 0.01, 0, both}, {}, {}},
};
constexpr std::size_t count = std::size(rows);
static_assert(count < no_unit);

constexpr auto units = [] {
    std::array<Unit, count> all{};
    for (std::size_t i = 0; i < count; ++i)
        all[i] = rows[i].unit;
    return all;
}();

/// Shorter before longer, then by bytes: comparing lengths settles most of a search.
constexpr bool before(std::string_view a, std::string_view b) {
    return a.size() != b.size() ? a.size() < b.size() : a < b;
}

constexpr auto by_symbol = [] {
    std::array<UnitId, count> order{};
    for (std::size_t i = 0; i < count; ++i)
        order[i] = static_cast<UnitId>(i);
    std::sort(order.begin(), order.end(),
              [](UnitId a, UnitId b) { return before(units[a].symbol, units[b].symbol); });
    return order;
}();

constexpr UnitId find_exact(std::string_view symbol) {
    const auto* found = std::partition_point(by_symbol.begin(), by_symbol.end(), [&](UnitId id) {
        return before(units[id].symbol, symbol);
    });
    return found != by_symbol.end() && units[*found].symbol == symbol ? *found : no_unit;
}

constexpr auto plain_ids = [] {
    std::array<UnitId, count> ids{};
    for (std::size_t i = 0; i < count; ++i) {
        ids[i] = rows[i].plain.empty() ? static_cast<UnitId>(i) : find_exact(rows[i].plain);
    }
    return ids;
}();
static_assert(std::find(plain_ids.begin(), plain_ids.end(), no_unit) == plain_ids.end(),
              "a plain spelling is no unit");

} // namespace

std::span<const Unit> all_units() {
    return units;
}

const Unit& unit(UnitId id) {
    return units[id];
}

UnitId find_unit(std::string_view symbol) {
    constexpr std::size_t longest = 9; // bytes, of `imp pints`
    const bool plain_text = symbol.find_first_of(" \t") == std::string_view::npos;
    if (plain_text) return find_exact(symbol);
    std::array<char, longest> text{}; // with each run of blanks as one space
    std::size_t end = 0;
    bool blank = false;
    for (const char c : symbol) {
        const bool was_blank = blank;
        blank = c == ' ' || c == '\t';
        if (blank && was_blank) continue;
        if (end == longest) return no_unit;
        text[end++] = blank ? ' ' : c;
    }
    return find_exact({text.data(), end});
}

UnitId plain(UnitId id) {
    return id == no_unit ? no_unit : plain_ids[id];
}

std::string_view plural(UnitId id) {
    if (id == no_unit) return {};
    return rows[id].plural.empty() ? units[plain_ids[id]].symbol : rows[id].plural;
}

} // namespace waxwright
