#include "reckon/cost.hpp"

#include <algorithm>
#include <cmath>

#include "reckon/number.hpp"

namespace waxwright {

namespace {

/// Masses are counted in ng: fine enough that an ounce (28.349523125 g) is whole to 2e-12 of it.
constexpr double units_in_gram = 1e9;

std::optional<double> density_of(const Model& model, BlockId thing) {
    const auto density = model.density(thing);
    return density ? positive(density->value) : std::nullopt;
}

/// g or pieces; nothing for a volume without a density.
std::optional<double> amount_of(const Model& model, BlockId thing, double amount,
                                Dimension dimension) {
    if (dimension != dimension::volume) return sound(amount);
    const auto density = density_of(model, thing);
    return density ? sound(amount * *density) : std::nullopt;
}

std::span<const Pack> packs_of(const Model& model, BlockId thing) {
    const auto* sold = model.get<Packs>(thing, Key::sold);
    if (sold == nullptr) return {};
    return std::span(model.packs).subspan(sold->packs.first, sold->packs.count);
}

double minor_units(Currency currency) {
    return currency == no_money ? 100 : std::pow(10, all_currencies()[currency].minor);
}

/// The whole number next to it; one past `most_units` where it is too large to count.
std::int64_t whole(double value) {
    constexpr auto most = static_cast<double>(most_units);
    return value < most ? std::llround(value) : most_units + 1;
}

/// What is within 1e-9, relative, of a whole number of packs needs no further one.
std::int64_t units_of_need(const Supply& supply, double amount) {
    if (supply.pieces) return whole(amount);
    return whole(std::floor(amount * units_in_gram * (1 - same)));
}

void find_packs(const Model& model, Supply& supply) {
    for (const Pack& pack : packs_of(model, supply.thing)) {
        const auto size = amount_of(model, supply.thing, pack.amount, pack.dimension);
        if (!size || pack.currency == no_money) continue;
        supply.packs.push_back(pack);
        supply.sizes.push_back(*size);
    }
}

std::optional<PackChoice> packs_for(const Supply& supply, double amount) {
    std::vector<WholePack> packs;
    packs.reserve(supply.packs.size());
    const double unit = supply.pieces ? 1 : units_in_gram;
    for (std::size_t i = 0; i < supply.packs.size(); ++i) {
        packs.push_back({whole(supply.sizes[i] * unit),
                         whole(supply.packs[i].price * minor_units(supply.packs[i].currency))});
    }
    auto choice = cheapest_packs(packs, units_of_need(supply, amount));
    if (!choice) return choice;
    choice->price /= minor_units(supply.packs.front().currency);
    choice->amount /= unit;
    return choice;
}

void find_stock(const Model& model, Supply& supply) {
    for (const Have& have : model.haves) {
        if (have.block != supply.thing) continue;
        const auto amount = amount_of(model, have.block, have.amount.value, have.amount.dimension);
        if (amount) {
            supply.have += *amount;
        } else {
            supply.have_unknown = true;
        }
    }
    supply.missing = std::max(0.0, supply.need - supply.have);
    if (supply.missing <= same * supply.need) supply.missing = 0;
}

void find_price(Supply& supply) {
    if (supply.kept) {
        supply.price = 0;
        return;
    }
    supply.all = packs_for(supply, supply.need);
    supply.to_buy = packs_for(supply, supply.missing);
    if (!supply.all) return;
    // Of a need of nothing, the price hangs on no pack and isn't asked for.
    supply.price = supply.all->amount > 0 ? supply.all->price / supply.all->amount : 0;
}

/// Gathers the uses of one kind of thing after another, so that the supplies stand in that order.
class Gatherer {
public:
    Gatherer(const Model& model, std::span<const Reckoning> reckonings,
             std::span<const Drawn> drawn, Accounts& accounts)
        : model_(model), reckonings_(reckonings), drawn_(drawn), accounts_(accounts) {
        accounts_.uses.resize(reckonings.size());
    }

    void matter(MatterKind kind) {
        for (std::size_t line = 0; line < reckonings_.size(); ++line) {
            for (const Part& part : reckonings_[line].parts) {
                if (part.kind != kind || (kind == MatterKind::wax && is_drawn(line))) continue;
                add(line, part.material, kind, weighed_of(reckonings_[line], part));
            }
        }
    }
    void waxes_of_melter() {
        for (const Drawn& each : drawn_) {
            double poured = 0;
            for (const std::size_t line : each.lines)
                poured += poured_of(line, each.wax);
            if (!(poured > 0)) continue;
            for (const std::size_t line : each.lines) {
                add(line, each.wax, MatterKind::wax,
                    each.grams * (poured_of(line, each.wax) / poured));
            }
        }
    }
    void counted(Key key) { // of each vessel
        for (std::size_t line = 0; line < reckonings_.size(); ++line) {
            const Job& job = reckonings_[line].in.job;
            for (const Count& each : model_.count_list(job.recipe, key)) {
                add(line, each.block, MatterKind::wax,
                    static_cast<double>(each.count) * static_cast<double>(job.count));
            }
        }
    }
    void vessels() {
        for (std::size_t line = 0; line < reckonings_.size(); ++line) {
            const Job& job = reckonings_[line].in.job;
            if (job.vessel == no_block) continue;
            add(line, job.vessel, MatterKind::wax, static_cast<double>(job.count));
        }
    }

private:
    /// What a melter's lines take of its wax is shared out over them.
    bool is_drawn(std::size_t line) const {
        return !drawn_.empty() && reckonings_[line].in.job.drawn;
    }
    double poured_of(std::size_t line, BlockId wax) const {
        for (const Part& part : reckonings_[line].parts) {
            if (part.kind == MatterKind::wax && part.material == wax) return part.grams;
        }
        return 0;
    }

