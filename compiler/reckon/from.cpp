#include "reckon/from.hpp"

#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "reckon/number.hpp"
#include "reckon/pots.hpp"
#include "reckon/weigh.hpp"

namespace waxwright {

namespace {

bool contains(const auto& list, auto what) {
    return std::find(list.begin(), list.end(), what) != list.end();
}

/// g of a line of a stock, or its pieces.
std::optional<double> amount_of(const Model& model, const Have& have) {
    if (have.amount.dimension != dimension::volume) return have.amount.value;
    const auto density = model.density(have.block);
    if (!density || !(density->value > 0)) return std::nullopt;
    return have.amount.value * density->value;
}

bool fits(double need, double supply) {
    return need <= supply * (1 + same);
}

/// Something of the recipe of which there is only so much.
struct Limit {
    BlockId thing;
    double supply;
    double pieces = 0;   // of each vessel, where it is counted
    double share = 0;    // of the mixture, where it is weighed
    bool premix = false; // an oil of a blended scent
};

class Search {
public:
    Search(const Model& model, BlockId recipe, const Supplies& supplies)
        : model_(model), inputs_(gather(model, job_of_recipe(model, recipe))), one_(made(1)) {
        for (const Need& need : needs_of(model, one_))
            add_limit(need.thing, supply_of(model, supplies, need.thing));
        most_ = one_.vessels_a_pot;
        each_ = one_.melted_g * (1 + one_.in.spare_share());
        clings_ = std::max(0.0, one_.total_g() - each_);
        const double coarsest = inputs_.ounces ? 0.1 * an_ounce : 1; // unsaid: that or finer
        division_ = one_.division_g > 0 ? one_.division_g : coarsest;
    }

    Enough run() {
        Enough found;
        found.unlimited = limits_.empty();
        if (found.unlimited) return found;
        for (std::int64_t count = bound(); count > 0; --count) {
            if (++tries_ > most_tries) {
                found.too_many_tries = true;
                return found;
            }
            if (!all_fit(count)) continue;
            found.count = count;
            break;
        }
        if (found.count < most_made) found.short_at_next = short_of(found.count + 1);
        return found;
    }

private:
    static constexpr std::int64_t most_tries = 3'000'000;
    using Weights = std::vector<double>; // by limit: g in one pot

    Reckoning made(std::int64_t count) const {
        Inputs in = inputs_;
        in.job.count = count;
        return reckon(std::move(in));
    }

    void add_limit(BlockId thing, std::optional<double> supply) {
        if (!supply) return;
        Limit limit{.thing = thing, .supply = *supply};
        if (is_matter(model_.blocks[thing].kind)) {
            for (const Part& part : one_.parts) {
                if (part.material == thing) limit.share = part.grams / one_.total_g();
            }
            limit.premix = model_.blocks[thing].kind == BlockKind::oil && !one_.premix.empty();
        } else {
            limit.pieces = amount_in(needs_of(model_, one_), thing);
        }
        limits_.push_back(limit);
    }

    static double amount_in(const std::vector<Need>& needs, BlockId thing) {
        for (const Need& need : needs) {
            if (need.thing == thing) return need.amount;
        }
        return 0;
    }

    /// No count over this fits.
    std::int64_t bound() {
        double most = static_cast<double>(most_made);
        for (std::size_t i = 0; i < limits_.size(); ++i) {
            const Limit& limit = limits_[i];
            const double supply = limit.supply * (1 + same);
            most = std::min(most, limit.pieces > 0 ? std::floor(supply / limit.pieces)
                                                   : std::floor(bound_by_weight(i, supply)) + 1);
        }
        return static_cast<std::int64_t>(most);
    }

    /// With n vessels of w g, P pots of c g of clings and the division d, what is weighed is over
    /// n w + P (c - d), with n / most <= P < n / most + 1; the blend of a scent has one d for all.
    double bound_by_weight(std::size_t index, double supply) {
        const Limit& limit = limits_[index];
        const double w = limit.share * each_;
        const double c = limit.share * clings_;
        const double d = division_ * (1 + 1e-6); // what counts as a whole division is a hair under
        if (!(w > 0)) return static_cast<double>(most_made);
        if (limit.premix || most_ == 0) return (supply + d) / w;
        if (c >= d) return supply / w;
        const auto full = static_cast<double>(most_);
        const double slope = w - (d - c) / full;
        const double straight =
            slope > 0 ? (supply + d - c) / slope : static_cast<double>(most_made);
        return std::min(straight, std::max(bound_by_pots(index, supply), full * full));
    }

    /// From `most` pots of `most` vessels on only full pots and such of one vessel less are filled:
    /// P pots, k < most of them with one less, weigh P x - k (x - y).
    double bound_by_pots(std::size_t index, double supply) {
        const double x = pot(most_)[index];
        const double y = most_ > 1 ? pot(most_ - 1)[index] : 0;
        if (!(x > 0)) return static_cast<double>(most_made);
        const auto full = static_cast<double>(most_);
        const double pots = (supply + (full - 1) * std::max(0.0, x - y)) / x;
        return full * std::floor(pots * (1 + same) + 1);
    }

