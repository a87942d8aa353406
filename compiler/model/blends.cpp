// Blends: percents or parts of named materials, accords bound by `let` within them, parts by
// volume; and shares, percents of something else (additives, what an oil contains).
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/blend_reader.hpp"
#include "syntax/parse.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Adds `share` to the material's, keeping the order in which materials first come.
void merge(std::vector<Share>& shares, const Share& share) {
    for (Share& known : shares) {
        if (known.material == share.material) {
            known.fraction += share.fraction;
            known.doubt += share.doubt;
            return;
        }
    }
    shares.push_back(share);
}

/// A nested accord may have many materials; merging them is quadratic, so a blend may not have more
/// than this: no candle has.
constexpr std::size_t most_materials = 200;

} // namespace

Value BlendReader::read_blend(const PropertyInfo& info, At value) {
    const bool whole = info.shape == Shape::blend;
    refers_ = info.refers;
    const Shares shares = blend_of(value, whole);
    refers_ = BlockKind::unknown;
    if (!shares) return {};
    bool good = true;
    // A blend by name that has nothing of what is wanted is a mistake where it is used.
    const auto other = [&](const Share& share) {
        return model_.blocks[share.material].kind != info.refers;
    };
    if (context_.used_at && shares->size() > 1 &&
        std::all_of(shares->begin(), shares->end(), other)) {
        findings_
            .report(Rule::wrong_kind, *context_.used_at,
                    fmt::format("`{}` is a blend with no {} in it, and {} is wanted here",
                                model_.sources.slice(*context_.used_at), word(info.refers),
                                with_article(info.refers)))
            .related.push_back({span(value), "this is the blend"});
        return {};
    }
    for (const Share& share : *shares) {
        good = counts_.of_kind(share.material, info.refers, share.at) && good;
    }
    if (!good) return {};
    const Slice slice{static_cast<std::uint32_t>(model_.shares.size()),
                      static_cast<std::uint32_t>(shares->size())};
    model_.shares.insert(model_.shares.end(), shares->begin(), shares->end());
    return Blend{slice, span(value)};
}

/// The materials of a blend with their fractions by mass. A whole sums to 1; shares of something
/// else stay as they are written.
BlendReader::Shares BlendReader::blend_of(At value, bool whole) {
    const Children parts = children(value);
    const bool by_volume = kind({value.file, parts[parts.size() - 1]}) == Kind::by_volume;
    const At phrase{value.file, parts[0]};
    const Children inside = children(phrase);
    if (parts.size() > (by_volume ? 2U : 1U) || inside.size() > 1) {
        const At extra{value.file, inside.size() > 1 ? inside[1] : parts[1]};
        findings_.report(Rule::syntax, span(extra),
                         fmt::format("`{}` does not belong in a blend", text(extra)),
                         kind(extra) == Kind::to && !whole
                             ? "of a range write the upper end alone, as 10% linalool"
                             : "the items of a blend are joined by +");
        return std::nullopt;
    }
    const At operand{value.file, inside[0]};
    // Before they are read: each may be an accord of as many.
    if (kind(operand) == Kind::sum && children(operand).size() > 2 * most_materials) {
        too_many_materials(value);
        return std::nullopt;
    }
    std::vector<BlendItem> items;
    bool good = true;
    const auto take = [&](At node) {
        BlendItem item{.name = node, .whole = node};
        good = read_item(node, whole, item) && good;
        items.push_back(std::move(item));
    };
    if (kind(operand) == Kind::sum) {
        const Children terms = children(operand);
        for (std::size_t i = 0; i < terms.size(); ++i) {
            const At term{value.file, terms[i]};
            if (i % 2 == 0) {
                take(term);
            } else if (kind(term) != Kind::plus) {
                findings_.report(Rule::syntax, span(term),
                                 fmt::format("`{}` does not belong in a blend", text(term)),
                                 "put an amount that is worked out in parentheses: (100% - 20%)");
                good = false;
            }
        }
    } else {
        take(operand);
    }
    if (!good) return std::nullopt;
    if (!(whole ? add_up(value, items) : share_out(value, items))) return std::nullopt;
    if (by_volume && !weigh_parts(items)) return std::nullopt;
    std::vector<Share> shares;
    for (const BlendItem& item : items) {
        for (const Share& material : item.materials) {
            merge(shares, {.material = material.material,
                           .fraction = material.fraction * item.amount,
                           .at = span(item.name),
                           .doubt = material.doubt * item.amount + material.fraction * item.doubt});
        }
        if (shares.size() > most_materials) {
            too_many_materials(value);
            return std::nullopt;
        }
    }
    return shares;
}

void BlendReader::too_many_materials(At value) {
    findings_.report(Rule::out_of_range, span(value),
                     fmt::format("this blend has more than {} materials", most_materials),
                     "use fewer");
}

