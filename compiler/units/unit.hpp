// The units and their exact factors, and reading a unit as written: `g`, `fl oz`, `oz per lb`.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <variant>

#include "units/dimension.hpp"
#include "units/money.hpp"

namespace waxwright {

enum class System : std::uint8_t { both, metric, us, imperial };

/// Inside, quantities are in g, ml, mm, s, °C (points), K (intervals), J and a currency's major
/// unit. value_inside = written * factor + offset.
struct Unit {
    std::string_view symbol; // as it is printed; also the spelling that is read
    Dimension dimension;
    double factor;
    double offset; // for °F as a point only
    System system;
};

/// Index into all_units(); no_unit where there is none or the unit is a quotient or a currency.
using UnitId = std::uint8_t;
inline constexpr UnitId no_unit = 0xFF;

/// Every single unit, every spelling (`ml` and `mL`, `cup` and `cups`) its own row. A row's symbol
/// for `°C` also covers `C` by a row of its own.
std::span<const Unit> all_units();
const Unit& unit(UnitId id);
/// The unit of that exact spelling, spaces inside `fl oz` taken as one; no_unit if there is none.
UnitId find_unit(std::string_view symbol);
/// The unit to print a value in that was written in `id`: the same, in its plain spelling
/// (`mL` prints as `ml`, `C` as `°C`, `lbs` as `lb`, `cups` as `cup`, `hours` as `h`, `d` as
/// `day`). no_unit stays no_unit.
UnitId plain(UnitId id);
/// What the plain unit is called after any number but 1: `cups`, `days`; most are as they were.
std::string_view plural(UnitId id);

/// A unit as written, quotients and currencies included.
struct UnitReading {
    Dimension dimension;
    double factor = 1;
    double offset = 0;
    UnitId id = no_unit;          // only for a single unit
    Currency currency = no_money; // where a currency is part of it
    bool of_volumes = false;      // `tsp per cup`: a ratio of two volumes
};

/// What was wrong: the part of the text that is no unit.
struct UnknownUnit {
    std::string_view part; // a piece of the text given
};

/// Reads `g`, `fl  oz`, `g/ml`, `J/g/K`, `oz per lb`, `USD/h`, `%`; quotients group to the left,
/// and a temperature anywhere in a quotient is an interval. A quotient has one currency: a second
/// one is its unknown part. The text has no outer spaces; spaces round `/` are read over.
std::variant<UnitReading, UnknownUnit> read_unit(std::string_view text);

/// The number as written, in inside units: `185 °F` is 85, `7 %` is 0.07. Use these two rather
/// than the factor: they divide where that is exact, so that 185 °F is not a hair over 85 °C.
double to_inside(double written, const UnitReading& unit);
double to_inside(double written, UnitId id);
/// The other way: an inside value as a number of the unit.
double from_inside(double inside, UnitId id);

/// A hint for a word that is no unit: the nearest unit (of the dimension that is wanted, if one is
/// near enough), or what to do about `drops`, `ounces`,
/// `grams`, `º` and other ways people write. Empty when there is nothing to say.
std::string unit_hint(std::string_view wrong, Dimension wanted = dimension::count);

/// The unit such a word stands for; empty where it is not one only. `surely` where it is another
/// spelling of it (`grams`, `ºC`, `ML`) or, in four letters and more, a slip of one edit.
struct UnitMeant {
    std::string_view unit;
    bool surely = false;
};
UnitMeant unit_meant(std::string_view wrong, Dimension wanted = dimension::count);

} // namespace waxwright
