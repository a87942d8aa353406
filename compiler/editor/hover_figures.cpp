// Figures: what each comes to, in the other units; and at a step, which limits are set to its heat.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "editor/amounts.hpp"
#include "editor/hover_parts.hpp"
#include "emit/material_units.hpp"
#include "reckon/limits.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// What people at the bench count in, small before large.
constexpr std::string_view common_units[] = {"g",  "oz", "lb", "ml", "fl oz", "cup", "mm", "in",
                                             "°C", "°F", "C°", "F°", "min",   "h",   "day"};

/// A number that says something: not a thousandth of a pound, nor a day in seconds.
bool reads_well(double number) {
    constexpr double least = 0.05, most = 9999.5;
    const double size = std::abs(number);
    return number == 0 || (size >= least && size < most);
}

/// The shortest and the longest figure that the spot lies in.
struct Around {
    const Figure* nearest = nullptr;
    const Figure* whole = nullptr;
};

std::uint32_t length(Span at) {
    return at.end - at.begin;
}

Around figures_at(const Spot& spot) {
    Around around;
    for (const Figure& figure : spot.asked.look().notebook.figures_in(spot.asked.file)) {
        if (!spot.covers(figure.at)) continue;
        const NodeId doubt = spot.within(Kind::doubt);
        const bool is_part =
            doubt != Tree::no_node && length(figure.at) < length(spot.tree().span(doubt));
        if (is_part) continue; // `0.92 g/ml +- 0.02` is one figure
        if (around.nearest == nullptr || length(figure.at) < length(around.nearest->at))
            around.nearest = &figure;
        if (around.whole == nullptr || length(figure.at) > length(around.whole->at))
            around.whole = &figure;
    }
    return around;
}

std::string_view limit_words(Way way) {
    switch (way) {
    case Way::most:
        return "at most";
    case Way::under:
        return "under";
    case Way::least:
        break;
    }
    return "at least";
}

/// What the limits of the recipe say to the heat of the step at the spot, each temperature once.
void tell_limits(const Spot& spot, Card& card) {
    const NodeId clause = spot.within(Kind::clause);
    const BlockId id = spot.block();
    if (clause == Tree::no_node || id == no_block) return;
    const auto steps = spot.model().steps_of(id);
    const auto step = std::ranges::find(steps, spot.tree().span(clause), &Step::at);
    if (step == steps.end() || step->temperature() == nullptr) return;
    const auto reckoning = reckoning_in(spot.asked.look(), id);
    if (!reckoning) return;
    LimitChecks checks;
    collect_limit_checks(reckoning->in, *reckoning, checks);
    for (const LimitCheck& check : checks) {
        if (info(check.rule).family != Family::heat || check.silent || std::isnan(check.limit))
            continue;
        const bool of_step = check.item == static_cast<std::uint32_t>(step - steps.begin()) &&
                             std::abs(check.value - step->temperature()->value()) < 1e-9;
        if (!of_step) continue;
        card.item(fmt::format("`{}`: {} {}", info(check.rule).name, limit_words(check.way),
                              show_temperature(check.limit)));
    }
}

/// The value of the property as a whole, said again, where that is more than the figure that was
/// told: `260 g of water` is a volume.
bool tell_value(const Entry& entry, const Figure* told, const Spot& spot, Card& card) {
    const auto* figure = std::get_if<Figure>(&entry.value);
    const bool same = figure != nullptr && told != nullptr &&
                      figure->quantity.dimension == told->quantity.dimension;
    const bool plain = same || std::holds_alternative<Range>(entry.value);
    std::string again = plain ? std::string() : said_again(spot.model(), entry);
    if (!plain && figure != nullptr && figure->quantity.dimension == dimension::volume) {
        Quantity volume = figure->quantity; // of so many grams of water
        volume.unit = find_unit("ml");
        again = fmt::format("{}, {}", show(volume), in_other_units(volume));
    }
    if (again.empty()) return false;
    card.say(fmt::format("{} = {}", Card::code(spot.model().sources.slice(entry.at)), again));
    return true;
}

} // namespace

std::string in_other_units(const Quantity& quantity) {
    std::string text;
    for (const std::string_view symbol : common_units) {
        const UnitId id = find_unit(symbol);
        if (unit(id).dimension != quantity.dimension || id == plain(quantity.unit)) continue;
        if (!quantity.dimension.point && !reads_well(from_inside(quantity.value, id))) continue;
        Quantity other = quantity;
        other.unit = id;
        text += fmt::format("{}{}", text.empty() ? "" : ", ", show(other));
    }
    return text;
}

std::optional<Span> tell_figure(const Spot& spot, Card& card) {
    const Around around = figures_at(spot);
    std::optional<Span> at;
    if (around.nearest != nullptr) {
        const std::string others = in_other_units(around.nearest->quantity);
        const bool part = around.whole->at != around.nearest->at;
        const auto source = [&](Span span) { return Card::code(spot.model().sources.slice(span)); };
        if (!others.empty()) card.say(fmt::format("{} = {}", source(around.nearest->at), others));
        if (part) {
            const std::string more = in_other_units(around.whole->quantity);
            card.say(fmt::format("{} comes to {}{}{}", source(around.whole->at),
                                 show(around.whole->quantity), more.empty() ? "" : " = ", more));
        }
        if (!others.empty() || part) at = around.nearest->at;
    }
    if (const Entry* entry = spot.entry(); entry != nullptr && spot.covers(entry->at)) {
        if (tell_value(*entry, around.nearest, spot, card) && !at) at = entry->at;
    }
    if (at) tell_limits(spot, card);
    return at;
}

} // namespace waxwright
