#include "plan/plan.hpp"

namespace waxwright {

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

} // namespace waxwright
