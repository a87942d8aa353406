#include "reckon/doubt.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "reckon/number.hpp"

namespace waxwright {

/// The knobs turned, for as long as it lives. What was written comes back with its end.
class Doubts::Turned {
public:
    Turned(const std::vector<Knob>& knobs, const Ends& ends) {
        for (std::size_t i = 0; i < knobs.size(); ++i) {
            if (ends[i] != 0) turn(knobs[i], ends[i] * knobs[i].half_width);
        }
    }
    ~Turned() {
        for (auto old = before_.rbegin(); old != before_.rend(); ++old)
            *old->first = old->second;
    }
    Turned(const Turned&) = delete;
    Turned& operator=(const Turned&) = delete;

private:
    void set(double* place, double value) {
        before_.emplace_back(place, *place);
        *place = value;
    }
    void turn(const Knob& knob, double by) {
        const double now = *knob.value;
        set(knob.value, now + by);
        if (knob.also != nullptr) set(knob.also, *knob.also + by);
        if (knob.doubt != nullptr) set(knob.doubt, 0);
        // What one share of a whole has more, the others have less, in proportion.
        for (double* other : knob.rest)
            set(other, *other * (1 - now - by) / (1 - now));
    }

    std::vector<std::pair<double*, double>> before_;
};

void Doubts::with(const Ends& ends, const std::function<void(const Reckoning&)>& use) const {
    const Turned turned(knobs_, ends);
    use(reckon(model_, made_again(model_, job_)));
}

void Doubts::only_amounts() {
    std::erase_if(knobs_, [](const Knob& knob) { return !knob.amount; });
}

namespace {

/// Past so many knobs the corners are taken as the single knobs show them.
constexpr std::size_t most_to_search = 24;

using End = signed char;
constexpr End both_ends[] = {-1, 1};

/// True if `value` is further that way.
bool further(double value, double than, int way) {
    return way > 0 ? value > than : value < than;
}

} // namespace

Extremes::Extremes(const Doubts& doubts, const Reckoning& centre, Measures measures)
    : doubts_(doubts), measures_(std::move(measures)) {
    measures_(centre, centre_);
    Ends ends(doubts.knobs().size(), 0);
    for (End& end : ends) {
        for (const End way : both_ends) {
            end = way;
            doubts.with(ends, [&](const Reckoning& r) { measures_(r, singles_.emplace_back()); });
        }
        end = 0;
    }
}

const std::vector<double>& Extremes::at(const Ends& ends) {
    for (const auto& [known, values] : known_) {
        if (known == ends) return values;
    }
    auto& [known, values] = known_.emplace_back(ends, std::vector<double>());
    doubts_.with(ends, [&values = values, this](const Reckoning& r) { measures_(r, values); });
    return values;
}

bool Extremes::breaks(std::size_t measure) const {
    return !std::isnan(centre_[measure]) &&
           std::any_of(singles_.begin(), singles_.end(), [&](const std::vector<double>& single) {
               return std::isnan(single[measure]);
           });
}

double Extremes::influence(std::size_t knob, std::size_t measure) const {
    return std::abs(singles_[2 * knob + 1][measure] - singles_[2 * knob][measure]);
}

Ends Extremes::corner(std::size_t measure, int way, const Ends& otherwise) {
    Ends ends(doubts_.knobs().size(), 0);
    bool swings = false;
    for (std::size_t i = 0; i < ends.size(); ++i) {
        const double low = singles_[2 * i][measure];
        const double high = singles_[2 * i + 1][measure];
        double best = centre_[measure];
        if (further(low, best, way)) {
            best = low;
            ends[i] = -1;
        }
        if (further(high, best, way)) ends[i] = 1;
        if (ends[i] == 0 && !otherwise.empty()) ends[i] = otherwise[i];
        swings = swings || doubts_.knobs()[i].swings;
    }
    return swings && ends.size() <= most_to_search ? searched(measure, way, ends) : ends;
}

/// From `ends` onwards. Of two steps as hot as each other neither moves the hottest by itself, so
/// what doesn't count by itself is tried at one end and at the other as well.
Ends Extremes::searched(std::size_t measure, int way, const Ends& ends) {
    Ends best = ends;
    search_on(measure, way, best);
    for (const End start : both_ends) {
        Ends other = ends;
        for (std::size_t i = 0; i < other.size(); ++i) {
            if (other[i] == 0 && doubts_.knobs()[i].swings) other[i] = start;
        }
        if (other == ends) continue;
        search_on(measure, way, other);
        const double there = at(other)[measure];
        if (further(there, at(best)[measure], way)) best = other;
    }
    return best;
}

/// From corner to corner, one knob at a time, for as long as that leads further.
void Extremes::search_on(std::size_t measure, int way, Ends& ends) {
    double best = at(ends)[measure];
    for (bool moved = true; moved;) {
        moved = false;
        for (End& end : ends) {
            const End old = end;
            for (const End next : both_ends) {
                if (next == old) continue;
                end = next;
                const double there = at(ends)[measure];
                if (!further(there, best + way * same * std::abs(best), way)) {
                    end = old;
                    continue;
                }
                best = there;
                moved = true;
                break;
            }
        }
    }
}

std::string name_of(const Model& model, const Knob& knob) {
    if (knob.key == Key::notes) return "the temperature of a step";
    return fmt::format("`{}` of `{}`", word(knob.key), model.name(knob.block));
}

namespace {

/// What is bounded, and the number behind how many vessels fill a pot, without its rounding.
enum Measured : std::size_t { mass, first, of_wax, of_total, wax, scent, additive, room, measured };

/// How many vessels would go into a pot, if they could be parted.
double vessels_in_pot(const Model& model, const Reckoning& r) {
    if (!r.usable_ml || !r.room_density || !r.mass_g) return 0;
    const double clings = model.figure(r.job.pot, Key::clings).value_or(0);
    return (*r.usable_ml * *r.room_density - clings) / (*r.mass_g * (1 + r.job.spare));
}

void measure(const Model& model, const Reckoning& r, std::vector<double>& into) {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    into.assign(measured, unknown);
    into[mass] = r.mass_g.value_or(unknown);
    into[first] = r.first_pour_g.value_or(unknown);
    into[of_wax] = r.load_of_wax.value_or(unknown);
    into[of_total] = r.load_of_total.value_or(unknown);
    into[room] = vessels_in_pot(model, r);
    if (r.pots.empty()) return;
    into[wax] = r.wax_g;
    into[scent] = r.scent_g;
    into[additive] = r.additive_g;
}

double fillings(const Reckoning& r) {
    double sum = 0;
    for (const PotKind& pot : r.pots)
        sum += static_cast<double>(pot.pots);
    return sum;
}

/// The corner of one measure. A knob that doesn't move a mass by itself may do so where the others
/// stand at their ends: where nothing shrinks any more, the mass is that of the liquid, and so of
/// the first pour; and more fillings hold more of what clings.
Ends corner_of(Extremes& extremes, Measured which, int way) {
    if (which == of_wax || which == of_total) return extremes.corner(which, way);
    const Ends fillings =
        which == wax || which == scent || which == additive ? extremes.corner(room, -way) : Ends();
    return extremes.corner(which, way, extremes.corner(first, way, fillings));
}

/// Takes both ends of one measure.
void bound(Extremes& extremes, Measured which, std::optional<Between>& into, bool& unknown) {
    double ends[2];
    for (const int way : {-1, 1})
        ends[way > 0] = extremes.at(corner_of(extremes, which, way))[which];
    const double centre = extremes.centre(which);
    if (std::isnan(centre)) return;
    if (std::isnan(ends[0]) || std::isnan(ends[1]) || extremes.breaks(which)) {
        unknown = true;
        return;
    }
    const Between found{std::min(ends[0], centre), std::max(ends[1], centre)};
    if (found.high - found.low > same * std::abs(found.high)) into = found;
}

/// Of what the pots take the corners are those of the room in them.
void bound_pots(const Doubts& doubts, Extremes& extremes, const Reckoning& centre, Bounds& into) {
    if (centre.pots.empty() || centre.job.pot == no_block) return;
    Between pots{fillings(centre), fillings(centre)};
    const auto vessels = [](const Reckoning& r) {
        return static_cast<double>(r.pots.front().vessels);
    };
    Between most{vessels(centre), vessels(centre)};
    for (const int way : {-1, 1}) {
        doubts.with(extremes.corner(room, way), [&](const Reckoning& r) {
            if (r.pots.empty()) {
                into.unknown = true;
                return;
            }
            pots = {std::min(pots.low, fillings(r)), std::max(pots.high, fillings(r))};
            most = {std::min(most.low, vessels(r)), std::max(most.high, vessels(r))};
        });
    }
    if (pots.low < pots.high) into.fillings = pots;
    if (most.low < most.high) into.most_vessels = most;
}

} // namespace

Bounds bounds(Model& model, const Reckoning& reckoning) {
    Bounds found;
    Doubts doubts(model, reckoning.job);
    doubts.only_amounts();
    if (!doubts.any()) return found;
    Extremes extremes(doubts, reckoning, [&](const Reckoning& r, std::vector<double>& into) {
        measure(model, r, into);
    });
    bound(extremes, mass, found.mass_g, found.unknown);
    bound(extremes, first, found.first_pour_g, found.unknown);
    bound(extremes, of_wax, found.load_of_wax, found.unknown);
    bound(extremes, of_total, found.load_of_total, found.unknown);
    bound(extremes, wax, found.wax_g, found.unknown);
    bound(extremes, scent, found.scent_g, found.unknown);
    bound(extremes, additive, found.additive_g, found.unknown);
    bound_pots(doubts, extremes, reckoning, found);
    double widest = 0;
    for (std::size_t i = 0; i < doubts.knobs().size(); ++i) {
        if (!(extremes.influence(i, first) > widest)) continue;
        widest = extremes.influence(i, first);
        found.widest = name_of(model, doubts.knobs()[i]);
    }
    return found;
}

} // namespace waxwright
