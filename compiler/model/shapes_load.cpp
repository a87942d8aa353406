// The shape of a load: so much of the wax, or of the total.
#include <array>

#include <fmt/format.h>

#include "findings/spelling.hpp"
#include "model/value_reader.hpp"

namespace waxwright {

Value ValueReader::read_load(const PropertyInfo& info, At value) {
    const std::optional<At> phrase = evaluator_.only_phrase(value);
    if (!phrase) return {};
    const Children parts = children(*phrase);
    const At operand{value.file, parts[0]};
    if (kind(operand) == Kind::sum || kind(operand) == Kind::product) {
        findings_.report(Rule::syntax, span(operand), "a load is one figure, not a sum",
                         fmt::format("put it in parentheses: ({})", text(operand)));
        return {};
    }
    Load load{.at = span(*phrase)};
    for (std::size_t i = 1; i < parts.size(); ++i) {
        const At tail{value.file, parts[i]};
        if (i > 1 || kind(tail) != Kind::of_) {
            evaluator_.not_expected(tail);
            return {};
        }
        const At basis{value.file, tree(value.file).last_child(tail.node)};
        if (text(basis) != "wax" && text(basis) != "total") {
            constexpr std::array<std::string_view, 2> bases{"wax", "total"};
            Finding& finding = findings_.report(
                Rule::unknown_name, span(basis),
                fmt::format("a load is `of wax` or `of total`, not of `{}`", text(basis)));
            offer_nearest(finding, span(basis), text(basis), bases, Spelling::word);
            return {};
        }
        load.basis = text(basis) == "wax" ? Basis::wax : Basis::total;
    }
    const std::optional<Quantity> quantity = evaluator_.figure(operand);
    if (!quantity) return {};
    load.by_volume = quantity->dimension == dimension::volume_per_mass;
    if (quantity->of_volumes) {
        findings_.report(
            Rule::volume_load, span(operand),
            fmt::format("{} is by volume, and a load is a weight of scent for a weight of wax",
                        text(operand)),
            "weigh both: write `1 oz per lb of wax`, or a percent of the wax");
        return {};
    }
    if (info.shape == Shape::kept && parts.size() == 1) {
        if (quantity->dimension == dimension::mass) {
            if (!evaluator_.in_range(*quantity, Least::zero, load.at)) return {};
            return Figure{*quantity, load.at};
        }
        if (quantity->dimension != dimension::ratio && !load.by_volume) {
            evaluator_.has_dimension(*quantity, dimension::mass, operand);
            return {};
        }
    }
    if (quantity->dimension == dimension::mass) {
        findings_.report(
            Rule::unit_mismatch, span(operand),
            fmt::format("{} is a mass, and a load is a share of the wax", text(operand)),
            "write how much for how much wax: `7% of wax`, `80 g per kg of wax`, or `1 oz per lb "
            "of wax`");
        return {};
    }
    if (!load.by_volume && !evaluator_.has_dimension(*quantity, dimension::ratio, operand))
        return {};
    if (!evaluator_.in_range(*quantity, Least::zero, span(operand))) return {};
    load.fraction = quantity->value;
    load.doubt = quantity->doubt;
    // A certificate says 100 % of total where it sets no limit; a mixture of nothing else is none.
    const bool limit = info.key == Key::limit || info.key == Key::ifra_cat_12;
    if (load.basis == Basis::total && !load.by_volume &&
        (limit ? load.fraction > 1 : load.fraction + load.doubt >= 1)) {
        findings_.report(Rule::out_of_range, load.at,
                         fmt::format("{} leaves no room for wax", text(*phrase)));
        return {};
    }
    if (info.shape == Shape::kept && load.fraction + load.doubt >= 1) {
        findings_.report(Rule::out_of_range, load.at,
                         fmt::format("{} leaves nothing for the first pour", text(*phrase)));
        return {};
    }
    // A recipe's own load is judged with its weights worked out, by the load family.
    const bool own = info.block == BlockKind::recipe && info.shape == Shape::load;
    if (!own && load.by_volume) {
        findings_.report(Rule::volume_load, load.at,
                         fmt::format("{} is a volume, and {} is a weight", text(*phrase),
                                     info.shape == Shape::kept ? "what is kept"
                                     : info.key == Key::load   ? "a load"
                                                               : "a limit"),
                         "write a percent, or ounces per pound");
        return {};
    }
    if (!own && load.basis == Basis::unsaid) {
        Finding& finding = findings_.report(
            Rule::missing_basis, load.at, fmt::format("{} does not say of what", text(*phrase)),
            fmt::format("write {} of wax, or {} of total", text(*phrase), text(*phrase)));
        for (const std::string_view basis : {"of wax", "of total"}) {
            finding.fixes.push_back(
                put(load.at, fmt::format("{} {}", text(*phrase), basis), false));
        }
        return {};
    }
    return load;
}

} // namespace waxwright
