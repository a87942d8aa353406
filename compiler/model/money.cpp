// Shapes with money or shares of it: packs, wages, fees.
#include <cmath>

#include <fmt/format.h>

#include "model/phrase_text.hpp"
#include "model/value_reader.hpp"

namespace waxwright {

namespace {

bool by_the_piece(BlockKind kind) {
    return bought(kind) == Bought::by_piece || bought(kind) == Bought::tool;
}

} // namespace

Value ValueReader::read_packs(At value, BlockKind block) {
    std::vector<Pack> packs;
    bool good = true;
    for (const NodeId phrase : children(value)) {
        const std::optional<Pack> pack = read_pack({value.file, phrase}, block);
        good = good && pack;
        if (!pack) continue;
        if (!packs.empty() && pack->currency != packs[0].currency) {
            findings_
                .report(Rule::mixed_currency, pack->at,
                        fmt::format("one pack is sold in {}, another in {}",
                                    code_of(packs[0].currency), code_of(pack->currency)),
                        "give all packs of a thing in one currency")
                .related.push_back({packs[0].at, "the first pack"});
            good = false;
        }
        packs.push_back(*pack);
    }
    if (!good) return {};
    const Slice slice{static_cast<std::uint32_t>(model_.packs.size()),
                      static_cast<std::uint32_t>(packs.size())};
    model_.packs.insert(model_.packs.end(), packs.begin(), packs.end());
    return Packs{slice};
}

std::optional<Pack> ValueReader::read_pack(At phrase, BlockKind block) {
    const Children parts = children(phrase);
    const At operand{phrase.file, parts[0]};
    const bool has_price = parts.size() == 2 && kind({phrase.file, parts[1]}) == Kind::for_;
    if (!has_price) {
        // In the currency and the unit of what has been read of this file before.
        const bool any = !model_.packs.empty();
        const Pack like = any ? model_.packs.back() : Pack{};
        const bool metric = any && like.unit != no_unit && unit(like.unit).system == System::metric;
        findings_.report(
            Rule::syntax, span(phrase),
            fmt::format("`{}` is not a pack with a price", text(phrase)),
            any ? fmt::format("write {} for {}, with commas between the packs",
                              by_the_piece(block) ? "24"
                              : metric            ? "5 kg"
                                                  : "10 lb",
                              show_money(by_the_piece(block) ? 41.5 : 38, like.currency))
                : fmt::format("write {} for {} {}, with commas between the packs",
                              by_the_piece(block) ? "24" : "10 lb",
                              by_the_piece(block) ? "41.50" : "38.00",
                              evaluator_.currency_in(phrase.file)));
        return std::nullopt;
    }
    const At price_at{phrase.file, tree(phrase.file).last_child(parts[1])};
    context_.wanted = dimension::money;
    const std::optional<Quantity> price = evaluator_.figure(price_at);
    const std::optional<Quantity> amount = evaluator_.figure(operand);
    if (price && amount && turned_round(phrase, *amount, *price, block)) return std::nullopt;
    const bool paid = price && evaluator_.has_dimension(*price, dimension::money, price_at) &&
                      evaluator_.in_range(*price, Least::zero, span(price_at));
    if (!paid || !amount) return std::nullopt;
    const bool volume = amount->dimension == dimension::volume && !by_the_piece(block);
    const Dimension dimension = by_the_piece(block) ? dimension::count : dimension::mass;
    if (!volume && !evaluator_.has_dimension(*amount, dimension, operand)) return std::nullopt;
    if (!evaluator_.in_range(*amount, Least::above_zero, span(operand))) return std::nullopt;
    if (by_the_piece(block) && !whole_pieces(*amount, span(operand))) return std::nullopt;
    if (!fits_minor_units(price->value, price->currency)) {
        findings_.report(Rule::out_of_range, span(price_at),
                         fmt::format("{} has more decimals than {} has", text(price_at),
                                     code_of(price->currency)));
        return std::nullopt;
    }
    return Pack{amount->value, amount->dimension, amount->unit,
                price->value,  price->currency,   span(phrase)};
}

/// Tells of `39 GBP for 5kg`: with money before the `for` and an amount of the thing behind it,
/// nothing but the order is wrong.
bool ValueReader::turned_round(At phrase, const Quantity& first, const Quantity& second,
                               BlockKind block) {
    const bool pieces = by_the_piece(block);
    const bool amount =
        pieces ? second.dimension == dimension::count
               : second.dimension == dimension::mass || second.dimension == dimension::volume;
    if (first.dimension != dimension::money || !amount) return false;
    const Children parts = children(phrase);
    const std::string_view price = text({phrase.file, parts[0]});
    const std::string_view pack = text({phrase.file, tree(phrase.file).last_child(parts[1])});
    std::string better = fmt::format("{} for {}", spaced(pack), squeezed(price));
    Finding& finding =
        findings_.report(Rule::syntax, span(phrase), "the pack goes first, and then its price",
                         fmt::format("turned round: write `{}`", better));
    finding.fixes.push_back(put(span(phrase), std::move(better), true));
    return true;
}

/// Tells of half a jar.
bool ValueReader::whole_pieces(const Quantity& amount, Span at) {
    if (amount.value == std::floor(amount.value)) return true;
    findings_.report(Rule::out_of_range, at, "this is not a whole number of pieces");
    return false;
}

Value ValueReader::read_wage(At value) {
    const std::optional<At> phrase = evaluator_.only_phrase(value);
    if (!phrase) return {};
    const Children parts = children(*phrase);
    if (parts.size() != 2 || kind({value.file, parts[1]}) != Kind::at) {
        findings_.report(Rule::syntax, span(*phrase),
                         "labour is a time and what is paid for an hour of it",
                         fmt::format("write 3 h at 18 {}/h", evaluator_.currency_in(value.file)));
        return {};
    }
    const auto time = evaluator_.wanted({value.file, parts[0]}, dimension::time, Least::zero);
    const At rate_at{value.file, tree(value.file).last_child(parts[1])};
    const auto rate = evaluator_.wanted(rate_at, dimension::wage, Least::zero);
    if (!time || !rate) return {};
    return Wage{time->value, rate->value, rate->currency, span(*phrase)};
}

Value ValueReader::read_fees(const PropertyInfo& info, At value) {
    std::vector<Figure> fees;
    bool good = true;
    double total = 0;
    for (const NodeId phrase : children(value)) {
        const Children parts = children({value.file, phrase});
        if (parts.size() > 1) {
            evaluator_.not_expected({value.file, parts[1]});
            return {};
        }
        const At operand{value.file, parts[0]};
        const std::optional<Quantity> fee = evaluator_.wanted(operand, info.dimension, info.least);
        good = good && fee;
        if (fee) {
            total += fee->value;
            fees.push_back({*fee, span(operand)});
        }
    }
    if (!good) return {};
    if (total >= 1) {
        findings_.report(Rule::out_of_range, span(value), "the fees take the whole price",
                         "together they stay below 100%");
        return {};
    }
    const Slice slice{static_cast<std::uint32_t>(model_.figures.size()),
                      static_cast<std::uint32_t>(fees.size())};
    model_.figures.insert(model_.figures.end(), fees.begin(), fees.end());
    return Figures{slice};
}

} // namespace waxwright
