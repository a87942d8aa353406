#include "plan/plan.hpp"

#include <algorithm>

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
    }
    return "";
}

std::span<const PotPlan> pots_of(const Plan& plan, std::size_t recipe) {
    return part_of(plan.pots, recipe);
}

std::span<const StepPlan> steps_of(const Plan& plan, std::size_t recipe) {
    return part_of(plan.steps, recipe);
}

} // namespace waxwright
