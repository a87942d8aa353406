#include "emit/material_units.hpp"

#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "units/figures.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

// NIST Handbook 44, appendix C (from memory): exact.
constexpr double ml_per_fl_oz = 29.5735295625;
constexpr double g_per_oz = 28.349523125;
constexpr double mm_per_inch = 25.4;

/// A unit to say a figure in: `shown = inside * factor + offset`.
struct Scale {
    std::string_view symbol;
    double factor;
    double offset;
    int decimals;
    Zeros zeros = Zeros::dropped;
};

constexpr Scale celsius{"°C", 1, 0, 1};
constexpr Scale fahrenheit{"°F", 1.8, 32, 0};
constexpr Scale kelvins{"C°", 1, 0, 1};
constexpr Scale fahrenheit_steps{"F°", 1.8, 0, 0};
constexpr Scale grams_per_ml{"g/ml", 1, 0, 4};
constexpr Scale oz_per_fl_oz{"oz per fl oz", ml_per_fl_oz / g_per_oz, 0, 3, Zeros::kept};
constexpr Scale millilitres{"ml", 1, 0, 1};
constexpr Scale fluid_ounces{"fl oz", 1 / ml_per_fl_oz, 0, 1};
constexpr Scale millimetres{"mm", 1, 0, 1};
constexpr Scale inches{"in", 1 / mm_per_inch, 0, 2};
constexpr Scale joules_per_g_k{"J/g/K", 1, 0, 2, Zeros::kept};
constexpr Scale joules_per_g{"J/g", 1, 0, 0};
constexpr Scale grams{"g", 1, 0, 2};
constexpr Scale ounces{"oz", 1 / g_per_oz, 0, 2};

/// "0.87 to 0.97 g/ml"; one figure where both ends read the same.
std::string between(double low, double high, const Scale& scale) {
    const std::string from =
        figures(low * scale.factor + scale.offset, scale.decimals, scale.zeros);
    const std::string to = figures(high * scale.factor + scale.offset, scale.decimals, scale.zeros);
    return from == to ? fmt::format("{} {}", from, scale.symbol)
                      : fmt::format("{} to {} {}", from, to, scale.symbol);
}

/// In the one unit if that is an interval, and in the other in any case.
std::string in_both(double low, double high, bool doubtful, const Scale& one, const Scale* other) {
    std::string text = doubtful ? between(low, high, one) : std::string();
    if (other == nullptr) return text;
    if (!text.empty()) text += ", ";
    return text + between(low, high, *other);
}

std::string in_both(double value, double doubt, const Scale& one, const Scale* other) {
    return in_both(value - doubt, value + doubt, doubt > 0, one, other);
}

struct Scales {
    const Scale* one;
    const Scale* other;
};

/// What a quantity of that dimension is said in, and in what else.
Scales scales_of(const Dimension& dimension) {
    if (dimension == dimension::point) return {&celsius, &fahrenheit};
    if (dimension == dimension::interval) return {&kelvins, &fahrenheit_steps};
    if (dimension == dimension::volume) return {&millilitres, &fluid_ounces};
    if (dimension == dimension::length) return {&millimetres, &inches};
    if (dimension == dimension::mass) return {&grams, &ounces};
    if (dimension == dimension::heat_capacity) return {&joules_per_g_k, nullptr};
    if (dimension == dimension::latent_heat) return {&joules_per_g, nullptr};
    return {nullptr, nullptr};
}

std::string again(const Figure& figure) {
    const Quantity& quantity = figure.quantity;
    const Scales scales = scales_of(quantity.dimension);
    if (scales.one == nullptr) return {};
    return in_both(quantity.value, quantity.doubt, *scales.one, scales.other);
}

std::string again(const Range& range) {
    const Scales scales = scales_of(range.low.dimension);
    if (scales.other == nullptr) return {};
    return between(range.low.value, range.high, *scales.other);
}

