#include "check/money.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "check/report.hpp"
#include "reckon/cost.hpp"
#include "units/unit.hpp"

namespace waxwright {

namespace {

/// A price, or a wage, and whose it is.
struct Price {
    Currency currency;
    BlockId of;
    Span at;
};

/// Looks at one price after the other for a second currency.
class Currencies {
public:
    explicit Currencies(const Model& model) : model_(model) {}

    bool mixed() const { return second_.currency != no_money; }

    void look_at(BlockId of, Currency currency, Span at) {
        if (currency == no_money || mixed()) return;
        if (first_.currency == no_money) {
            first_ = {currency, of, at};
        } else if (currency != first_.currency) {
            second_ = {currency, of, at};
        }
    }
    void look_at(BlockId thing) {
        const auto* sold = model_.get<Packs>(thing, Key::sold);
        if (sold == nullptr) return;
        for (std::uint32_t i = 0; i < sold->packs.count; ++i) {
            const Pack& pack = model_.packs[sold->packs.first + i];
            look_at(thing, pack.currency, pack.at);
        }
    }

    void report_if_mixed(const Job& job, Findings& findings) const {
        if (!mixed()) return;
        const std::string_view one = code_of(first_.currency);
        const std::string_view other = code_of(second_.currency);
        const bool batch = job.batch != no_block;
        Finding& finding =
            report(findings, job, Rule::mixed_currency,
                   model_.blocks[batch ? job.batch : job.recipe].name_at,
                   fmt::format("`{}` is priced in {} and `{}` in {}", model_.name(first_.of), one,
                               model_.name(second_.of), other),
                   fmt::format("write all prices of a {} in one currency: there is no rate to turn "
                               "one into the other",
                               batch ? "batch" : "recipe"));
        relate(model_, finding, first_.at, fmt::format("{} here", one));
        relate(model_, finding, second_.at, fmt::format("{} here", other));
    }

private:
    const Model& model_;
    Price first_{no_money, no_block, {}};
    Price second_{no_money, no_block, {}};
};

/// A thing that is used, and where the recipe names it.
struct Used {
    BlockId thing;
    Span at;
};

std::vector<Used> used_by(const Model& model, const Job& job) {
    std::vector<Used> used;
    if (job.vessel != no_block) used.push_back({job.vessel, job.vessel_at});
    for (const Key key : {Key::wax, Key::scent, Key::additives}) {
        for (const Share& share : model.blend(job.recipe, key))
            used.push_back({share.material, share.at});
    }
    for (const Key key : {Key::wick, Key::extras}) {
        for (const Count& count : model.count_list(job.recipe, key))
            used.push_back({count.block, count.at});
    }
    return used;
}

/// How a price is written, in the currency and the unit of those that are there.
std::string sold_like(const Model& model, const std::vector<Used>& used, BlockId thing) {
    Currency currency = find_currency("USD");
    bool pounds = true;
    for (const Used& each : used) {
        const auto* sold = model.get<Packs>(each.thing, Key::sold);
        if (sold == nullptr || sold->packs.count == 0) continue;
        const Pack& pack = model.packs[sold->packs.first];
        currency = pack.currency;
        if (pack.dimension != dimension::mass && pack.dimension != dimension::volume) continue;
        pounds = pack.unit != no_unit && unit(pack.unit).system == System::us;
        break; // one by weight says both
    }
    const bool dollars = currency == find_currency("USD");
    const auto price = [&](double amount) {
        return dollars ? fmt::format("${:.2f}", amount) : show_money(amount, currency);
    };
    if (by_the_piece(model, thing)) return fmt::format("sold: 24 for {}", price(41.5));
    return fmt::format("sold: {} for {}", pounds ? "10 lb" : "5 kg", price(38));
}

/// Where to write a price: a thing of the library wants a block of one's own.
std::string sold_hint(const Model& model, const std::vector<Used>& used, BlockId thing) {
    constexpr std::string_view till_then = "till then the sheet says `so far`";
    const std::string sold = sold_like(model, used, thing);
    if (!model.in_library(thing)) {
        return fmt::format("write what it is sold for, as `{}`; {}", sold, till_then);
    }
    const std::string_view name = model.name(thing);
    return fmt::format("it is the library's: write a block of your own with what it is sold for, "
                       "and `my-{1}` where `{1}` stands now:\n`{0} my-{1} like {1} {{ {2} }}`\n{3}",
                       word(model.blocks[thing].kind), name, sold, till_then);
}

void check_prices(const Model& model, const Job& job, const std::vector<Used>& used,
                  Findings& findings) {
    const bool some = std::any_of(used.begin(), used.end(),
                                  [&](const Used& each) { return has_price(model, each.thing); });
    if (!some) return;
    for (const Used& each : used) {
        if (has_price(model, each.thing) || model.unreadable(each.thing, Key::sold)) continue;
        const std::string_view name = model.name(each.thing);
        const Span at = model.place_to_change(each.thing, each.at);
        if (model.entry(each.thing, Key::sold) != nullptr) {
            report(
                findings, job, Rule::price_missing, at,
                fmt::format("`{}` is sold by volume and has no density: it has no price by weight",
                            name),
                "give it a `density`, or write a pack by weight; till then the sheet says `so "
                "far`");
            continue;
        }
        report(findings, job, Rule::price_missing, at,
               fmt::format("`{}` has no price, and other things used with it have one", name),
               sold_hint(model, used, each.thing));
    }
}

} // namespace

void check_money(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const std::vector<Used> used = used_by(model, reckoning.in.job);
    Currencies currencies(model);
    for (const Used& each : used)
        currencies.look_at(each.thing);
    currencies.report_if_mixed(reckoning.in.job, findings);
    check_prices(model, reckoning.in.job, used, findings);
}

void check_batch_money(const Model& model, std::span<const Job> lines, Findings& findings) {
    if (lines.empty()) return;
    const BlockId batch = lines.front().batch;
    Currencies all(model);
    const Job* told_to = &lines.front(); // the line whose prices are in a second currency
    for (const Job& line : lines) {
        if (!all.mixed()) told_to = &line;
        Currencies own(model);
        for (const Used& each : used_by(model, line)) {
            own.look_at(each.thing);
            all.look_at(each.thing);
        }
        if (own.mixed()) return; // told at the recipe's name
    }
    if (const auto* wage = model.get<Wage>(batch, Key::labour)) {
        all.look_at(batch, wage->currency, wage->at);
    }
    for (const Key key : {Key::overhead, Key::price}) {
        const auto* money = model.get<Figure>(batch, key);
        if (money != nullptr) all.look_at(batch, money->quantity.currency, money->at);
    }
    all.report_if_mixed(*told_to, findings);
}

} // namespace waxwright
