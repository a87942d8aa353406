#include "reckon/bath.hpp"

#include <algorithm>
#include <cmath>

#include "reckon/number.hpp"
#include "units/water.hpp"

namespace waxwright {

namespace {

constexpr double a_minute = 60;

/// The time, not after `due`, at which somebody can leave the filling for it; behind all that is
/// done at it where there is no such time since `last`.
double between_work(double due, double last, std::span<const Stage> stages) {
    double behind = due;
    for (std::size_t i = stages.size(); i-- > 0;) {
        const Stage& stage = stages[i];
        const bool meets =
            stage.attended && stage.begins < due + top_up_seconds && due < stage.ends;
        if (!meets) continue;
        behind = std::max(behind, stage.ends);
        due = stage.begins - top_up_seconds;
    }
    return due > last ? due : behind;
}

} // namespace

double top_up_every(const PotInput& pot) {
    constexpr double usual = 15 * a_minute;
    constexpr double longest = 30 * a_minute;
    constexpr double boiling_heat = 2257; // J/g
    const auto power = positive(figure(pot.power));
    const Bath* bath = pot.bath.get();
    if (!power || bath == nullptr) return usual;
    const double most = *power + pot.power.get()->quantity.doubt;
    const double third = bath->ml * water_at_20 / 3;
    const double minutes = std::floor(third * boiling_heat / most / a_minute);
    return std::clamp(minutes * a_minute, a_minute, longest);
}

std::vector<double> top_ups(const PotInput& pot, const Interval& on_heat,
                            std::span<const Stage> stages) {
    std::vector<double> times;
    if (pot.heated != Heated::water_bath) return times;
    const double every = top_up_every(pot);
    double last = on_heat.begins;
    const double soon_over = std::min(5 * a_minute, every / 2); // off before half can have gone
    constexpr std::size_t most = 100; // a heater too weak to melt anything would go on for ever
    while (last + every < on_heat.ends && times.size() < most) {
        last = between_work(last + every, last, stages);
        if (last + soon_over > on_heat.ends) break;
        times.push_back(last);
    }
    return times;
}

} // namespace waxwright
