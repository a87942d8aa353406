#include "plan/money.hpp"

#include <algorithm>
#include <numeric>

#include "reckon/cost.hpp"
#include "reckon/melter.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

std::vector<PackPlan> packs_of(const Supply& supply, const std::optional<PackChoice>& choice) {
    std::vector<PackPlan> packs;
    if (!choice) return packs;
    for (std::size_t i = 0; i < choice->counts.size(); ++i) {
        if (choice->counts[i] == 0) continue;
        const Pack& pack = supply.packs[i];
        packs.push_back(
            {choice->counts[i], show_in(pack.amount, pack.unit, pack.dimension), pack.price});
    }
    return packs;
}

/// By its first pack; a thing without one goes by the sheet.
bool in_pounds(const Supply& supply) {
    if (supply.packs.empty() || supply.packs.front().unit == no_unit) return false;
    const std::string_view symbol = unit(supply.packs.front().unit).symbol;
    return symbol == "lb" || symbol == "oz";
}

SupplyPlan supply_part(const Model& model, const Supply& supply) {
    SupplyPlan plan;
    plan.name = model.name(supply.thing);
    plan.pieces = supply.pieces;
    plan.kept = supply.kept;
    plan.in_pounds = !supply.pieces && in_pounds(supply);
    plan.need = supply.need;
    plan.have = supply.have;
    plan.missing = supply.missing;
    plan.have_unknown = supply.have_unknown;
    plan.on_offer = supply.to_buy.has_value();
    plan.priced_by = packs_of(supply, supply.all);
    plan.packs = packs_of(supply, supply.to_buy);
    if (supply.price) plan.cost = *supply.price * supply.need;
    plan.left_over = std::max(0.0, supply.have - supply.need);
    if (supply.to_buy) {
        plan.to_buy = supply.to_buy->price;
        plan.proven = supply.to_buy->proven && supply.all->proven;
        plan.left_over = std::max(0.0, supply.have + supply.to_buy->amount - supply.need);
    }
    return plan;
}

/// What the materials of one candle cost, and what a gram of its scent costs.
CandlePlan candle_part(const Accounts& accounts, std::size_t line, double count) {
    CandlePlan candle;
    double scent = 0;
    double scent_g = 0;
    for (const Usage& usage : accounts.uses[line]) {
        const Supply& supply = accounts.supplies[usage.supply];
        if (!supply.price) continue;
        const double cost = *supply.price * usage.amount;
        candle.materials += cost / count;
        if (supply.pieces || usage.matter != MatterKind::oil) continue;
        scent += cost;
        scent_g += usage.amount;
    }
    if (scent_g > 0) candle.scent_gram = scent / scent_g;
    return candle;
}

void add_selling(const Model& model, BlockId batch, double count, CandlePlan& candle) {
    candle.in_all = candle.materials;
    if (batch == no_block) return;
    const Selling selling = selling_of(model, batch, count, candle.materials);
    candle.labour = selling.labour;
    candle.overhead = selling.overhead;
    candle.fees = selling.fees;
    for (const auto& cost : {selling.labour, selling.overhead, selling.fees})
        candle.in_all += cost.value_or(0);
    if (selling.price) candle.left = *selling.price - candle.in_all;
}

void add_candles(const Model& model, BlockId batch, const Accounts& accounts, Plan& plan) {
    MoneyPlan& money = plan.money;
    const auto count = static_cast<double>(plan.count);
    for (std::size_t i = 0; i < plan.recipes.size(); ++i) {
        CandlePlan candle = candle_part(accounts, i, static_cast<double>(plan.recipes[i].count));
        candle.title = plan.recipes[i].title;
        add_selling(model, batch, count, candle);
        money.candles.push_back(std::move(candle));
    }
    for (const SupplyPlan& supply : money.supplies) {
        money.batch += supply.cost.value_or(0);
        money.to_buy += supply.to_buy.value_or(0);
    }
    money.each = money.batch / count;
    if (plan.recipes.size() < 2) return;
    CandlePlan mean;
    mean.title = "on the average";
    mean.materials = money.each;
    add_selling(model, batch, count, mean);
    money.candles.push_back(std::move(mean));
}

/// The lots at hand of a material, each once, in the order written.
LotsPlan lots_of(const Model& model, BlockId material) {
    LotsPlan plan;
    plan.name = model.name(material);
    for (const Have& have : model.haves) {
        if (have.block != material || !(have.amount.value > 0)) continue;
        if (have.lot.empty()) {
            plan.some_without = true;
        } else if (std::find(plan.lots.begin(), plan.lots.end(), have.lot) == plan.lots.end()) {
            plan.lots.emplace_back(have.lot);
        }
    }
    return plan;
}

/// One lot is all there is to weigh from, and there is enough of it: nobody has to choose.
bool is_sure(const LotsPlan& lots, const Supply& supply) {
    return lots.lots.size() == 1 && !lots.some_without && !(supply.missing > 0);
}

