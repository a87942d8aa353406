// All of it: pots, the masses of the job, and what the scale shows line by line.
#include <utility>

#include "reckon/gather.hpp"
#include "reckon/loads.hpp"
#include "reckon/number.hpp"
#include "reckon/pots.hpp"
#include "reckon/weigh.hpp"

namespace waxwright {

namespace {

/// A property of the pot, or its default; nothing where it was said and can't be read.
std::optional<double> of_pot(const Model& model, BlockId pot, Key key, double unsaid_value) {
    if (pot == no_block || unsaid(model, pot, key)) return unsaid_value;
    const auto said = model.figure(pot, key);
    return said && *said >= 0 ? sound(*said) : std::nullopt;
}

PotKind pot_kind(const Reckoning& r, std::int64_t pots, std::int64_t vessels, double clings) {
    PotKind kind{};
    kind.pots = pots;
    kind.vessels = vessels;
    kind.grams = static_cast<double>(vessels) * *r.mass_g * (1 + r.job.spare) + clings;
    kind.volume_ml = kind.grams / *r.room_density;
    return kind;
}

/// What the scale reads; 0 where there is none, nothing where it can't be read.
std::optional<double> division_of(const Model& model, const Job& job) {
    if (!job.scale_known) return std::nullopt;
    if (job.scale == no_block) return 0;
    return positive(model.figure(job.scale, Key::reads));
}

/// Lines of one weighing, and room to round them in; used again for the next one.
class Lines {
public:
    explicit Lines(double division) : division_(division) {}

    /// Rounds the lines; returns the division and their sum.
    std::pair<double, double> round(std::vector<Weighing>& lines) {
        exact_.clear();
        for (const Weighing& line : lines) {
            exact_.push_back(line.exact);
        }
        weighed_.resize(exact_.size());
        const double division = division_ > 0 ? division_ : usual_division(exact_);
        const double sum = weigh_out(exact_, division, weighed_);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            lines[i].weighed = weighed_[i];
        }
        return {division, sum};
    }

private:
    double division_; // of the scale, or 0
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

/// Waxes and additives one by one, the whole scent as one line; where the wax is drawn from a
/// melter, all of it as one line too.
std::vector<Weighing> lines_of(const Reckoning& r, double grams, bool drawn) {
    const double wax = wax_in(grams, *r.load_of_wax, *r.additives);
    std::vector<Weighing> lines;
    lines.reserve(r.parts.size());
    if (drawn) lines.push_back({MatterKind::wax, only_one(r, MatterKind::wax), wax, 0});
    for (const Part& part : r.parts) {
        if (part.kind == MatterKind::oil || (drawn && part.kind == MatterKind::wax)) continue;
        lines.push_back({part.kind, part.material, wax * part.share, 0});
    }
    const double scent = wax * *r.load_of_wax;
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

void share_masses(Reckoning& r, double total) {
    r.wax_g = wax_in(total, *r.load_of_wax, *r.additives);
    r.scent_g = *r.load_of_wax * r.wax_g;
    r.additive_g = *r.additives * r.wax_g;
    for (Part& part : r.parts) {
        part.grams = part.share * (part.kind == MatterKind::oil ? r.scent_g : r.wax_g);
    }
}

} // namespace

void reckon_pots(const Model& model, Reckoning& r) {
    const Job& job = r.job;
    const bool named = job.pot != no_block;
    const auto brimful = named ? positive(model.figure(job.pot, Key::brimful)) : std::nullopt;
    const auto headroom = of_pot(model, job.pot, Key::headroom, usual_headroom);
    const auto clings = of_pot(model, job.pot, Key::clings, 0);
    if (brimful && headroom) r.usable_ml = usable_ml(*brimful, *headroom);
    if (!job.pot_known || !job.spare_known || !(job.spare >= 0) || job.count <= 0) return;
    if (!r.mass_g || !r.room_density || !clings || (named && !r.usable_ml)) return;

    std::int64_t most = job.count;
    if (named) {
        const double each = *r.mass_g * (1 + job.spare);
        most = vessels_per_pot(*r.usable_ml * *r.room_density, each, *clings);
        r.vessels_a_pot = most;
    }
    if (most == 0) {
        r.pot_too_small = true;
        return;
    }
    const Spread spread = spread_evenly(job.count, most);
    const double filled = static_cast<double>(job.count) * *r.mass_g * (1 + job.spare);
    const double total = filled + static_cast<double>(spread.pots()) * *clings;
    if (!sound(total / *r.room_density)) return;
    r.pots.reserve(2);
    r.pots.push_back(pot_kind(r, spread.fuller_pots, spread.fuller_vessels, *clings));
    if (spread.other_pots > 0) {
        r.pots.push_back(pot_kind(r, spread.other_pots, spread.other_vessels, *clings));
    }
    share_masses(r, total);
}

void reckon_weigh_out(const Model& model, Reckoning& r) {
    const auto division = division_of(model, r.job);
    r.division_g = division.value_or(0);
    if (r.pots.empty() || !division) return;
    Lines lines(*division);
    const bool drawn = model.entry(r.job.batch, Key::melter) != nullptr;
    for (PotKind& pot : r.pots) {
        pot.lines = lines_of(r, pot.grams, drawn);
        const auto [used, sum] = lines.round(pot.lines);
        pot.division = used;
        pot.weighed = sum;
    }
    blend_scent(r, lines);
    r.complete = true;
}

} // namespace waxwright
