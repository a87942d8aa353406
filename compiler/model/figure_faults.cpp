// What can be wrong with a figure: its dimension, its size, or what it is put together with.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/evaluator.hpp"
#include "model/phrase_text.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr double absolute_zero = -273.15; // °C
constexpr double largest = 1e9;           // of anything, in inside units

/// A bare number as a share: 0.08 as `8%`, 8 as `8%`.
std::string percent_meant(const Quantity& quantity, std::string_view written) {
    const bool fraction = quantity.value > 0 && quantity.value < 1;
    return fraction ? show_number(quantity.value * 100, 4) + "%" : fmt::format("{}%", written);
}

/// What a bare number may have been meant as.
std::string unit_choice(const Quantity& quantity, Dimension dimension, std::string_view written,
                        std::string_view example) {
    if (dimension == dimension::ratio) {
        return fmt::format("write it in percent: {}", percent_meant(quantity, written));
    }
    if (dimension == dimension::length) return "write its unit: mm, cm or in";
    if (dimension == dimension::mass) return "write its unit: g, kg, oz or lb";
    if (dimension == dimension::volume) return "write its unit: ml, l or fl oz";
    if (dimension == dimension::point) return "write its unit: °C or °F";
    if (dimension == dimension::interval) return "write its unit: C° or F°";
    if (dimension == dimension::time) return "write its unit: min, h or days";
    return fmt::format("write its unit: {} {}, for example", written, example);
}

/// The number that a figure begins with: `2 3/4` of `2 3/4 in`, `20` of `20C°`.
std::string number_of(std::string_view written) {
    const std::size_t end = std::min(written.find_first_not_of("0123456789./- "), written.size());
    return std::string(trimmed(written.substr(0, end)));
}

/// True for one number and one unit, with nothing else in it: `3 °C`, and not `(3 °C + 1 °C)`.
bool is_plain(std::string_view written, std::string_view number) {
    constexpr std::string_view digits = "0123456789.-";
    if (number.empty() || number.find_first_not_of(digits) != std::string_view::npos) return false;
    const std::string_view rest = written.substr(number.size());
    return rest.find_first_of("0123456789+-*/()") == std::string_view::npos;
}

} // namespace

void Evaluator::report_fault(Fault fault, const Quantity& left, const Quantity& right, Span at) {
    switch (fault) {
    case Fault::unlike:
        findings_.report(Rule::unit_mismatch, at,
                         fmt::format("{} and {} don't go together", name_of(left.dimension),
                                     name_of(right.dimension)),
                         "only like can be added to like: g to oz, mm to in");
        break;
    case Fault::point_arithmetic:
        findings_.report(Rule::point_arithmetic, at,
                         "a thermometer reading can't be added to another, taken from a "
                         "difference, multiplied or divided",
                         "a difference is written in C° or F°: 70 °C + 5 C°");
        break;
    case Fault::currencies:
        findings_.report(Rule::mixed_currency, at, "this sum has two currencies",
                         "turn one into the other with a rate of your own first");
        break;
    case Fault::too_large:
        findings_.report(Rule::out_of_range, at, "this comes to more than can be worked with",
                         "look at the numbers and their units");
        break;
    case Fault::by_zero:
        findings_.report(Rule::out_of_range, at, "a division by zero",
                         "write another number after the `/`");
        break;
    }
}

/// The figure in the dimension that is wanted, within what can be; told and nothing otherwise.
std::optional<Quantity> Evaluator::wanted(At operand, Dimension dimension, Least least) {
    context_.wanted = dimension;
    const std::optional<Quantity> quantity = figure(operand);
    if (!quantity || !has_dimension(*quantity, dimension, operand)) return std::nullopt;
    if (!in_range(*quantity, least, span(operand))) return std::nullopt;
    return quantity;
}

bool Evaluator::has_dimension(const Quantity& quantity, Dimension dimension, At operand) {
    if (quantity.dimension == dimension) return true;
    mismatch(quantity, dimension, operand);
    return false;
}

