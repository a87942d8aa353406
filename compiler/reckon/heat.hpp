// Heating, cooling and mixing by heat. g, °C, s, W, J; heat capacities in J/g/K.
#pragma once

#include <cstdint>
#include <optional>

#include "reckon/inputs.hpp"

namespace waxwright {

/// Newton's law of cooling, T = R + (T0 - R) e^(-kt): the k, in 1/s, of what went from one
/// temperature down to another in a room. Nothing unless from > to > room and the time is over 0.
/// The law holds while nothing sets: wax that freezes gives up heat and stays where it is for a
/// while (ASTM D87 measures that plateau as the melting point).
std::optional<double> cooling_rate(double from, double to, double room, double seconds);

/// The same pot with another mass in it: k goes with 1/mass, which takes the heat to be all in the
/// wax and the surface it leaves by to be the pot's (common practice). Masses over 0.
double rate_at_mass(double rate, double measured_g, double grams);

/// Seconds from one temperature to a lower one over the room's: ln((from - R)/(to - R)) / k.
/// Nothing unless from >= to > room and the rate is over 0.
std::optional<double> seconds_to_cool(double from, double to, double room, double rate);

/// The temperature after so many seconds.
double cooled(double from, double room, double rate, double seconds);

/// The temperature at which the last of so many vessels is poured, each taking `seconds` and as
/// much wax; `rate` is that of all of it. What is left in the pot cools the faster the less it is,
/// as 1/mass: the integral over a steady pour. `kept` of `grams` stays in the pot.
double cooled_by_pouring(double from, double room, double rate, std::int64_t vessels,
                         double seconds, double grams, double kept);

/// Heat balance of two things that only exchange heat with each other: (C1 T1 + C2 T2) / (C1 + C2),
/// C their heat capacities in J/K, over 0.
double mixed_temperature(double capacity1, double celsius1, double capacity2, double celsius2);

/// What heat a wax takes up: solid up to its melting point, melting, then liquid.
struct HeatFigures {
    double solid;   // J/g/K
    double melting; // J/g
    double liquid;  // J/g/K
    double melts;   // °C
};

/// J for `grams` from a temperature at or under the melting point to one at or over it:
/// m (c_s (Tm - T1) + L + c_l (T2 - Tm)). Beyond the melting point on either side the part that
/// isn't there is 0.
double joules_to_melt(double grams, const HeatFigures& wax, double from, double to);

/// J for `capacity` J/K over an interval.
inline double joules_to_warm(double capacity, double from, double to) {
    return capacity * (to - from);
}

/// Seconds that a power, in W, takes for so much heat where a share of it gets into the wax.
double seconds_to_heat(double joules, double watts, double efficiency);

/// The share of a heater's power that gets into the wax (and into the bath, where that is said): a
/// melter 0.8, a hotplate 0.6, a water bath 0.5, a flame 0.4, unsaid 0.5. Common practice; no two
/// stoves are alike.
double usual_efficiency(Heated heated);

/// J that the water of a bath takes from the room's temperature to what melts wax at `celsius`: ml
/// times 0.9982 g/ml and 4.18 J/g/K (handbook figures at 20 °C), to 10 C° over the wax and not over
/// 95 °C (common practice: heat goes from the hotter to the colder).
double joules_for_bath(double ml, double room, double celsius);

/// J/g/K of scent oil: 0.438 cal/(g K), a typical terpene's, by a d-limonene constants sheet
/// (seen).
inline constexpr double oil_heat = 1.83;
/// J/g/K of liquid wax where it is not said: what most waxes have, 2.0 to 2.4 (common practice).
inline constexpr double usual_liquid_heat = 2.1;

} // namespace waxwright
