#include "plan/plan.hpp"

#include <algorithm>
#include <numeric>

namespace waxwright {

namespace {

template <typename Part>
std::span<const Part> part_of(const std::vector<Part>& parts, std::size_t recipe) {
    const auto first = std::partition_point(parts.begin(), parts.end(),
                                            [&](const Part& part) { return part.recipe < recipe; });
    const auto last = std::partition_point(first, parts.end(),
                                           [&](const Part& part) { return part.recipe == recipe; });
    return {first, last};
}

} // namespace

std::string_view word(PlanKind kind) {
    switch (kind) {
    case PlanKind::wax:
        return "wax";
    case PlanKind::additive:
        return "additive";
    case PlanKind::oil:
        return "oil";
    case PlanKind::scent:
        return "scent";
    case PlanKind::leftover:
        return "leftover";
    }
    return "";
}

std::vector<std::size_t> worked_order(const Plan& plan) {
    std::vector<std::size_t> order(plan.recipes.size());
    std::iota(order.begin(), order.end(), 0);
    std::vector<std::size_t> begins(order.size(), plan.day.rows.size());
    for (std::size_t i = plan.day.rows.size(); i-- > 0;) {
        if (plan.day.rows[i].filling > 0) begins[plan.day.rows[i].recipe] = i;
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return begins[a] < begins[b]; });
    return order;
}

std::int64_t fillings_of(const Plan& plan, std::size_t recipe) {
    std::int64_t sum = 0;
    for (const PotPlan& pot : pots_of(plan, recipe))
        sum += pot.pots;
    return sum;
}

std::span<const PotPlan> pots_of(const Plan& plan, std::size_t recipe) {
    return part_of(plan.pots, recipe);
}

std::span<const StepPlan> steps_of(const Plan& plan, std::size_t recipe) {
    return part_of(plan.steps, recipe);
}

} // namespace waxwright