    void add(std::size_t line, BlockId thing, MatterKind kind, double amount) {
        auto& supplies = accounts_.supplies;
        auto found = std::find_if(supplies.begin(), supplies.end(),
                                  [&](const Supply& each) { return each.thing == thing; });
        if (found == supplies.end()) {
            Supply supply;
            supply.thing = thing;
            supply.pieces = by_the_piece(model_, thing);
            supply.kept = bought(model_.blocks[thing].kind) == Bought::kept;
            found = supplies.insert(supplies.end(), std::move(supply));
        }
        found->need += amount;
        const auto index = static_cast<std::size_t>(found - supplies.begin());
        accounts_.uses[line].push_back({index, kind, amount});
    }

    const Model& model_;
    std::span<const Reckoning> reckonings_;
    std::span<const Drawn> drawn_;
    Accounts& accounts_;
};

/// Sums of tenths of a gram are a hair off: back to whole ng.
double tidied(double grams) {
    const double units = grams * units_in_gram;
    return units < 1e15 ? std::round(units) / units_in_gram : grams;
}

} // namespace

bool by_the_piece(const Model& model, BlockId thing) {
    return bought(model.blocks[thing].kind) == Bought::by_piece;
}

bool has_price(const Model& model, BlockId thing) {
    const auto packs = packs_of(model, thing);
    return std::any_of(packs.begin(), packs.end(), [&](const Pack& pack) {
        return pack.currency != no_money &&
               amount_of(model, thing, pack.amount, pack.dimension).has_value();
    });
}

double weighed_of(const Reckoning& reckoning, const Part& part) {
    double grams = 0;
    bool weighed = false;
    if (part.kind == MatterKind::oil && !reckoning.premix.empty()) {
        for (const Weighing& line : reckoning.premix) {
            if (line.material == part.material) return tidied(line.weighed);
        }
    }
    for (const PotKind& pot : reckoning.pots) {
        for (const Weighing& line : pot.lines) {
            if (line.kind != part.kind || line.material != part.material) continue;
            grams += static_cast<double>(pot.pots) * line.weighed;
            weighed = true;
        }
    }
    return weighed ? tidied(grams) : part.grams;
}

Accounts accounts_of(const Model& model, std::span<const Reckoning> reckonings,
                     std::span<const Drawn> drawn) {
    Accounts accounts;
    Gatherer gatherer(model, reckonings, drawn, accounts);
    gatherer.waxes_of_melter();
    gatherer.matter(MatterKind::wax);
    gatherer.matter(MatterKind::leftover);
    gatherer.matter(MatterKind::additive);
    gatherer.matter(MatterKind::oil);
    gatherer.counted(Key::wick);
    gatherer.vessels();
    gatherer.counted(Key::extras);
    accounts.priced = !accounts.supplies.empty();
    for (Supply& supply : accounts.supplies) {
        supply.need = supply.pieces ? supply.need : tidied(supply.need);
        find_stock(model, supply);
        find_packs(model, supply);
        find_price(supply);
        accounts.priced = accounts.priced && supply.price;
        if (accounts.currency == no_money && !supply.packs.empty())
            accounts.currency = supply.packs.front().currency;
    }
    return accounts;
}

Selling selling_of(const Model& model, BlockId batch, double count,
                   std::optional<double> materials) {
    Selling selling;
    if (const auto* price = model.get<Figure>(batch, Key::price)) {
        selling.price = price->value();
        selling.currency = price->quantity.currency;
    }
    if (const auto* fees = model.get<Figures>(batch, Key::fees); fees && selling.price) {
        double shares = 0;
        for (std::uint32_t i = 0; i < fees->figures.count; ++i)
            shares += model.figures[fees->figures.first + i].value();
        selling.fees = *selling.price * shares;
    }
    if (const auto* wage = model.get<Wage>(batch, Key::labour)) {
        selling.labour = wage->seconds * wage->per_second / count;
        selling.currency = wage->currency;
    }
    if (const auto* overhead = model.get<Figure>(batch, Key::overhead)) {
        if (overhead->quantity.dimension == dimension::money) {
            selling.overhead = overhead->value() / count;
            selling.currency = overhead->quantity.currency;
        } else if (materials) {
            selling.overhead = overhead->value() * (*materials + selling.labour.value_or(0));
        }
    }
    return selling;
}

} // namespace waxwright
