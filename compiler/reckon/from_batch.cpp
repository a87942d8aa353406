// How often a batch can be made in its own proportions: so many of each as it says, or fewer, or
// more, each line growing with the others.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "reckon/from.hpp"
#include "reckon/melter.hpp"
#include "reckon/number.hpp"
#include "reckon/weigh.hpp"

namespace waxwright {

namespace {

void add(std::vector<Need>& needs, BlockId thing, double amount) {
    const auto found = std::find_if(needs.begin(), needs.end(),
                                    [&](const Need& need) { return need.thing == thing; });
    if (found == needs.end()) {
        needs.push_back({thing, amount});
    } else {
        found->amount += amount;
    }
}

/// The wax of a batch's melter, as its tables weigh it.
void add_melted(const Model& model, BlockId batch, std::span<const Reckoning> lines,
                std::vector<Need>& needs) {
    std::vector<std::size_t> order(lines.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const PotInput melter = gather_pot(model, melter_block(model, batch));
    for (const Melting& melting : melter_of(melter, lines, order).meltings) {
        const Reckoning& first = lines[melting.lines.front()];
        std::vector<double> exact;
        for (const MatterInput& wax : first.in.waxes())
            exact.push_back(melting.grams * wax.share);
        std::vector<double> weighed(exact.size());
        weigh_out(exact,
                  first.division_g > 0 ? first.division_g : usual_division(exact, first.in.ounces),
                  weighed);
        for (std::size_t i = 0; i < weighed.size(); ++i) {
            add(needs, first.in.waxes()[i].block,
                static_cast<double>(melting.fillings) * weighed[i]);
        }
    }
}

class BatchSearch {
public:
    BatchSearch(const Model& model, BlockId batch, const Supplies& supplies)
        : model_(model), batch_(batch), supplies_(supplies) {
        std::int64_t set = 0;
        for (const Job& job : jobs_of_batch(model, batch))
            set = std::gcd(set, job.count);
        for (const Job& job : jobs_of_batch(model, batch)) {
            inputs_.push_back(gather(model, job));
            each_.push_back(set > 0 ? job.count / set : 0);
        }
    }

    Enough run() {
        Enough found;
        found.unlimited = limits(1).empty();
        if (found.unlimited) return found;
        for (std::int64_t count = bound(); count > 0; --count) {
            if (++tries_ > most_tries) {
                found.too_many_tries = true;
                return found;
            }
            if (!short_of(count).empty()) continue;
            found.count = count;
            break;
        }
        found.short_at_next = short_of(found.count + 1);
        return found;
    }

private:
    static constexpr std::int64_t most_tries = 20'000; // each reckons the whole batch

    std::vector<Reckoning> made(std::int64_t sets) const {
        std::vector<Reckoning> lines;
        for (std::size_t i = 0; i < inputs_.size(); ++i) {
            Inputs in = inputs_[i];
            in.job.count = sets * each_[i];
            lines.push_back(reckon(std::move(in)));
        }
        return lines;
    }

    /// What so many sets take of that there is only so much of.
    std::vector<Need> limits(std::int64_t sets) const {
        std::vector<Need> needs = needs_of_batch(model_, batch_, made(sets));
        std::erase_if(needs,
                      [&](const Need& need) { return !supply_of(model_, supplies_, need.thing); });
        return needs;
    }

    std::vector<Need> short_of(std::int64_t sets) const {
        std::vector<Need> needs = limits(sets);
        std::erase_if(needs, [&](const Need& need) {
            return need.amount <= *supply_of(model_, supplies_, need.thing) * (1 + same);
        });
        return needs;
    }

    /// No count over this fits. A weighing is under its exact mass by less than a division. Of n
    /// sets a line has under n u / most + 1 pots, u being its vessels in a set, and each weighs a
    /// thing once; its blend of a scent does once more, and the fillings of a melter are taken to
    /// be no more than the pots.
    std::int64_t bound() const {
        const std::vector<Reckoning> one = made(1);
        double most = static_cast<double>(most_made);
        for (const Need& need : limits(1)) {
            const double supply = *supply_of(model_, supplies_, need.thing) * (1 + same);
            double exact = 0; // g, or pieces, of a set
            double slack = 0; // g, of the first pots
            double more = 0;  // g, of those that each set adds
            for (std::size_t i = 0; i < one.size(); ++i) {
                const double division = one[i].division_g > 0 ? one[i].division_g
                                        : one[i].in.ounces    ? 0.1 * an_ounce
                                                              : 1;
                const auto vessels = static_cast<double>(each_[i]);
                const double pots = one[i].vessels_a_pot > 0
                                        ? vessels / static_cast<double>(one[i].vessels_a_pot)
                                        : 0;
                bool weighed = false;
                for (const Part& part : one[i].parts) {
                    if (part.material != need.thing) continue;
                    weighed = true;
                    exact += part.grams / one[i].total_g() * vessels * one[i].melted_g *
                             (1 + one[i].in.spare_share());
                }
                if (!weighed) continue;
                slack += 2 * division;
                more += division * pots;
            }
            if (slack == 0) {
                most = std::min(most, std::floor(supply / need.amount));
            } else if (exact > 0) {
                const double slope = exact - more;
                if (slope > 0) most = std::min(most, std::floor((supply + slack) / slope) + 1);
            }
        }
        return static_cast<std::int64_t>(most);
    }

    const Model& model_;
    BlockId batch_;
    const Supplies& supplies_;
    std::vector<Inputs> inputs_;
    std::vector<std::int64_t> each_; // by line: vessels of one set
    std::int64_t tries_ = 0;
};

} // namespace

std::vector<Need> needs_of_batch(const Model& model, BlockId batch,
                                 std::span<const Reckoning> lines) {
    const bool melted = melter_block(model, batch) != no_block;
    std::vector<Need> needs;
    for (const Reckoning& line : lines) {
        for (const Need& need : needs_of(model, line)) {
            const bool drawn = line.in.job.drawn && model.blocks[need.thing].kind == BlockKind::wax;
            add(needs, need.thing, drawn ? 0 : need.amount);
        }
    }
    if (melted) add_melted(model, batch, lines, needs);
    return needs;
}

Enough enough_for_batch(const Model& model, BlockId batch, const Supplies& supplies) {
    return BatchSearch(model, batch, supplies).run();
}

} // namespace waxwright
