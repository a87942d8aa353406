#include "reckon/melter.hpp"

#include <algorithm>
#include <cmath>

#include "reckon/heat.hpp"
#include "reckon/number.hpp"
#include "reckon/pots.hpp"

namespace waxwright {

namespace {

const Part* wax_of(const Reckoning& line, BlockId material) {
    for (const Part& part : line.parts) {
        if (part.kind == MatterKind::wax && part.material == material) return &part;
    }
    return nullptr;
}

bool within(const Reckoning& one, const Reckoning& other) {
    return std::all_of(one.parts.begin(), one.parts.end(), [&](const Part& part) {
        if (part.kind != MatterKind::wax) return true;
        const Part* match = wax_of(other, part.material);
        return match != nullptr && std::abs(match->share - part.share) <= same;
    });
}

bool same_wax(const Reckoning& one, const Reckoning& other) {
    return within(one, other) && within(other, one);
}

double melt_temperature(const Reckoning& line) {
    double hottest = line.in.room_temperature();
    for (const Step& step : line.in.steps) {
        if (step.verb == Verb::melt && step.temperature()) {
            hottest = std::max(hottest, step.temperature()->value());
        }
    }
    return hottest;
}

/// g of wax in the fullest pot.
double largest_draw(const Reckoning& line) {
    double largest = 0;
    for (const PotKind& pot : line.pots) {
        double wax = 0;
        for (const Weighing& weighing : pot.lines)
            wax += weighing.kind == MatterKind::wax ? weighing.exact : 0;
        largest = std::max(largest, wax);
    }
    return largest;
}

/// The fewest fillings the melter takes them in, all of one weight. What clings to it is melted
/// once: it is still in it when it is filled again.
void divide_fillings(const PotInput& melter, const Reckoning& line, double largest_pot,
                     Melting& melting) {
    const auto brimful = positive(figure(melter.brimful));
    const double headroom = figure(melter.headroom).value_or(usual_headroom);
    const double clings = figure(melter.clings).value_or(0);
    const auto density = wax_room_density(line.in, melting.celsius);
    melting.grams += clings;
    melting.fillings = 1;
    if (brimful && density) {
        const double whole = usable_ml(*brimful, headroom) * *density;
        // Filled again, it may still have what was too little for a pot, and what clings: room is
        // left for that.
        const bool once = melting.grams <= whole * (1 + same);
        const double most = once ? whole : std::max(whole - largest_pot - clings, whole / 2);
        const double fillings = std::ceil(melting.grams / most * (1 - same));
        if (most > 0 && fillings <= static_cast<double>(most_fillings)) {
            melting.fillings = std::max<std::int64_t>(static_cast<std::int64_t>(fillings), 1);
        }
        melting.volume_ml = melting.grams / static_cast<double>(melting.fillings) / *density;
    }
    melting.grams /= static_cast<double>(melting.fillings);
    melting.clings = clings;
}

void find_time(const PotInput& melter, const Reckoning& line, Melting& melting,
               Unknowns& unknowns) {
    const auto power = positive(figure(melter.power));
    const auto joules =
        joules_for(line, melting.grams, line.in.room_temperature(), melting.celsius);
    unknowns.power = unknowns.power || !power;
    unknowns.heats = unknowns.heats || !joules;
    if (!power || !joules) return;
    const bool unsaid = melter.heated == Heated::unsaid;
    melting.seconds =
        seconds_to_heat(*joules, *power, usual_efficiency(unsaid ? Heated::melter : melter.heated));
}

} // namespace

std::optional<std::size_t> Melter::melting_of(std::size_t line) const {
    for (std::size_t i = 0; i < meltings.size(); ++i) {
        const auto& lines = meltings[i].lines;
        if (std::find(lines.begin(), lines.end(), line) != lines.end()) return i;
    }
    return std::nullopt;
}

std::optional<double> Melter::celsius_for(std::size_t line) const {
    const auto melting = melting_of(line);
    return melting ? std::optional(meltings[*melting].celsius) : std::nullopt;
}

Melter melter_of(const PotInput& pot, std::span<const Reckoning> lines,
                 std::span<const std::size_t> order) {
    Melter melter;
    if (pot.block == no_block) return melter;
    for (const std::size_t line : order) {
        if (!lines[line].in.job.drawn) continue;
        const auto found =
            std::find_if(melter.meltings.begin(), melter.meltings.end(), [&](const Melting& each) {
                return same_wax(lines[each.lines.front()], lines[line]);
            });
        Melting& melting = found != melter.meltings.end() ? *found : melter.meltings.emplace_back();
        melting.lines.push_back(line);
        melting.grams += lines[line].wax_g;
        melting.celsius = std::max(melting.lines.size() == 1 ? lines[line].in.room_temperature()
                                                             : melting.celsius,
                                   melt_temperature(lines[line]));
    }
    for (Melting& melting : melter.meltings) {
        const Reckoning& first = lines[melting.lines.front()];
        double largest = 0;
        for (const std::size_t line : melting.lines)
            largest = std::max(largest, largest_draw(lines[line]));
        divide_fillings(pot, first, largest, melting);
        find_time(pot, first, melting, melter.unknowns);
    }
    return melter;
}

} // namespace waxwright
