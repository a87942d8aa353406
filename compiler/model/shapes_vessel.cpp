// Shapes of vessels, waxes, oils and pots: capacities, insides, densities, flash points, cooling.
#include <array>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "model/value_reader.hpp"
#include "units/water.hpp"

namespace waxwright {

namespace {

/// How much lower an open-cup figure, or one whose cup is unsaid, counts (C°).
constexpr double open_cup_margin = 10;

} // namespace

Value ValueReader::read_capacity(const PropertyInfo& info, At value) {
    const std::optional<At> phrase = evaluator_.only_phrase(value);
    if (!phrase) return {};
    const Children parts = children(*phrase);
    const At operand{value.file, parts[0]};
    bool of_water = false;
    for (std::size_t i = 1; i < parts.size(); ++i) {
        const At tail{value.file, parts[i]};
        of_water = i == 1 && kind(tail) == Kind::of_ &&
                   text({value.file, tree(value.file).last_child(tail.node)}) == "water";
        if (!of_water) {
            evaluator_.not_expected(tail);
            return {};
        }
    }
    std::optional<Quantity> quantity = evaluator_.figure(operand);
    if (!quantity) return {};
    const bool vessel = info.block == BlockKind::vessel;
    if (of_water && quantity->dimension == dimension::mass) {
        if (!evaluator_.in_range(*quantity, info.least, span(operand))) return {};
        quantity->value /= water_at_20;
        quantity->doubt /= water_at_20;
        quantity->dimension = dimension::volume;
        quantity->unit = find_unit("ml");
        if (vessel && !evaluator_.can_be_filled(*quantity, span(*phrase))) return {};
        return Figure{*quantity, span(*phrase)};
    }
    if (!evaluator_.has_dimension(*quantity, dimension::volume, operand)) return {};
    if (!evaluator_.in_range(*quantity, info.least, span(operand))) return {};
    if (vessel && !evaluator_.can_be_filled(*quantity, span(operand))) return {};
    return Figure{*quantity, span(*phrase)};
}

/// `2 l`, or `2 kg of water`; or `2 l hot`.
Value ValueReader::read_bath(const PropertyInfo& info, At value) {
    const std::optional<At> phrase = evaluator_.only_phrase(value);
    if (!phrase) return {};
    const At first{value.file, children(*phrase)[0]};
    if (kind(first) != Kind::item) {
        const Value water = read_capacity(info, value);
        const auto* figure = std::get_if<Figure>(&water);
        return figure != nullptr ? Value(Bath{figure->value(), false, figure->at}) : Value();
    }
    const Children item = children(first);
    const At name{value.file, item[item.size() - 1]};
    if (text(name) != "hot") {
        findings_.report(
            Rule::syntax, span(name),
            fmt::format("a bath is hot, or as cold as the room, and `{}` says neither", text(name)),
            "write `hot` where you fill it from the kettle, and nothing where not");
        return {};
    }
    const auto water = evaluator_.wanted({value.file, item[0]}, info.dimension, info.least);
    return water ? Value(Bath{water->value, true, span(*phrase)}) : Value();
}

Value ValueReader::read_inside(const PropertyInfo& info, At value) {
    Inside inside{.mouth = 0, .base = 0, .depth = 0, .at = span(value)};
    bool good = true;
    const auto length = [&](At operand, bool across, double& into, double& doubt) {
        const std::optional<Quantity> quantity =
            evaluator_.wanted(operand, info.dimension, info.least);
        if (quantity) {
            into = quantity->value;
            doubt = quantity->doubt;
        }
        good = good && quantity && evaluator_.fits_a_vessel(*quantity, across, span(operand));
    };
    for (const NodeId child : children(value)) {
        const At phrase{value.file, child};
        const Children parts = children(phrase);
        const At operand{value.file, parts[0]};
        const Kind last = tree(value.file).kind(parts[parts.size() - 1]);
        if (last == Kind::deep && parts.size() == 2 && inside.depth == 0) {
            length(operand, false, inside.depth, inside.depth_doubt);
        } else if (last == Kind::across && parts.size() <= 3 && inside.mouth == 0) {
            length(operand, true, inside.mouth, inside.mouth_doubt);
            inside.base = inside.mouth;
            inside.base_doubt = inside.mouth_doubt;
            if (parts.size() == 3) {
                const At to{value.file, parts[1]};
                if (kind(to) == Kind::to) {
                    length({value.file, tree(value.file).last_child(to.node)}, true, inside.base,
                           inside.base_doubt);
                } else {
                    good = false;
                    evaluator_.not_expected(to);
                }
            }
        } else {
            good = false;
            findings_.report(Rule::syntax, span(phrase),
                             fmt::format("`{}` does not say how wide or how deep", text(phrase)),
                             "write 74 mm across, 90 mm deep; tapered: 80 mm to 70 mm across");
        }
    }
    if (!good) return {};
    if (inside.depth == 0 || inside.mouth == 0) {
        findings_.report(Rule::syntax, span(value),
                         inside.depth == 0 ? "the depth is missing" : "the diameter is missing",
                         "write 74 mm across, 90 mm deep");
        return {};
    }
    return inside;
}

Value ValueReader::read_densities(const PropertyInfo& info, At value) {
    const bool liquid = info.shape == Shape::densities;
    const Children phrases = children(value);
    if (phrases.size() > (liquid ? 2U : 1U)) {
        evaluator_.not_expected({value.file, phrases[liquid ? 2 : 1]});
        return {};
    }
    Densities densities{.one = {}, .two = {}, .at = span(value)};
    std::array<Density*, 2> into{&densities.one, &densities.two};
    for (std::size_t i = 0; i < phrases.size(); ++i) {
        const At phrase{value.file, phrases[i]};
        const Children parts = children(phrase);
        const At operand{value.file, parts[0]};
        const std::optional<Quantity> density =
            evaluator_.wanted(operand, info.dimension, info.least);
        double celsius = std::numeric_limits<double>::quiet_NaN();
        if (parts.size() > 1) {
            const At tail{value.file, parts[parts.size() > 2 ? 2 : 1]};
            if (kind(tail) != Kind::at || parts.size() > 2) {
                evaluator_.not_expected(tail);
                return {};
            }
            const At at{value.file, tree(value.file).last_child(tail.node)};
            const std::optional<Quantity> point =
                evaluator_.wanted(at, dimension::point, Least::any);
            if (!point) return {};
            celsius = point->value;
        } else if (liquid) {
            findings_.report(Rule::syntax, span(phrase),
                             fmt::format("{} doesn't say at which temperature", text(phrase)),
                             fmt::format("write {} at 75 °C", text(phrase)));
            return {};
        }
        if (!density) return {};
        *into[i] = {density->value, density->doubt, celsius};
    }
    if (phrases.size() == 2 && densities.one.celsius == densities.two.celsius) {
        findings_.report(Rule::out_of_range, span(value),
                         "both densities are at the same temperature",
                         "give them at two temperatures, or give only one");
        return {};
    }
    return densities;
}

Value ValueReader::read_flash(const PropertyInfo& info, At value) {
    const std::optional<At> phrase = evaluator_.only_phrase(value);
    if (!phrase) return {};
    const Children parts = children(*phrase);
    const At operand{value.file, parts[0]};
    bool closed = false;
    if (parts.size() > 1) {
        const At tail{value.file, parts[parts.size() > 2 ? 2 : 1]};
        closed = kind(tail) == Kind::closed_cup;
        if (parts.size() > 2 || (!closed && kind(tail) != Kind::open_cup)) {
            evaluator_.not_expected(tail);
            return {};
        }
    }
    const std::optional<Quantity> point = evaluator_.wanted(operand, info.dimension, info.least);
    if (!point) return {};
    return Flash{.written = point->value,
                 .counted = point->value - (closed ? 0 : open_cup_margin),
                 .unit = point->unit,
                 .closed_cup = closed,
                 .doubt = point->doubt,
                 .at = span(*phrase)};
}

Value ValueReader::read_cools(const PropertyInfo& info, At value) {
    const std::optional<At> phrase = evaluator_.only_phrase(value);
    if (!phrase) return {};
    const Children parts = children(*phrase);
    const auto part = [&](Kind wanted_kind) -> std::optional<At> {
        for (const NodeId node : parts) {
            if (tree(value.file).kind(node) == wanted_kind) {
                return At{value.file, tree(value.file).last_child(node)};
            }
        }
        return std::nullopt;
    };
    const std::optional<At> to = part(Kind::to), over = part(Kind::over), with = part(Kind::with),
                            room = part(Kind::in_room);
    if (!to || !over || !with || !room || parts.size() != 5) {
        findings_.report(Rule::syntax, span(*phrase), "a cooling needs all of its parts",
                         "write 75 °C to 60 °C over 18 min with 2 kg in-room 20 °C");
        return {};
    }
    const auto from = evaluator_.wanted({value.file, parts[0]}, info.dimension, Least::any);
    const auto end = evaluator_.wanted(*to, info.dimension, Least::any);
    const auto time = evaluator_.wanted(*over, dimension::time, Least::above_zero);
    const auto mass = evaluator_.wanted(*with, dimension::mass, Least::above_zero);
    const auto air = evaluator_.wanted(*room, info.dimension, Least::any);
    if (!from || !end || !time || !mass || !air) return {};
    if (!(from->value > end->value && end->value > air->value)) {
        findings_.report(Rule::out_of_range, span(*phrase),
                         "it cools from hot to less hot, and stays warmer than the room");
        return {};
    }
    return Cools{from->value, end->value, air->value, time->value, mass->value, span(*phrase)};
}

} // namespace waxwright
