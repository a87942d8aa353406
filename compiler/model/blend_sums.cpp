// The arithmetic of blends: percents that come to a whole, parts, and parts by volume.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/blend_reader.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Sums within this of a whole are a whole: what is lost when decimals become doubles.
constexpr double sum_tolerance = 1e-9;

/// `5% lavender + 2% rosemary` as a scent: shares of the wax, as a load has them.
bool maybe_a_load(double sum) {
    constexpr double most_scent = 0.3; // no wax carries more (common practice)
    return sum < most_scent;
}
const char* hint_on_sum(double sum) {
    return maybe_a_load(sum) ? "these are shares within the blend, and come to 100 %; how much of "
                               "it goes into the wax is its `load`"
                             : "write `rest` before one item instead of its percent";
}

} // namespace

/// Makes the amounts of a whole into fractions that sum to 1.
bool BlendReader::add_up(At value, std::vector<BlendItem>& items) {
    const Span at = span(value);
    if (items.size() == 1 && items[0].bare) {
        items[0].amount = 1;
        return true;
    }
    bool percents = false, parts = false;
    const BlendItem* rest = nullptr;
    double sum = 0;
    for (const BlendItem& item : items) {
        if (item.bare) {
            findings_.report(Rule::blend_mixed, span(item.name),
                             fmt::format("`{}` has no share in the blend", text(item.name)),
                             "write its percent or its parts before it");
            return false;
        }
        if (item.rest && rest != nullptr) {
            findings_.report(Rule::rest_twice, span(item.name),
                             "only one item can be the rest of a blend",
                             "give the others their percents");
            return false;
        }
        if (item.rest) rest = &item;
        percents = percents || (!item.parts && !item.rest);
        parts = parts || item.parts;
        sum += item.amount;
    }
    if (parts && (percents || rest != nullptr)) {
        const auto odd = std::find_if(items.begin(), items.end(), [&](const BlendItem& item) {
            return item.parts != items[0].parts || item.rest;
        });
        findings_.report(Rule::blend_mixed, odd == items.end() ? at : span(odd->name),
                         rest != nullptr ? "`rest` goes with percents, and this blend has parts"
                                         : "this blend has both percents and parts",
                         "give all its items in percents, or all in parts");
        return false;
    }
    if (!parts) {
        const bool full = std::abs(sum - 1) <= sum_tolerance;
        if (rest != nullptr ? (full || sum > 1) : !full) {
            Finding& finding = findings_.report(
                Rule::blend_sum, at,
                rest != nullptr
                    ? fmt::format("the percents come to {} and leave nothing for "
                                  "`{}`",
                                  show_percent(sum), text(rest->name))
                    : fmt::format("the percents come to {}, not to 100 %", show_percent(sum)),
                rest != nullptr ? "" : hint_on_sum(sum));
            // Any of them may be the one that takes what the others leave; the last is likeliest.
            for (auto item = items.rbegin(); item != items.rend(); ++item) {
                if (rest != nullptr || maybe_a_load(sum) || sum - item->amount >= 1 - sum_tolerance)
                    continue;
                finding.fixes.push_back(
                    put(span(item->whole), fmt::format("rest {}", text(item->name)), false));
            }
            return false;
        }
    }
    for (const BlendItem& item : items) {
        if (item.doubt == 0 || item.amount + item.doubt < 1) continue;
        findings_.report(
            Rule::out_of_range, span(item.name),
            fmt::format("with its doubt `{}` could be all of the blend, or more", text(item.name)));
        return false;
    }
    const double whole = rest != nullptr ? 1 : sum;
    for (BlendItem& item : items) {
        item.amount = item.rest ? 1 - sum : item.amount / whole;
        item.doubt /= whole;
    }
    return true;
}

/// Of what an oil contains: the high ends of a sheet's ranges may come to more than all of it. What
/// has a class keeps its high end, and the others make room.
std::string BlendReader::too_much_hint(const std::vector<BlendItem>& items, double sum) {
    if (refers_ != BlockKind::substance) return {};
    std::vector<std::string> classless;
    double room = 0;
    for (const BlendItem& item : items) {
        const auto none = [&](const Share& share) {
            if (model_.blocks[share.material].kind != BlockKind::substance) return false;
            blocks_.ensure(share.material);
            const auto hazards = model_.hazards_of(share.material);
            return hazards && hazards->empty();
        };
        if (!std::ranges::all_of(item.materials, none)) continue;
        classless.push_back(fmt::format("`{}`", text(item.name)));
        room += item.amount;
    }
    const std::string less = show_percent(sum - 1);
    if (room > sum - 1)
        return fmt::format("if these are the high ends of a sheet's ranges, keep them for what has "
                           "a class, and\nwrite {} less of what has none: {}",
                           less, fmt::join(classless, ", "));
    return fmt::format("if these are the high ends of a sheet's ranges, {} is too much, and what "
                       "has no class can't\nmake room for it: ask the supplier what comes to 100 "
                       "%, or for the label of a candle",
                       less);
}

/// Checks shares of something else: percents only, together no more than all of it.
bool BlendReader::share_out(At value, std::vector<BlendItem>& items) {
    double sum = 0;
    for (const BlendItem& item : items) {
        if (item.bare || item.parts || item.rest) {
            findings_.report(Rule::blend_mixed, span(item.name),
                             fmt::format("`{}` needs its percent here", text(item.name)),
                             fmt::format("write 2% {}, for example", text(item.name)));
            return false;
        }
        sum += item.amount;
    }
    if (sum <= 1 + sum_tolerance) return true;
    findings_.report(
        Rule::blend_sum, span(value),
        fmt::format("the percents come to {}, and can't be over 100 %", show_percent(sum)),
        too_much_hint(items, sum));
    return false;
}

/// Turns fractions by volume into fractions by mass: each goes with its density.
bool BlendReader::weigh_parts(std::vector<BlendItem>& items) {
    double total = 0;
    for (BlendItem& item : items) {
        const std::optional<double> density = density_of(item.materials, span(item.name));
        if (!density) return false;
        item.amount *= *density;
        item.doubt *= *density;
        total += item.amount;
    }
    for (BlendItem& item : items) {
        item.amount /= total;
        item.doubt /= total;
    }
    return true;
}

/// g/ml of a mixture by volume additivity; a wax's solid density counts.
std::optional<double> BlendReader::density_of(const std::vector<Share>& materials, Span at) {
    double volume = 0;
    for (const Share& share : materials) {
        const BlockKind kind_of_block = model_.blocks[share.material].kind;
        const PropertyInfo* info = find_property(kind_of_block, Key::density);
        if (info == nullptr) {
            findings_.report(Rule::wrong_kind, at,
                             fmt::format("`{}` is {}, and has no density to go by volume",
                                         model_.name(share.material), with_article(kind_of_block)));
            return std::nullopt;
        }
        blocks_.ensure(share.material);
        const auto density = model_.density(share.material);
        if (!density) {
            // Where a material needs its density, that has been told at the material.
            if (!info->needed && !model_.unreadable(share.material, Key::density)) {
                findings_.report(Rule::missing_property, at,
                                 fmt::format("parts by volume need the density of `{}`",
                                             model_.name(share.material)),
                                 "give its density, or parts by weight");
            }
            return std::nullopt;
        }
        volume += share.fraction / density->value;
    }
    return 1 / volume;
}

} // namespace waxwright
