#include "plan/from.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "units/show.hpp"

namespace waxwright {

std::string amount_words(const Model& model, const AtHand& supply, double amount) {
    const Quantity& held = supply.held;
    if (held.dimension == dimension::volume) {
        const auto density = model.density(supply.thing);
        return show_in(amount / density->value, held.unit, dimension::volume);
    }
    if (held.dimension == dimension::mass) {
        const UnitId id = plain(held.unit);
        const bool kilograms = id != no_unit && unit(id).symbol == "kg";
        const bool small = kilograms && amount < 1000; // 117 g rather than 0.117 kg
        return show_in(amount, small ? no_unit : id, dimension::mass);
    }
    return show_number(std::floor(amount), 0);
}

FromPlan from_part(const Model& model, std::span<const Need> needs, const Supplies& supplies,
                   const Enough& enough, std::string_view asked) {
    FromPlan plan;
    plan.asked = asked;
    for (const Need& need : enough.short_at_next)
        plan.short_of.emplace_back(model.name(need.thing));
    for (const Need& need : needs) {
        const auto there = supply_of(model, supplies, need.thing);
        const auto supply =
            std::find_if(supplies.all.begin(), supplies.all.end(),
                         [&](const AtHand& each) { return each.thing == need.thing; });
        if (!there) {
            plan.assumed.emplace_back(model.name(need.thing));
        } else if (supply != supplies.all.end()) {
            const double left = std::max(0.0, *there - need.amount);
            plan.left.push_back(
                fmt::format("{} {}", model.name(need.thing), amount_words(model, *supply, left)));
        }
    }
    return plan;
}

} // namespace waxwright
