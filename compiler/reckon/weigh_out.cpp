// All of it: pots, the masses of the job, and what the scale shows line by line.
#include <utility>

#include "reckon/amount_parts.hpp"
#include "reckon/loads.hpp"
#include "reckon/number.hpp"
#include "reckon/pots.hpp"
#include "reckon/weigh.hpp"

namespace waxwright {

namespace {

/// A property of the pot, or its default; nothing where it was said and can't be read.
std::optional<double> of_pot(const Given<Figure>& given, double unsaid_value) {
    if (given.unsaid()) return unsaid_value;
    const auto said = figure(given);
    return said && *said >= 0 ? sound(*said) : std::nullopt;
}

PotKind pot_kind(const Reckoning& r, std::int64_t pots, std::int64_t vessels) {
    PotKind kind{};
    kind.pots = pots;
    kind.vessels = vessels;
    kind.grams = static_cast<double>(vessels) * r.melted_g * (1 + r.in.spare_share()) + r.clings_g;
    kind.volume_ml = kind.grams / *r.room_density;
    return kind;
}

/// Lines of one weighing, and room to round them in; used again for the next one.
class Lines {
public:
    Lines(double division, bool ounces) : division_(division), ounces_(ounces) {}

    /// Rounds the lines; returns the division and their sum.
    std::pair<double, double> round(std::vector<Weighing>& lines) {
        exact_.clear();
        for (const Weighing& line : lines) {
            exact_.push_back(line.exact);
        }
        weighed_.resize(exact_.size());
        const double division = division_ > 0 ? division_ : usual_division(exact_, ounces_);
        const double sum = weigh_out(exact_, division, weighed_);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            lines[i].weighed = weighed_[i];
        }
        return {division, sum};
    }

private:
    double division_; // of the scale, or 0
    bool ounces_;     // where there is none
    std::vector<double> exact_;
    std::vector<double> weighed_;
};

/// A kind's only material, or no_block for several.
BlockId only_one(const Reckoning& r, MatterKind kind) {
    BlockId found = no_block;
    for (const Part& part : r.parts) {
        if (part.kind != kind) continue;
        if (found != no_block) return no_block;
        found = part.material;
    }
    return found;
}

/// Waxes, leftovers and additives one by one, the whole fresh scent as one line; where the wax is
/// drawn from a melter, all of it as one line too.
std::vector<Weighing> lines_of(const Reckoning& r, double grams, bool drawn) {
    const double wax = wax_in(grams * (1 - r.leftover), *r.fresh_load, *r.fresh_additives);
    std::vector<Weighing> lines;
    lines.reserve(r.parts.size());
    if (drawn) lines.push_back({MatterKind::wax, only_one(r, MatterKind::wax), wax, 0});
    for (const Part& part : r.parts) {
        if (part.kind == MatterKind::oil || (drawn && part.kind == MatterKind::wax)) continue;
        const double of = part.kind == MatterKind::leftover ? grams : wax;
        lines.push_back({part.kind, part.material, of * part.share, 0});
    }
    const double scent = wax * *r.fresh_load;
    if (scent > 0) lines.push_back({MatterKind::oil, only_one(r, MatterKind::oil), scent, 0});
    return lines;
}

void blend_scent(Reckoning& r, Lines& lines) {
    for (const Part& part : r.parts) {
        if (part.kind != MatterKind::oil) continue;
        r.premix.push_back({MatterKind::oil, part.material, part.grams, 0});
    }
    if (r.premix.size() < 2 || r.scent_g <= 0) {
        r.premix.clear();
        return;
    }
    r.premix_division = lines.round(r.premix).first;
}

} // namespace

std::optional<double> division_of(const Inputs& in) {
    if (!in.job.scale_known) return std::nullopt;
    if (in.job.scale == no_block) return 0;
    return positive(figure(in.scale.reads));
}

void share_out(const Inputs& in, Amounts& a) {
    const Job& job = in.job;
    const bool named = job.pot != no_block;
    const auto brimful = positive(figure(in.pot.brimful));
    const auto headroom = of_pot(in.pot.headroom, usual_headroom);
    const auto clings = of_pot(in.pot.clings, 0);
    const bool moved = a.kept_g > 0 && in.keep.pot.block != no_block;
    const auto clings_kept = moved ? of_pot(in.keep.pot.clings, 0) : 0;
    const double spare = in.spare_share();
    if (brimful && headroom) a.usable_ml = usable_ml(*brimful, *headroom);
    const auto small = positive(figure(in.keep.pot.brimful));
    const auto small_headroom = of_pot(in.keep.pot.headroom, usual_headroom);
    if (small && small_headroom) a.keep_usable_ml = usable_ml(*small, *small_headroom);
    if (!job.pot_known || in.spare.said == Said::unreadable || !(spare >= 0)) return;
    if (job.count <= 0 || !a.mass_g || !a.room_density || !clings || !clings_kept ||
        (named && !a.usable_ml)) {
        return;
    }
    a.clings_g = *clings + *clings_kept;
    const double each = a.melted_g * (1 + spare);
    std::int64_t most = job.count;
    if (named) {
        most = vessels_per_pot(*a.usable_ml * *a.room_density, each, a.clings_g);
        a.vessels_a_pot = most;
    }
    if (most == 0) {
        a.pot_too_small = true;
        return;
    }
    const Spread spread = spread_evenly(job.count, most);
    const double total = static_cast<double>(job.count) * a.melted_g * (1 + spare) +
                         static_cast<double>(spread.pots()) * a.clings_g;
    if (!sound(total / *a.room_density)) return;
    a.spread = spread;
    a.leftover_g = a.leftover * total;
    a.wax_g = wax_in(total - a.leftover_g, *a.fresh_load, *a.fresh_additives);
    a.scent_g = *a.fresh_load * a.wax_g;
    a.additive_g = *a.fresh_additives * a.wax_g;
}

void weigh_out_pots(Reckoning& r) {
    const auto division = division_of(r.in);
    r.division_g = division.value_or(0);
    if (!r.shared_out()) return;
    r.pots.reserve(2);
    r.pots.push_back(pot_kind(r, r.spread.fuller_pots, r.spread.fuller_vessels));
    if (r.spread.other_pots > 0) {
        r.pots.push_back(pot_kind(r, r.spread.other_pots, r.spread.other_vessels));
    }
    if (!division) return;
    Lines lines(*division, r.in.ounces);
    for (PotKind& pot : r.pots) {
        pot.lines = lines_of(r, pot.grams, r.in.job.drawn);
        const auto [used, sum] = lines.round(pot.lines);
        pot.division = used;
        pot.weighed = sum;
    }
    blend_scent(r, lines);
    r.complete = true;
}

} // namespace waxwright
