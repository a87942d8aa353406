// What kind of thing a quantity measures.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace waxwright {

/// Exponents of what a unit is made of. Volume is not length cubed here, because nobody at the
/// bench multiplies three lengths; `point` marks a temperature read off a thermometer, which can't
/// be added to another; `ratio` marks a pure number that was written as a share (with %, or as a
/// quotient of likes), as against a bare count.
struct Dimension {
    std::int8_t mass = 0;
    std::int8_t volume = 0;
    std::int8_t length = 0;
    std::int8_t time = 0;
    std::int8_t interval = 0; // temperature difference
    std::int8_t money = 0;
    std::int8_t energy = 0;
    bool point = false;
    bool ratio = false;

    friend constexpr bool operator==(const Dimension&, const Dimension&) = default;
};

namespace dimension {
inline constexpr Dimension count{};
inline constexpr Dimension ratio{.ratio = true};
inline constexpr Dimension mass{.mass = 1};
inline constexpr Dimension volume{.volume = 1};
inline constexpr Dimension length{.length = 1};
inline constexpr Dimension time{.time = 1};
inline constexpr Dimension point{.point = true};
inline constexpr Dimension interval{.interval = 1};
inline constexpr Dimension money{.money = 1};
inline constexpr Dimension energy{.energy = 1};
inline constexpr Dimension power{.time = -1, .energy = 1};
inline constexpr Dimension density{.mass = 1, .volume = -1};
inline constexpr Dimension mass_rate{.mass = 1, .time = -1};
inline constexpr Dimension heat_capacity{.mass = -1, .interval = -1, .energy = 1};
inline constexpr Dimension latent_heat{.mass = -1, .energy = 1};
inline constexpr Dimension wage{.time = -1, .money = 1};
inline constexpr Dimension volume_per_mass{.mass = -1, .volume = 1};
} // namespace dimension

/// With its article, as a message says it: "a mass", "a temperature", "a density (g/ml)";
/// dimensions without a name are spelled out: "a mass per length", "money per mass".
std::string name_of(Dimension dimension);
/// A unit to show for that dimension in a hint: "g", "ml", "°C", "min", "J/g/K"; empty for a count
/// and for a dimension without a name.
std::string_view example_unit(Dimension dimension);

} // namespace waxwright
