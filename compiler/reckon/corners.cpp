#include "reckon/corners.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "reckon/number.hpp"

namespace waxwright {

namespace {

/// Past so many figures the corners are taken as the single ones show them.
constexpr std::size_t most_to_search = 24;
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr auto first_limit = static_cast<std::size_t>(Measured::limits);

using End = signed char;
constexpr End both_ends[] = {-1, 1};

/// True if `value` is further that way.
bool further(double value, double than, int way) {
    return way > 0 ? value > than : value < than;
}

/// How many vessels would go into a pot, if they could be parted.
double vessels_in_pot(const Inputs& in, const Amounts& a) {
    if (!a.usable_ml || !a.room_density || !a.mass_g) return 0;
    return (*a.usable_ml * *a.room_density - a.clings_g) / (a.melted_g * (1 + in.spare_share()));
}

/// The measures, in the order of Measured and the limits.
void measures_of(const Inputs& in, const Amounts& a, const LimitChecks& limits,
                 std::vector<double>& into) {
    into.clear();
    into.push_back(a.mass_g.value_or(unknown));
    into.push_back(a.first_pour_g.value_or(unknown));
    into.push_back(a.load_of_wax.value_or(unknown));
    into.push_back(a.load_of_total.value_or(unknown));
    for (const double mass : {a.wax_g, a.scent_g, a.additive_g, a.leftover_g})
        into.push_back(a.shared_out() ? mass : unknown);
    into.push_back(vessels_in_pot(in, a));
    for (const LimitCheck& check : limits)
        into.push_back(beyond(check));
}

} // namespace

Corners::Corners(const Inputs& in, const Amounts& as_written) : uncertain_(in) {
    collect_limit_checks(in, as_written, limits_);
    measures_of(in, as_written, limits_, as_written_);
    const std::size_t count = figures().size();
    Ends ends(count, 0);
    singles_.reserve(2 * count * as_written_.size());
    for (std::size_t i = 0; i < count; ++i) {
        amount_figures_ += figures()[i].amount;
        for (const End way : both_ends) {
            ends[i] = way;
            measure(ends, there_);
            singles_.insert(singles_.end(), there_.begin(), there_.end());
        }
        ends[i] = 0;
    }
}

void Corners::measure(const Ends& ends, std::vector<double>& into) {
    const Inputs& in = uncertain_.at(ends);
    const Amounts amounts = amounts_of(in);
    collect_limit_checks(in, amounts, limits_there_);
    measures_of(in, amounts, limits_there_, into);
}

std::span<const double> Corners::at(const Ends& ends) {
    for (const auto& [known, values] : known_) {
        if (known == ends) return values;
    }
    auto& [known, values] = known_.emplace_back(ends, std::vector<double>());
    measure(ends, values);
    return values;
}

double Corners::single(std::size_t figure, int way, std::size_t measure) const {
    return singles_[(2 * figure + (way > 0 ? 1 : 0)) * as_written_.size() + measure];
}

/// Amounts are looked at over the figures that move amounts, limits over all.
bool Corners::counts(std::size_t figure, std::size_t measure) const {
    return measure >= first_limit || figures()[figure].amount;
}

bool Corners::breaks(std::size_t measure) const {
    if (std::isnan(as_written_[measure])) return false;
    for (std::size_t i = 0; i < figures().size(); ++i) {
        if (!counts(i, measure)) continue;
        if (std::isnan(single(i, -1, measure)) || std::isnan(single(i, 1, measure))) return true;
    }
    return false;
}

double Corners::influence(std::size_t figure, std::size_t measure) const {
    return std::abs(single(figure, 1, measure) - single(figure, -1, measure));
}

Ends Corners::corner(std::size_t measure, int way, const Ends& otherwise) {
    Ends ends(figures().size(), 0);
    bool swings = false;
    for (std::size_t i = 0; i < ends.size(); ++i) {
        if (!counts(i, measure)) continue;
        double best = as_written_[measure];
        if (further(single(i, -1, measure), best, way)) {
            best = single(i, -1, measure);
            ends[i] = -1;
        }
        if (further(single(i, 1, measure), best, way)) ends[i] = 1;
        if (ends[i] == 0 && !otherwise.empty()) ends[i] = otherwise[i];
        swings = swings || figures()[i].swings;
    }
    const std::size_t count = measure >= first_limit ? ends.size() : amount_figures_;
    return swings && count <= most_to_search ? searched(measure, way, ends) : ends;
}

/// From `ends` onwards. Of two steps as hot as each other neither moves the hottest by itself, so
/// what doesn't count by itself is tried at one end and at the other as well.
Ends Corners::searched(std::size_t measure, int way, const Ends& ends) {
    Ends best = ends;
    search_on(measure, way, best);
    for (const End start : both_ends) {
        Ends other = ends;
        for (std::size_t i = 0; i < other.size(); ++i) {
            if (other[i] == 0 && figures()[i].swings && counts(i, measure)) other[i] = start;
        }
        if (other == ends) continue;
        search_on(measure, way, other);
        const double there = at(other)[measure];
        if (further(there, at(best)[measure], way)) best = other;
    }
    return best;
}

/// From corner to corner, one figure at a time, for as long as that leads further.
void Corners::search_on(std::size_t measure, int way, Ends& ends) {
    this->measure(ends, there_);
    double best = there_[measure];
    for (bool moved = true; moved;) {
        moved = false;
        for (std::size_t i = 0; i < ends.size(); ++i) {
            if (!counts(i, measure)) continue;
            const End old = ends[i];
            for (const End next : both_ends) {
                if (next == old) continue;
                ends[i] = next;
                this->measure(ends, there_);
                if (!further(there_[measure], best + way * same * std::abs(best), way)) {
                    ends[i] = old;
                    continue;
                }
                best = there_[measure];
                moved = true;
                break;
            }
        }
    }
}

namespace {

/// The corner of one amount. A figure that doesn't move a mass by itself may do so where the others
/// stand at their ends: where nothing shrinks any more, the mass is that of the liquid, and so of
/// the first pour; and more fillings hold more of what clings.
Ends corner_of(Corners& corners, Measured which, int way) {
    const auto index = [](Measured measure) { return static_cast<std::size_t>(measure); };
    if (which == Measured::load_of_wax || which == Measured::load_of_total) {
        return corners.corner(index(which), way);
    }
    const bool total = which == Measured::wax || which == Measured::scent ||
                       which == Measured::additive || which == Measured::leftover;
    const Ends fillings = total ? corners.corner(index(Measured::vessels_in_pot), -way) : Ends();
    return corners.corner(index(which), way,
                          corners.corner(index(Measured::first_pour), way, fillings));
}

/// Takes both ends of one amount.
void bound(Corners& corners, Measured which, std::optional<FigureRange>& into,
           bool& unknown_there) {
    const auto index = static_cast<std::size_t>(which);
    const double centre = corners.as_written(index);
    if (std::isnan(centre)) return;
    const double low = corners.at(corner_of(corners, which, -1))[index];
    const double high = corners.at(corner_of(corners, which, 1))[index];
    if (std::isnan(low) || std::isnan(high) || corners.breaks(index)) {
        unknown_there = true;
        return;
    }
    const FigureRange found{std::min(low, centre), std::max(high, centre)};
    if (found.high - found.low > same * std::abs(found.high)) into = found;
}

/// Of what the pots take the corners are those of the room in them.
void bound_pots(Corners& corners, const Amounts& as_written, Bounds& into) {
    if (!as_written.shared_out() || as_written.vessels_a_pot == 0) return;
    const auto pots_of = [](const Amounts& a) { return static_cast<double>(a.spread.pots()); };
    const auto vessels_of = [](const Amounts& a) {
        return static_cast<double>(a.spread.fuller_vessels);
    };
    FigureRange pots{pots_of(as_written), pots_of(as_written)};
    FigureRange most{vessels_of(as_written), vessels_of(as_written)};
    for (const int way : {-1, 1}) {
        const Ends ends = corners.corner(static_cast<std::size_t>(Measured::vessels_in_pot), way);
        const Amounts there = amounts_of(corners.inputs_at(ends));
        if (!there.shared_out()) {
            into.unknown = true;
            continue;
        }
        pots = {std::min(pots.low, pots_of(there)), std::max(pots.high, pots_of(there))};
        most = {std::min(most.low, vessels_of(there)), std::max(most.high, vessels_of(there))};
    }
    if (pots.low < pots.high) into.fillings = pots;
    if (most.low < most.high) into.most_vessels = most;
}

} // namespace

Bounds bounds(const Model& model, const Amounts& as_written, Corners& corners) {
    Bounds found;
    const auto& figures = corners.figures();
    const bool moved =
        std::any_of(figures.begin(), figures.end(), [](const auto& each) { return each.amount; });
    if (!moved) return found;
    bound(corners, Measured::mass, found.mass_g, found.unknown);
    bound(corners, Measured::first_pour, found.first_pour_g, found.unknown);
    bound(corners, Measured::load_of_wax, found.load_of_wax, found.unknown);
    bound(corners, Measured::load_of_total, found.load_of_total, found.unknown);
    bound(corners, Measured::wax, found.wax_g, found.unknown);
    bound(corners, Measured::scent, found.scent_g, found.unknown);
    bound(corners, Measured::additive, found.additive_g, found.unknown);
    if (as_written.leftover > 0)
        bound(corners, Measured::leftover, found.leftover_g, found.unknown);
    bound_pots(corners, as_written, found);
    double widest = 0;
    constexpr auto first_pour = static_cast<std::size_t>(Measured::first_pour);
    for (std::size_t i = 0; i < figures.size(); ++i) {
        if (!figures[i].amount || !(corners.influence(i, first_pour) > widest)) continue;
        widest = corners.influence(i, first_pour);
        found.widest = said_plainly(model, figures[i]);
    }
    return found;
}

} // namespace waxwright
