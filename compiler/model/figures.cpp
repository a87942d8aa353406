// Figures: a number with its unit, sums and products of such, and names bound to them.
#include <cmath>

#include <fmt/format.h>

#include "model/evaluator.hpp"
#include "syntax/parse.hpp"
#include "units/show.hpp"

namespace waxwright {

std::optional<Quantity> Evaluator::figure(At operand) {
    std::optional<Quantity> found = figure_of(operand);
    if (found && context_.figures != nullptr) context_.figures->push_back({*found, span(operand)});
    return found;
}

std::optional<Quantity> Evaluator::figure_of(At operand) {
    switch (kind(operand)) {
    case Kind::measure:
        return measure(operand);
    case Kind::compound:
        return compound(operand);
    case Kind::cash:
        return cash(operand);
    case Kind::group: {
        if (open_groups_ >= most_open_groups) {
            findings_.report(Rule::nesting, span(operand),
                             "parentheses are nested too deep, counting those in names",
                             "use fewer names");
            return std::nullopt;
        }
        ++open_groups_;
        std::optional<Quantity> inner =
            figure({operand.file, tree(operand.file).last_child(operand.node)});
        --open_groups_;
        return inner;
    }
    case Kind::sum:
    case Kind::product:
        return arithmetic(operand);
    case Kind::doubt:
        return doubtful(operand);
    case Kind::name:
        return named_figure(operand);
    case Kind::item: {
        const Children parts = children(operand);
        if (!figure({operand.file, parts[0]})) return std::nullopt;
        const At name{operand.file, parts[1]};
        const std::string_view word = text(name);
        const bool basis = word == "wax" || word == "total" || word == "water";
        Finding& finding = findings_.report(
            Rule::syntax, span(name), fmt::format("`{}` does not belong here", word),
            basis ? fmt::format("write `of {}`", word)
                  : fmt::format("take `{}` away: a figure ends with its unit", word));
        if (basis) finding.fixes.push_back(put(span(name), fmt::format("of {}", word), true));
        return std::nullopt;
    }
    default:
        add_use(findings_.report(
            Rule::unit_mismatch, span(operand),
            fmt::format("a number with its unit is wanted here, not {}", text(operand)),
            "write 12 mm, 75 °C or 20 g, for example"));
        return std::nullopt;
    }
}

std::optional<Quantity> Evaluator::measure(At node) {
    const Children parts = children(node);
    const std::optional<double> number = read_number(text({node.file, parts[0]}));
    if (!number) {
        findings_.report(
            Rule::out_of_range, span({node.file, parts[0]}),
            fmt::format("{} is not a number to work with", text({node.file, parts[0]})));
        return std::nullopt;
    }
    if (parts.size() == 1) return Quantity{.value = *number};
    const At unit_at{node.file, parts[1]};
    const auto reading = read_unit(text(unit_at));
    if (const auto* unknown = std::get_if<UnknownUnit>(&reading)) {
        const auto offset = static_cast<std::uint32_t>(unknown->part.data() - text(unit_at).data());
        const std::uint32_t begin = span(unit_at).begin + offset;
        const auto length = static_cast<std::uint32_t>(unknown->part.size());
        Finding& finding = findings_.report(Rule::unknown_unit, {node.file, begin, begin + length},
                                            fmt::format("`{}` is no unit", unknown->part),
                                            unit_hint(unknown->part, context_.wanted));
        const UnitMeant meant = unit_meant(unknown->part, context_.wanted);
        if (!meant.unit.empty()) {
            finding.fixes.push_back(put(finding.at, std::string(meant.unit), meant.surely));
        }
        return std::nullopt;
    }
    const auto& unit = std::get<UnitReading>(reading);
    Quantity quantity{.value = *number * unit.factor + unit.offset,
                      .dimension = unit.dimension,
                      .unit = unit.id,
                      .currency = unit.currency,
                      .of_volumes = unit.of_volumes};
    // `oz per lb` is a share though no % is in it.
    if (quantity.dimension == dimension::count) quantity.dimension = dimension::ratio;
    return quantity;
}

std::optional<Quantity> Evaluator::compound(At node) {
    std::optional<Quantity> total;
    double last_factor = 0;
    for (const NodeId child : children(node)) {
        const std::optional<Quantity> part = measure({node.file, child});
        if (!part) return std::nullopt;
        const Span at = span({node.file, child});
        if (part->unit == no_unit || part->dimension.point || part->value < 0) {
            not_expected({node.file, child});
            return std::nullopt;
        }
        const double factor = unit(part->unit).factor;
        if (total && part->dimension != total->dimension) {
            mismatch(*part, total->dimension, {node.file, child});
            return std::nullopt;
        }
        if (total && factor >= last_factor) {
            findings_.report(Rule::syntax, at, "the units of one quantity go from large to small",
                             "write 2 lb 3 oz, 1 h 30 min");
            return std::nullopt;
        }
        last_factor = factor;
        if (!total) {
            total = part;
        } else {
            total->value += part->value;
        }
    }
    return total;
}

std::optional<Quantity> Evaluator::cash(At node) {
    const Children parts = children(node);
    const std::string_view sign = text({node.file, parts[0]});
    const std::optional<double> number = read_number(text({node.file, parts[1]}));
    if (!number) {
        findings_.report(Rule::out_of_range, span(node), "this is not an amount to work with");
        return std::nullopt;
    }
    Quantity money{.value = *number, .dimension = dimension::money};
    money.currency = loaded_.files[node.file].dollar;
    if (sign == "€") money.currency = find_currency("EUR");
    if (sign == "£") money.currency = find_currency("GBP");
    if (parts.size() == 2) return money;
    // `$18/h`: the unit begins with the / or the per
    const At unit_at{node.file, parts[2]};
    std::string_view per = text(unit_at);
    per.remove_prefix(per.front() == '/' ? 1 : per.find("per") + 3);
    per.remove_prefix(std::min(per.find_first_not_of(" \t"), per.size()));
    const auto reading = read_unit(per);
    if (std::holds_alternative<UnknownUnit>(reading)) {
        findings_.report(Rule::unknown_unit, span(unit_at), fmt::format("`{}` is no unit", per),
                         unit_hint(per));
        return std::nullopt;
    }
    const auto& unit = std::get<UnitReading>(reading);
    const Outcome outcome =
        divide(money, {.value = unit.factor, .dimension = unit.dimension, .unit = unit.id});
    if (const auto* fault = std::get_if<Fault>(&outcome)) {
        report_fault(*fault, money, {.dimension = unit.dimension}, span(unit_at));
        return std::nullopt;
    }
    return std::get<Quantity>(outcome);
}

std::optional<Quantity> Evaluator::arithmetic(At node) {
    const Children parts = children(node);
    std::optional<Quantity> total = figure({node.file, parts[0]});
    for (std::size_t i = 1; i + 1 < parts.size(); i += 2) {
        const At right_at{node.file, parts[i + 1]};
        const std::optional<Quantity> right = figure(right_at);
        if (!total || !right) { // go on: the others may have mistakes of their own
            total = std::nullopt;
            continue;
        }
        Outcome outcome;
        switch (kind({node.file, parts[i]})) {
        case Kind::plus:
            outcome = add(*total, *right);
            break;
        case Kind::minus:
            outcome = subtract(*total, *right);
            break;
        case Kind::times:
            outcome = multiply(*total, *right);
            break;
        default:
            outcome = divide(*total, *right);
            break;
        }
        if (const auto* fault = std::get_if<Fault>(&outcome)) {
            report_fault(*fault, *total, *right, span(node));
            return std::nullopt;
        }
        total = std::get<Quantity>(outcome);
        if (!std::isfinite(total->value)) {
            findings_.report(Rule::out_of_range, span(node), "this doesn't come to a number");
            return std::nullopt;
        }
    }
    return total;
}

std::optional<Quantity> Evaluator::doubtful(At node) {
    const Children parts = children(node);
    std::optional<Quantity> quantity = figure({node.file, parts[0]});
    const At half{node.file, parts[1]};
    const std::optional<Quantity> doubt = figure(half);
    if (!quantity || !doubt) return std::nullopt;
    Dimension wanted_dimension = quantity->dimension;
    if (wanted_dimension.point) wanted_dimension = dimension::interval;
    if (doubt->value < 0) {
        in_range(*doubt, Least::zero, span(half));
        return std::nullopt;
    }
    if (doubt->dimension == wanted_dimension) {
        quantity->doubt = doubt->value;
    } else if (doubt->dimension == dimension::count) {
        // The half-width is in the figure's own unit: scale it as the figure was scaled.
        const At number{node.file, children({node.file, parts[0]}).empty()
                                       ? parts[0]
                                       : children({node.file, parts[0]})[0]};
        const std::optional<double> written =
            kind(number) == Kind::number ? read_number(text(number)) : std::nullopt;
        double factor = 1;
        if (quantity->unit != no_unit) {
            factor = unit(quantity->unit).factor;
        } else if (written && *written != 0) {
            factor = std::abs(quantity->value / *written);
        }
        quantity->doubt = doubt->value * factor;
    } else {
        mismatch(*doubt, wanted_dimension, half);
        return std::nullopt;
    }
    return quantity;
}

std::optional<Quantity> Evaluator::named_figure(At name) {
    const Symbol* symbol = lookup_.look_up(name);
    if (symbol == nullptr || symbol->what == Symbol::What::poisoned) return std::nullopt;
    if (symbol->what == Symbol::What::let) return let_figure(symbol->id);
    findings_.report(Rule::wrong_kind, span(name),
                     fmt::format("`{}` is {}, and a figure is wanted here", text(name),
                                 with_article(model_.blocks[symbol->id].kind)));
    return std::nullopt;
}

std::optional<Quantity> Evaluator::let_figure(LetId id) {
    LetFigure& memo = let_figures_[id];
    if (begin_let(id, memo.state)) {
        const Let& let = names_.lets[id];
        const std::optional<At> operand = only_operand({let.file, let.value}, "a figure");
        if (operand) memo.quantity = figure(*operand);
        end_let(memo.state);
    }
    return memo.state == ReadState::done ? memo.quantity : std::nullopt;
}

std::vector<std::optional<Quantity>> Evaluator::figures_of_lets() const {
    std::vector<std::optional<Quantity>> figures;
    for (const LetFigure& memo : let_figures_)
        figures.push_back(memo.quantity);
    return figures;
}

/// True where the let is to be read now, once; then end_let() has to follow. A loop, and names made
/// of names too deep, are told here.
bool Evaluator::begin_let(LetId id, ReadState& state) {
    Let& let = names_.lets[id];
    let.used = true;
    if (state == ReadState::done) return false;
    if (state == ReadState::reading) {
        report_let_loop(id, making_);
        return false;
    }
    if (context_.depth >= deepest_nesting) {
        findings_.report(Rule::nesting, let.name_at,
                         fmt::format("names are made of names more than {} deep", deepest_nesting));
        return false;
    }
    state = ReadState::reading;
    ++context_.depth;
    making_.push_back(id);
    return true;
}

void Evaluator::end_let(ReadState& state) {
    making_.pop_back();
    --context_.depth;
    state = ReadState::done;
}

} // namespace waxwright