std::string again(const Load& load, Key key) {
    const double fraction = load.fraction;
    if (load.basis == Basis::total) return {};
    std::string text;
    if (load.doubt > 0) {
        text = fmt::format("{} to {}% of wax, ", show_number((fraction - load.doubt) * 100, 2),
                           show_number((fraction + load.doubt) * 100, 2));
    }
    return text + fmt::format("{} oz per lb of wax; {}% of wax and {} together",
                              show_number(fraction * 16, 2),
                              show_number(fraction / (1 + fraction) * 100, 2),
                              key == Key::max_load ? "scent" : "this");
}

std::string again(const Density& density) {
    std::string text = in_both(density.value, density.doubt, grams_per_ml, &oz_per_fl_oz);
    if (!std::isnan(density.celsius)) {
        text += " at " + between(density.celsius, density.celsius, fahrenheit);
    }
    return text;
}

std::string again(const Densities& densities) {
    std::string text = again(densities.one);
    if (densities.two.value > 0) text += "; " + again(densities.two);
    return text;
}

std::string again(const Flash& flash) {
    std::string text = in_both(flash.written, flash.doubt, celsius, &fahrenheit);
    if (flash.counted < flash.written) {
        text += "; counts as " + show_temperature(flash.counted) + ", since the cup is not closed";
    }
    return text;
}

std::string again(const Inside& inside) {
    std::string text = between(inside.mouth, inside.mouth, inches);
    if (inside.base < inside.mouth || inside.base > inside.mouth) {
        text += " to " + between(inside.base, inside.base, inches);
    }
    return text + " across, " + between(inside.depth, inside.depth, inches) + " deep";
}

/// How much of an oil its contents are; what they leave over is unknown, and no less there.
std::string again(const Model& model, const Blend& contents) {
    double sum = 0;
    for (const Share& share :
         std::span(model.shares).subspan(contents.shares.first, contents.shares.count)) {
        sum += share.fraction;
    }
    constexpr double printed = 0.0005; // percents are shown to 0.1
    if (sum > 1 - printed) return "all of it";
    return fmt::format("{}% of it; the other {}% is not known", show_number(sum * 100, 1),
                       show_number((1 - sum) * 100, 1));
}

std::string again(const Model& model, const Hazards& hazards) {
    std::string text;
    for (const HazardClass hazard :
         std::span(model.hazards).subspan(hazards.classes.first, hazards.classes.count)) {
        text += fmt::format("{}{}", text.empty() ? "" : ", ", abbreviation(hazard));
    }
    return text;
}

std::string again(const Model& model, const ClassLimits& limits) {
    std::string text;
    for (const ClassLimit& limit :
         std::span(model.class_limits).subspan(limits.limits.first, limits.limits.count)) {
        text += fmt::format("{}{} from {}%", text.empty() ? "" : ", ", abbreviation(limit.hazard),
                            show_number(limit.from * 100, 4));
    }
    return text;
}

/// Texts, words, names: as they are written.
template <typename T>
std::string again(const T& /*value*/) {
    return {};
}

} // namespace

std::string said_again(const Model& model, const Entry& entry) {
    if (const auto* contents = std::get_if<Blend>(&entry.value)) return again(model, *contents);
    if (const auto* hazards = std::get_if<Hazards>(&entry.value)) return again(model, *hazards);
    if (const auto* limits = std::get_if<ClassLimits>(&entry.value)) return again(model, *limits);
    if (const auto* load = std::get_if<Load>(&entry.value)) return again(*load, entry.key);
    return std::visit([](const auto& value) { return again(value); }, entry.value);
}

bool is_doubtful(const Entry& entry) {
    if (const auto* figure = std::get_if<Figure>(&entry.value)) return figure->quantity.doubt > 0;
    if (const auto* load = std::get_if<Load>(&entry.value)) return load->doubt > 0;
    if (const auto* flash = std::get_if<Flash>(&entry.value)) return flash->doubt > 0;
    if (const auto* densities = std::get_if<Densities>(&entry.value)) {
        return densities->one.doubt > 0 || densities->two.doubt > 0;
    }
    return false;
}

} // namespace waxwright