std::string_view Evaluator::currency_in(FileId file) {
    if (currencies_.size() <= file) currencies_.resize(file + 1);
    std::optional<std::string_view>& code = currencies_[file];
    if (!code) code = currency_shown(model_.sources[file].text());
    if (!code->empty()) return *code;
    return model_.packs.empty() ? "USD" : code_of(model_.packs.back().currency);
}

/// The dimension's unit for an example, its money in the file's currency.
std::string Evaluator::example_in(Dimension dimension, FileId file) {
    std::string example(example_unit(dimension));
    constexpr std::string_view dollars = "USD";
    if (example.starts_with(dollars)) example.replace(0, dollars.size(), currency_in(file));
    return example;
}

/// A bare number where a figure with a unit is wanted. Where the unit can be guessed it is offered,
/// and never certain: 0.08 may be 8%, or a slip for 0.08%.
void Evaluator::no_unit_given(const Quantity& quantity, Dimension dimension, At operand) {
    const Span at = span(operand);
    const std::string_view written = text(operand);
    const std::string example = example_in(dimension, operand.file);
    Finding& finding = findings_.report(
        Rule::missing_unit, at,
        fmt::format("{} has no unit, and {} is wanted here", written, name_of(dimension)),
        unit_choice(quantity, dimension, written, example));
    add_use(finding);
    if (context_.used_at || !is_plain(written, number_of(written))) return;
    if (dimension == dimension::money) {
        finding.fixes.push_back(put(at, fmt::format("{} {}", written, example), false));
    } else if (dimension == dimension::ratio) {
        finding.fixes.push_back(put(at, percent_meant(quantity, written), false));
    }
}

void Evaluator::mismatch(const Quantity& quantity, Dimension dimension, At operand) {
    const Span at = span(operand);
    const std::string_view written = text(operand);
    const std::string number = number_of(written);
    const std::string spaced = squeezed(written); // in what is to be written
    if (quantity.dimension == dimension::count && dimension != dimension::count) {
        return no_unit_given(quantity, dimension, operand);
    }
    if (dimension == dimension::volume && quantity.dimension == dimension::mass) {
        const bool ounces = quantity.unit != no_unit && unit(quantity.unit).symbol == "oz";
        Finding& finding = findings_.report(
            Rule::weight_for_volume, at,
            fmt::format("{} is a weight, and a volume is wanted here", written),
            ounces ? fmt::format("for a volume write {} fl oz; for the water that fills it, "
                                 "{} of water",
                                 number, spaced)
                   : fmt::format("write a volume, in ml or fl oz; for the water that fills it, "
                                 "{} of water",
                                 spaced));
        add_use(finding);
        // Two readings, some hundredths apart: which one it was only the maker knows.
        if (ounces && is_plain(written, number)) {
            finding.fixes.push_back(put(at, number + " fl oz", false));
        }
        finding.fixes.push_back(put(at, fmt::format("{} of water", spaced), false));
        return;
    }
    std::string hint;
    std::string meant; // the same number with the other degree
    if (dimension == dimension::interval && quantity.dimension == dimension::point) {
        const bool fahrenheit = quantity.unit != no_unit && unit(quantity.unit).offset != 0;
        meant = fmt::format("{} {}", number, fahrenheit ? "F°" : "C°");
        hint = "a difference is written " + meant;
    } else if (dimension == dimension::point && quantity.dimension == dimension::interval) {
        const bool fahrenheit = quantity.unit != no_unit && unit(quantity.unit).factor < 1;
        meant = fmt::format("{} {}", number, fahrenheit ? "°F" : "°C");
        hint = "a thermometer reading is written " + meant;
    } else if (const std::string example = example_in(dimension, operand.file); !example.empty()) {
        hint = fmt::format("write it in {}, for example", example);
    }
    Finding& finding =
        findings_.report(Rule::unit_mismatch, at,
                         fmt::format("{} is {}, and {} is wanted here", written,
                                     name_of(quantity.dimension), name_of(dimension)),
                         std::move(hint));
    add_use(finding);
    // A let may be right elsewhere; 300 K is no reading of 300 °C.
    const bool kelvin = quantity.unit != no_unit && unit(quantity.unit).symbol == "K";
    if (!meant.empty() && is_plain(written, number)) {
        finding.fixes.push_back(put(at, std::move(meant), !kelvin && !context_.used_at));
    }
}

