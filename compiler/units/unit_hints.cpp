// What to say to a word that is no unit. Makers write units as they come from the shop's label, the
// kitchen or another country; the table holds what they write and what the language has for it.
#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "units/unit.hpp"

namespace waxwright {

namespace {

constexpr std::string_view weigh_drops =
    "weigh them: a drop is no measure, it differs with the oil and the dropper; put the bottle on "
    "the scale and write the weight in `g`";
constexpr std::string_view weigh_it =
    "weigh it and write the weight in `g`: judged by eye it is different every time";

/// What people write, in lower case and without full stops, each word between two bars.
struct Habit {
    std::string_view instead; // a unit, or a whole hint
    std::string_view written;
};

constexpr Habit habits[] = {
    {weigh_drops, "|drop|drops|gtt|gtts|dropper|droppers|"},
    {weigh_it, "|pinch|pinches|dash|dashes|splash|splashes|squirt|squirts|capful|capfuls|scoop|"},
    {weigh_it, "|scoops|handful|handfuls|spoon|spoons|spoonful|spoonfuls|stick|sticks|bit|bits|"},
    {"parts are for blends; here a unit is wanted", "|part|parts|"},

    {"mg", "|mgs|milligram|milligrams|"},
    {"g", "|gm|gms|gr|grs|gram|grams|gramme|grammes|"},
    {"kg", "|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes|"},
    {"lb", "|#|"},
    {"write `oz` for a weight, `fl oz` for a volume", "|ounce|ounces|ozs|"},
    {"write `lb` for a weight, `GBP` or `£` for money", "|pound|pounds|"},
    {"write it in `mg`: a grain is 64.8 mg", "|grain|grains|"},
    {"write it in `mg`: 1000 of these are 1 mg", "|mcg|ug|µg|μg|"}, // U+00B5, U+03BC
    {"write it in `lb`: a stone is 14 lb", "|stone|stones|"},
    {"write it in `kg`: a tonne is 1000 kg", "|tonne|tonnes|"},
    {"write it in `kg`", "|ton|tons|"},

    {"ml", "|mls|cc|ccm|cm3|cm³|milliliter|milliliters|millilitre|millilitres|"},
    {"cl", "|centiliter|centiliters|centilitre|centilitres|"},
    {"dl", "|deciliter|deciliters|decilitre|decilitres|"},
    {"l", "|lt|ltr|ltrs|liter|liters|litre|litres|"},
    {"tsp", "|tsps|teaspoon|teaspoons|"},
    {"tbsp", "|tbs|tbl|tbsps|tablespoon|tablespoons|"},
    {"write `tsp` or `tbsp`", "|t|"},
    {"fl oz", "|floz|fl|fluid|fl ounce|fl ounces|fluid oz|fluid ounce|fluid ounces|us fl oz|"},
    {"quart", "|qt|qts|"},
    {"gallon", "|gal|gals|"},
    {"write `pint` for the US pint, `imp pint` for the imperial one", "|pt|pts|"},
    {"write `imp fl oz` or `imp pint`", "|imp|imperial|"},
    {"imp fl oz", "|imp oz|imperial fl oz|imperial fluid ounces|"},
    {"imp pints", "|imperial pint|imperial pints|"},
    {"write it in `l`: an imperial gallon is 4.54609 l", "|imp gallon|imp gallons|"},

    {"mm", "|millimeter|millimeters|millimetre|millimetres|"},
    {"cm", "|centimeter|centimeters|centimetre|centimetres|"},
    {"m", "|meter|meters|metre|metres|"},
    {"in", "|inch|inches|ins|″|”|"},
    {"ft", "|foot|feet|′|’|"},

    {"write `°C` or `°F` for a temperature, `C°` or `F°` for a difference of two",
     "|°|º|deg|degs|degree|degrees|"},
    {"°C", "|℃|celsius|centigrade|degc|deg c|degree c|degrees c|"},
    {"°F", "|℉|f|fahrenheit|degf|deg f|degree f|degrees f|"},
    {"K", "|°k|kelvin|kelvins|"},
    {"write `°C` for a temperature, `cup` for a volume", "|c|"},

    {"s", "|secs|"},
    {"min", "|mins|"},
    {"h", "|hr|hrs|"},
    {"week", "|wk|"},
    {"weeks", "|wks|"},
    {"write `2 weeks`", "|fortnight|"},
    {"months differ in length: write it in `days` or `weeks`", "|month|months|year|years|"},

    {"J", "|joule|joules|"},
    {"kJ", "|kilojoule|kilojoules|"},
    {"W", "|watt|watts|"},
    {"kW", "|kilowatt|kilowatts|"},
    {"write it in `J` or `kJ`: a calorie is 4.184 J, a kilocalorie 4.184 kJ", "|cal|kcal|"},
    {"write it in `kJ`: 1 kWh is 3600 kJ", "|kwh|"},

    {"%", "|percent|per cent|pct|"},
    {"write it in `%`: 1 ‰ is 0.1 %", "|‰|"},
    {"write it in `%`: 10 000 ppm are 1 %", "|ppm|"},

    {"write `USD` after the number, or `$` before it", "|dollar|dollars|"},
    {"write `EUR` after the number, or `€` before it", "|euro|euros|"},
    {"write it as a part of the whole, `0.50 USD`", "|cent|cents|pence|"},
};

/// The word as habits have it: ASCII letters lower, full stops gone, single spaces. Long ones,
/// which are none, come out cut.
std::string usual(std::string_view wrong) {
    std::string text;
    for (const char c : wrong.substr(0, 64)) {
        const bool blank = c == ' ' || c == '\t';
        if (c == '.' || (blank && (text.empty() || text.back() == ' '))) continue;
        text += blank ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    while (!text.empty() && text.back() == ' ')
        text.pop_back();
    return text;
}

/// What the habits have instead of the word; empty if it is not among them.
std::string_view habit(std::string_view lower) {
    if (lower.empty() || lower.find('|') != std::string_view::npos) return {};
    const std::string barred = fmt::format("|{}|", lower);
    for (const Habit& one : habits) {
        if (one.written.find(barred) != std::string_view::npos) return one.instead;
    }
    return {};
}

/// `ºC`, `˚ C`, `° F`: a sign that looks like the degree sign, or the sign set apart.
std::string_view degrees_meant(std::string_view lower) {
    constexpr std::string_view rings[] = {"°", "º", "˚", "∘", "⁰", "ᵒ", "○"};
    for (const std::string_view ring : rings) {
        const bool before = lower.starts_with(ring);
        const bool behind = lower.ends_with(ring);
        if (!before && !behind) continue;
        std::string_view rest = lower;
        if (before) {
            rest.remove_prefix(ring.size());
        } else {
            rest.remove_suffix(ring.size());
        }
        if (before && rest.starts_with(' ')) rest.remove_prefix(1);
        if (rest == "c") return before ? "°C" : "C°";
        if (rest == "f") return before ? "°F" : "F°";
        if (rest == "k") return "K";
    }
    return {};
}

/// The currencies a small code is taken for; most others are words as well (`all`, `gel`, `top`).
constexpr std::string_view common_codes[] = {"USD", "EUR", "GBP", "CAD", "AUD", "NZD", "CHF",
                                             "SEK", "NOK", "DKK", "PLN", "JPY", "INR", "ZAR"};

/// The unit or currency that differs by capitals (and full stops) alone; empty if none does.
std::string_view other_case(std::string_view lower) {
    for (const Unit& one : all_units()) {
        if (usual(one.symbol) == lower) return one.symbol;
    }
    for (const std::string_view code : common_codes) {
        if (usual(code) == lower) return code;
    }
    return {};
}

/// The nearest unit of the dimension that is wanted, or of any where none of those is near.
Near nearest_unit(std::string_view wrong, Dimension wanted) {
    std::array<std::string_view, no_unit> symbols;
    std::size_t count = 0;
    for (const Unit& one : all_units()) {
        if (one.dimension == wanted) symbols[count++] = one.symbol;
    }
    const Near near = find_near(wrong, std::span(symbols).first(count));
    if (!near.word.empty()) return near;
    const std::span<const Unit> units = all_units();
    std::transform(units.begin(), units.end(), symbols.begin(),
                   [](const Unit& one) { return one.symbol; });
    return find_near(wrong, std::span(symbols).first(units.size()));
}

/// Ways of writing that are another unit to some: a `gr` is a grain as well as a gram, `fl` a part
/// of `fl oz`.
constexpr std::string_view two_readings = "|gr|grs|fl|fluid|imp oz|#|";

} // namespace

UnitMeant unit_meant(std::string_view wrong, Dimension wanted) {
    if (find_currency(wrong) != no_money) return {};
    const std::string lower = usual(wrong);
    if (const std::string_view meant = degrees_meant(lower); !meant.empty()) return {meant, true};
    if (const std::string_view instead = habit(lower); !instead.empty()) {
        if (find_unit(instead) == no_unit) return {};
        return {instead, two_readings.find(fmt::format("|{}|", lower)) == std::string_view::npos};
    }
    if (const std::string_view meant = other_case(lower); !meant.empty()) return {meant, true};
    const Near near = nearest_unit(wrong, wanted);
    const UnitId id = near.alone ? find_unit(near.word) : no_unit;
    if (id == no_unit) return {};
    const bool long_enough = std::min(wrong.size(), near.word.size()) >= 4;
    return {near.word, near.edits == 1 && long_enough && unit(id).dimension == wanted};
}

std::string unit_hint(std::string_view wrong, Dimension wanted) {
    if (find_currency(wrong) != no_money) return "a quotient holds one currency only";
    const std::string lower = usual(wrong);
    if (const std::string_view meant = degrees_meant(lower); !meant.empty()) {
        return fmt::format("write `{}`", meant);
    }
    if (const std::string_view instead = habit(lower); !instead.empty()) {
        const bool is_unit = find_unit(instead) != no_unit;
        return is_unit ? fmt::format("write `{}`", instead) : std::string(instead);
    }
    if (const std::string_view meant = other_case(lower); !meant.empty()) {
        return fmt::format("write `{}`", meant);
    }
    const std::string_view near = nearest_unit(wrong, wanted).word;
    return near.empty() ? std::string() : fmt::format("did you mean `{}`?", near);
}

} // namespace waxwright
