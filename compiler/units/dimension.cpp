#include "units/dimension.hpp"

#include <array>
#include <string_view>

#include <fmt/format.h>

namespace waxwright {

namespace {

struct Named {
    Dimension dimension;
    std::string_view name;
    std::string_view unit;
};

constexpr Named named[] = {
    {dimension::count, "a number", ""},
    {dimension::ratio, "a share (%)", "%"},
    {dimension::mass, "a mass", "g"},
    {dimension::volume, "a volume", "ml"},
    {dimension::length, "a length", "mm"},
    {dimension::time, "a time", "min"},
    {dimension::point, "a temperature", "°C"},
    {dimension::interval, "a temperature interval", "C°"},
    {dimension::money, "a sum of money", "USD"},
    {dimension::energy, "an energy", "J"},
    {dimension::power, "a power (W)", "W"},
    {dimension::density, "a density (g/ml)", "g/ml"},
    {dimension::mass_rate, "a burn rate (g/h)", "g/h"},
    {dimension::heat_capacity, "a heat capacity (J/g/K)", "J/g/K"},
    {dimension::latent_heat, "a heat per mass (J/g)", "J/g"},
    {dimension::wage, "a rate of pay (USD/h)", "USD/h"},
    {dimension::volume_per_mass, "a volume per mass (ml/g)", "ml/g"},
};

const Named* find(Dimension dimension) {
    for (const Named& one : named) {
        if (one.dimension == dimension) return &one;
    }
    return nullptr;
}

/// "length", "length squared", "length cubed", "length to the power 4".
std::string power_of(std::string_view word, int exponent) {
    if (exponent == 1) return std::string(word);
    if (exponent == 2) return fmt::format("{} squared", word);
    if (exponent == 3) return fmt::format("{} cubed", word);
    return fmt::format("{} to the power {}", word, exponent);
}

/// "energy per time per temperature interval", of what has no name of its own.
std::string spelled_out(Dimension dimension) {
    struct Part {
        std::string_view word;
        int exponent;
    };
    const std::array<Part, 7> parts{{
        {"money", dimension.money},
        {"energy", dimension.energy},
        {"mass", dimension.mass},
        {"volume", dimension.volume},
        {"length", dimension.length},
        {"temperature interval", dimension.interval},
        {"time", dimension.time},
    }};
    std::string above;
    std::string below;
    for (const Part& part : parts) {
        if (part.exponent > 0) {
            above += (above.empty() ? "" : " times ") + power_of(part.word, part.exponent);
        } else if (part.exponent < 0) {
            below += " per " + power_of(part.word, -part.exponent);
        }
    }
    return (above.empty() ? "number" : above) + below;
}

} // namespace

std::string name_of(Dimension dimension) {
    if (const Named* known = find(dimension)) return std::string(known->name);
    std::string words = spelled_out(dimension);
    if (words.starts_with("money")) return words; // no article: "money per mass"
    return (words.starts_with("energy") ? "an " : "a ") + words;
}

std::string_view example_unit(Dimension dimension) {
    const Named* known = find(dimension);
    return known ? known->unit : std::string_view();
}

} // namespace waxwright
