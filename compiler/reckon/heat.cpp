#include "reckon/heat.hpp"

#include <algorithm>
#include <cmath>

#include "reckon/number.hpp"
#include "units/water.hpp"

namespace waxwright {

std::optional<double> cooling_rate(double from, double to, double room, double seconds) {
    if (!(from > to) || !(to > room) || !(seconds > 0)) return std::nullopt;
    return positive(std::log((from - room) / (to - room)) / seconds);
}

double rate_at_mass(double rate, double measured_g, double grams) {
    return rate * measured_g / grams;
}

std::optional<double> seconds_to_cool(double from, double to, double room, double rate) {
    if (!(from >= to) || !(to > room) || !(rate > 0)) return std::nullopt;
    return sound(std::log((from - room) / (to - room)) / rate);
}

double cooled(double from, double room, double rate, double seconds) {
    return room + (from - room) * std::exp(-rate * seconds);
}

double cooled_by_pouring(double from, double room, double rate, std::int64_t vessels,
                         double seconds, double grams, double kept) {
    const double each = (grams - kept) / static_cast<double>(vessels);
    const double left = grams - static_cast<double>(vessels - 1) * each; // as the last is begun
    const double exponent = seconds * grams / each * std::log(grams / left);
    return cooled(from, room, rate, exponent);
}

double mixed_temperature(double capacity1, double celsius1, double capacity2, double celsius2) {
    return (capacity1 * celsius1 + capacity2 * celsius2) / (capacity1 + capacity2);
}

double joules_to_melt(double grams, const HeatFigures& wax, double from, double to) {
    const double solid = wax.solid * std::max(wax.melts - from, 0.0);
    const double liquid = wax.liquid * std::max(to - wax.melts, 0.0);
    return grams * (solid + wax.melting + liquid);
}

double seconds_to_heat(double joules, double watts, double efficiency) {
    return joules / (watts * efficiency);
}

double usual_efficiency(Heated heated) {
    constexpr double low_heat = 0.5; // of its power: wax right on it scorches else
    switch (heated) {
    case Heated::melter:
        return 0.8;
    case Heated::hotplate:
        return 0.6 * low_heat;
    case Heated::flame:
        return 0.4 * low_heat;
    default:
        return 0.5;
    }
}

double joules_for_bath(double ml, double room, double celsius) {
    constexpr double water_heat = 4.18; // J/g/K
    constexpr double over_the_wax = 10; // C°
    constexpr double hottest = 95;      // °C
    const double bath = std::min(celsius + over_the_wax, hottest);
    return std::max(0.0, ml * water_at_20 * water_heat * (bath - room));
}

} // namespace waxwright