/// Wider than this no container candle is poured, and none is so narrow (common practice: the
/// smallest cups of tea lights are over 30 mm wide): it is a slip of the unit, and what is reckoned
/// from it would be told at other places.
bool Evaluator::fits_a_vessel(const Quantity& quantity, bool across, Span at) {
    constexpr double widest = 500;   // mm
    constexpr double narrowest = 15; // mm
    if (quantity.dimension != dimension::length) return true;
    const bool wide = quantity.value > widest;
    const bool narrow = across && quantity.value > 0 && quantity.value < narrowest;
    if (!wide && !narrow) return true;
    const std::string_view written = model_.sources.slice(at);
    const std::string_view symbol =
        quantity.unit == no_unit ? std::string_view() : unit(quantity.unit).symbol;
    const std::string_view meant = wide && symbol != "mm"     ? "mm"
                                   : narrow && symbol == "mm" ? "cm"
                                                              : "";
    findings_.report(
        Rule::out_of_range, at,
        wide ? fmt::format("{} is more than any candle vessel measures (50 cm)", written)
             : fmt::format("{} is narrower than any candle vessel (15 mm)", written),
        meant.empty() || symbol.empty()
            ? std::string("look at the number")
            : fmt::format("look at the unit: {} {}?", number_of(written), meant));
    return false;
}

/// Less than this fills no vessel (common practice: the smallest cups of tea lights hold over 10
/// ml).
bool Evaluator::can_be_filled(const Quantity& capacity, Span at) {
    constexpr double least = 5; // ml
    if (capacity.value <= 0 || capacity.value >= least) return true;
    findings_.report(
        Rule::out_of_range, at,
        fmt::format("{} is less than any candle vessel holds (5 ml)", model_.sources.slice(at)),
        "look at the number and its unit: `300 ml`, or `300 g of water`");
    return false;
}

bool Evaluator::in_range(const Quantity& quantity, Least least, Span at) {
    const std::string_view written = model_.sources.slice(at);
    if (quantity.dimension.point) {
        const double coldest = quantity.value - quantity.doubt;
        if (coldest >= absolute_zero && quantity.value <= largest) return true;
        add_use(findings_.report(Rule::out_of_range, at,
                                 coldest < absolute_zero
                                     ? fmt::format("{} is under absolute zero", written)
                                     : fmt::format("{} is more than can be", written)));
        return false;
    }
    if (least != Least::any && quantity.value < 0) {
        add_use(findings_.report(Rule::out_of_range, at,
                                 fmt::format("{} is negative, and can't be here", written),
                                 "write it without the minus"));
        return false;
    }
    if (least == Least::above_zero && quantity.value == 0) {
        add_use(findings_.report(Rule::out_of_range, at, fmt::format("{} can't be 0 here", written),
                                 "write more than 0, or take the line away"));
        return false;
    }
    if (std::abs(quantity.value) > largest) {
        add_use(findings_.report(Rule::out_of_range, at,
                                 fmt::format("{} is more than can be", written),
                                 "nothing here goes over 1 000 000 000 in g, ml, mm or s"));
        return false;
    }
    const double least_of_all = quantity.value - quantity.doubt;
    if (quantity.doubt > 0 && least != Least::any &&
        (least == Least::above_zero ? least_of_all <= 0 : least_of_all < 0)) {
        add_use(findings_.report(
            Rule::out_of_range, at,
            fmt::format("with its doubt {} could be nothing, or less", written),
            "what stands after +- has to be smaller than the figure: measure it better"));
        return false;
    }
    return true;
}

} // namespace waxwright