class Lots {
public:
    Lots(const Model& model, const Accounts& accounts) : accounts_(accounts) {
        for (const Supply& supply : accounts.supplies)
            lots_.push_back(supply.pieces ? LotsPlan{} : lots_of(model, supply.thing));
    }

    /// The lot to write beside a weighing; "" where there is none or it is not sure.
    std::string beside(BlockId material) const {
        for (std::size_t i = 0; i < lots_.size(); ++i) {
            if (accounts_.supplies[i].thing != material) continue;
            return is_sure(lots_[i], accounts_.supplies[i]) ? lots_[i].lots[0] : std::string();
        }
        return {};
    }
    std::vector<LotsPlan> to_choose() const {
        std::vector<LotsPlan> some;
        for (std::size_t i = 0; i < lots_.size(); ++i) {
            if (!lots_[i].lots.empty() && !is_sure(lots_[i], accounts_.supplies[i]))
                some.push_back(lots_[i]);
        }
        return some;
    }

private:
    const Accounts& accounts_;
    std::vector<LotsPlan> lots_; // one for each supply
};

void write_beside(const Lots& lots, const std::vector<Weighing>& weighings,
                  std::vector<ScaleLine>& lines) {
    for (std::size_t i = 0; i < lines.size() && i < weighings.size(); ++i)
        lines[i].lot = lots.beside(weighings[i].material);
}

/// The waxes of a reckoning, in the order of a melter's lines.
std::vector<const Part*> waxes_of(const Reckoning& reckoning) {
    std::vector<const Part*> waxes;
    for (const Part& part : reckoning.parts) {
        if (part.kind == MatterKind::wax) waxes.push_back(&part);
    }
    return waxes;
}

/// What the melter takes: as its tables have it, or exact where there are too many fillings for
/// tables.
std::vector<Drawn> drawn_of(const Model& model, BlockId batch,
                            std::span<const Reckoning> reckonings, const Plan& plan) {
    std::vector<Drawn> drawn;
    if (batch == no_block || melter_block(model, batch) == no_block) return drawn;
    for (const MeltPlan& melt : plan.melts) {
        const auto waxes = waxes_of(reckonings[melt.recipes.front()]);
        for (std::size_t i = 0; i < waxes.size() && i < melt.lines.size(); ++i) {
            drawn.push_back({waxes[i]->material,
                             static_cast<double>(melt.fillings) * melt.lines[i].grams,
                             melt.recipes});
        }
    }
    if (!drawn.empty()) return drawn;
    std::vector<std::size_t> order(reckonings.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    for (const Melting& melting :
         melter_of(gather_pot(model, melter_block(model, batch)), reckonings, order).meltings) {
        const double grams = static_cast<double>(melting.fillings) * melting.grams;
        for (const Part* wax : waxes_of(reckonings[melting.lines.front()]))
            drawn.push_back({wax->material, grams * wax->share, melting.lines});
    }
    return drawn;
}

void add_lots(const Model& model, const Accounts& accounts, std::span<const Reckoning> reckonings,
              Plan& plan) {
    const Lots lots(model, accounts);
    std::size_t pot = 0; // the plan's pots stand in the order of the reckonings'
    for (std::size_t i = 0; i < reckonings.size(); ++i) {
        write_beside(lots, reckonings[i].premix, plan.recipes[i].premix);
        for (const PotKind& kind : reckonings[i].pots) {
            write_beside(lots, kind.lines, plan.pots[pot].lines);
            ++pot;
        }
    }
    for (MeltPlan& melt : plan.melts) {
        const auto waxes = waxes_of(reckonings[melt.recipes.front()]);
        for (std::size_t i = 0; i < waxes.size() && i < melt.lines.size(); ++i)
            melt.lines[i].lot = lots.beside(waxes[i]->material);
    }
    plan.money.lots = lots.to_choose();
}

} // namespace

void add_money(const Model& model, BlockId batch, std::span<const Reckoning> reckonings,
               Plan& plan) {
    const std::vector<Drawn> drawn = drawn_of(model, batch, reckonings, plan);
    const Accounts accounts = accounts_of(model, reckonings, drawn);
    MoneyPlan& money = plan.money;
    money.currency = accounts.currency;
    money.any_stock = !model.haves.empty();
    for (const Supply& supply : accounts.supplies)
        money.supplies.push_back(supply_part(model, supply));
    if (const auto* price = model.get<Figure>(batch, Key::price)) money.price = price->value();
    money.priced = accounts.currency != no_money && plan.count > 0;
    money.so_far = money.priced && !accounts.priced;
    if (money.priced) add_candles(model, batch, accounts, plan);
    if (money.any_stock) add_lots(model, accounts, reckonings, plan);
}

} // namespace waxwright