bool BlendReader::read_item(At operand, bool whole, BlendItem& item) {
    switch (kind(operand)) {
    case Kind::name:
        item.bare = true;
        break;
    case Kind::rest:
        item.rest = true;
        item.name.node = tree(operand.file).last_child(operand.node);
        break;
    case Kind::item: {
        const Children parts = children(operand);
        item.name.node = parts[1];
        if (!read_amount(operand, {operand.file, parts[0]}, item)) return false;
        break;
    }
    case Kind::measure: {
        // `3 lavender`: the grammar takes the word behind a number for its unit
        const Children parts = children(operand);
        const std::string_view name =
            parts.size() > 1 ? text({operand.file, parts[1]}) : std::string_view("NAME");
        if (parts.size() > 1 && find_unit(name) == no_unit && name != "part" && name != "parts") {
            const std::string_view number = text({operand.file, parts[0]});
            findings_.report(Rule::missing_unit, span({operand.file, parts[0]}),
                             whole ? fmt::format("{} is neither percents nor parts", text(operand))
                                   : fmt::format("{} is no percent", text(operand)),
                             whole ? fmt::format("write {0}% {1}, or {0} {2} {1}", number, name,
                                                 number == "1" ? "part" : "parts")
                                   : fmt::format("write {}% {}", number, name));
        } else {
            findings_.report(Rule::syntax, span(operand),
                             fmt::format("`{}` does not say of what", text(operand)),
                             "write 80% soy, or 3 parts lavender");
        }
        return false;
    }
    default:
        findings_.report(Rule::syntax, span(operand),
                         fmt::format("`{}` is no item of a blend", text(operand)),
                         "write 80% soy, 3 parts lavender or rest coconut, joined by +");
        return false;
    }
    Shares materials = materials_of(item.name);
    if (materials) item.materials = std::move(*materials);
    return materials.has_value();
}

bool BlendReader::read_amount(At item_at, At amount, BlendItem& item) {
    const Children parts = children(amount);
    if (kind(amount) == Kind::measure && parts.size() > 1) {
        const std::string_view unit_text = text({amount.file, parts[1]});
        if (unit_text == "part" || unit_text == "parts") {
            item.parts = true;
            item.amount = read_number(text({amount.file, parts[0]})).value_or(0);
        }
    }
    if (!item.parts) {
        const std::optional<Quantity> quantity = evaluator_.figure(amount);
        if (!quantity) return false;
        if (quantity->dimension == dimension::count) {
            findings_.report(Rule::missing_unit, span(amount),
                             fmt::format("{} is neither percents nor parts", text(amount)),
                             "write a % or `parts` after it");
            return false;
        }
        if (quantity->dimension != dimension::ratio) {
            findings_.report(
                Rule::unit_mismatch, span(amount),
                fmt::format("{} is {}, and a blend is in percents or parts", text(amount),
                            name_of(quantity->dimension)),
                quantity->dimension == dimension::volume
                    ? "for so much of each, write as many parts, and `by volume` after the last one"
                    : "for so much of each, write as many parts");
            return false;
        }
        item.amount = quantity->value;
        item.doubt = quantity->doubt;
    }
    if (item.doubt > 0 && item.doubt >= item.amount) {
        findings_.report(Rule::out_of_range, span(amount),
                         fmt::format("with its doubt {} could be nothing, or less", text(amount)));
        return false;
    }
    if (item.amount > 0 && item.amount <= 1e9) return true;
    if (item.amount == 0) {
        findings_.report(Rule::zero_share, span(item_at),
                         fmt::format("`{}` is nothing of the blend", text(item_at)), "take it out");
    } else {
        findings_.report(Rule::out_of_range, span(amount),
                         fmt::format("{} is no share", text(amount)),
                         "write a percent from 0 to 100, or parts");
    }
    return false;
}

/// What a name in a blend stands for: one material, or the materials of an accord.
BlendReader::Shares BlendReader::materials_of(At name) {
    const Symbol* symbol = lookup_.look_up(name, refers_);
    if (symbol == nullptr || symbol->what == Symbol::What::poisoned) return std::nullopt;
    if (symbol->what == Symbol::What::let) return let_blend(symbol->id);
    return std::vector<Share>{{symbol->id, 1.0, span(name)}};
}

BlendReader::Shares BlendReader::let_blend(LetId id) {
    LetBlend& memo = let_blends_[id];
    if (evaluator_.begin_let(id, memo.state)) {
        memo.shares = blend_of({names_.lets[id].file, names_.lets[id].value}, true);
        evaluator_.end_let(memo.state);
    }
    return memo.state == ReadState::done ? memo.shares : std::nullopt;
}

} // namespace waxwright