    /// What one pot with so many vessels weighs of each.
    const Weights& pot(std::int64_t vessels) {
        Weights& weights = pots_[vessels];
        if (weights.empty()) weights = weights_of(made(vessels));
        return weights;
    }

    Weights weights_of(const Reckoning& r) const {
        Weights weights(limits_.size());
        for (const Weighing& line : r.pots.front().lines) {
            for (std::size_t i = 0; i < limits_.size(); ++i) {
                if (limits_[i].thing == line.material) weights[i] += line.weighed;
            }
        }
        return weights;
    }

    bool all_fit(std::int64_t count) {
        const auto n = static_cast<double>(count);
        bool blended = false;
        for (const Limit& limit : limits_) {
            if (limit.pieces > 0 && !fits(n * limit.pieces, limit.supply)) return false;
            blended = blended || limit.premix;
        }
        if (most_ > 0 && !pots_fit(count)) return false;
        if (most_ > 0 && !blended) return true;
        tries_ += 20; // a whole reckoning takes longer than a look at two pots
        return short_of(count).empty();
    }

    bool pots_fit(std::int64_t count) {
        const Spread spread = spread_evenly(count, most_);
        const Weights fuller = pot(spread.fuller_vessels);
        const Weights other =
            spread.other_pots > 0 ? pot(spread.other_vessels) : Weights(limits_.size());
        for (std::size_t i = 0; i < limits_.size(); ++i) {
            const double need = static_cast<double>(spread.fuller_pots) * fuller[i] +
                                static_cast<double>(spread.other_pots) * other[i];
            if (!limits_[i].premix && !fits(need, limits_[i].supply)) return false;
        }
        return true;
    }

    std::vector<Need> short_of(std::int64_t count) const {
        std::vector<Need> needs = needs_of(model_, made(count));
        std::erase_if(needs, [this](const Need& need) {
            const auto limit = std::find_if(limits_.begin(), limits_.end(), [&](const Limit& each) {
                return each.thing == need.thing;
            });
            return limit == limits_.end() || fits(need.amount, limit->supply);
        });
        return needs;
    }

    const Model& model_;
    Inputs inputs_;
    Reckoning one_; // of one vessel
    std::vector<Limit> limits_;
    std::int64_t most_ = 0; // vessels a pot; 0 without a named pot: then one pot takes all
    double each_ = 0;       // g of a vessel, spare included
    double clings_ = 0;     // g of a pot
    double division_ = 1;   // g, the coarsest that may be weighed to
    std::unordered_map<std::int64_t, Weights> pots_;
    std::int64_t tries_ = 0;
};

} // namespace

Supplies add_up(const Model& model, std::span<const Have> haves, bool of_stock) {
    Supplies supplies;
    supplies.lists_kinds = of_stock;
    for (const Have& have : haves) {
        const auto amount = amount_of(model, have);
        if (!amount) {
            supplies.without_density.push_back(have.block);
            continue;
        }
        const BlockKind kind = model.blocks[have.block].kind;
        if (!contains(supplies.kinds, kind)) supplies.kinds.push_back(kind);
        const auto same_thing =
            std::find_if(supplies.all.begin(), supplies.all.end(),
                         [&](const AtHand& supply) { return supply.thing == have.block; });
        if (same_thing == supplies.all.end()) {
            supplies.all.push_back({have.block, *amount, have.amount});
        } else {
            same_thing->amount += *amount;
        }
    }
    return supplies;
}

std::vector<Need> needs_of(const Model& model, const Reckoning& reckoning) {
    std::vector<Need> needs;
    const auto add = [&](BlockId thing, double amount) {
        if (thing == no_block) return;
        const auto found = std::find_if(needs.begin(), needs.end(),
                                        [&](const Need& need) { return need.thing == thing; });
        if (found == needs.end()) {
            needs.push_back({thing, amount});
        } else {
            found->amount += amount;
        }
    };
    for (const Part& part : reckoning.parts)
        add(part.material, 0); // the recipe's own order
    for (const PotKind& kind : reckoning.pots) {
        for (const Weighing& line : kind.lines)
            add(line.material, static_cast<double>(kind.pots) * line.weighed);
    }
    for (const Weighing& line : reckoning.premix)
        add(line.material, line.weighed);
    const auto count = static_cast<double>(reckoning.in.job.count);
    add(reckoning.in.job.vessel, count);
    for (const Key key : {Key::wick, Key::extras}) {
        for (const Count& each : model.count_list(reckoning.in.job.recipe, key))
            add(each.block, count * static_cast<double>(each.count));
    }
    return needs;
}

std::optional<double> supply_of(const Model& model, const Supplies& supplies, BlockId thing) {
    for (const AtHand& supply : supplies.all) {
        if (supply.thing == thing) return supply.amount;
    }
    if (contains(supplies.without_density, thing)) return std::nullopt;
    if (!supplies.lists_kinds) return std::nullopt;
    if (!contains(supplies.kinds, model.blocks[thing].kind)) return std::nullopt;
    return 0;
}

Enough enough_for(const Model& model, BlockId recipe, const Supplies& supplies) {
    return Search(model, recipe, supplies).run();
}

} // namespace waxwright
