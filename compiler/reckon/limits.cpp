#include "reckon/limits.hpp"

#include <cmath>

#include "reckon/limit_checks.hpp"

namespace waxwright {

namespace {

enum class InDoubt : bool { no, yes };

constexpr LimitInfo table[] = {
#define RULE(identifier, name, family, severity, hangs_on, reader, about)
#define LIMIT(identifier, name, family, severity, hangs_on, reader, way, in_doubt, about)          \
    {Rule::identifier, Way::way, InDoubt::in_doubt == InDoubt::yes, add_checks_##identifier},
#include "findings/rules.def"
};

} // namespace

bool is_broken(const LimitCheck& check) {
    if (std::isnan(check.value) || std::isnan(check.limit)) return false;
    const bool equal = nearly_equal(check.value, check.limit);
    switch (check.way) {
    case Way::most:
        return check.value > check.limit && !equal;
    case Way::under:
        return check.value > check.limit || equal;
    case Way::least:
        return check.value < check.limit && !equal;
    }
    return false;
}

double beyond(const LimitCheck& check) {
    return check.way == Way::least ? check.limit - check.value : check.value - check.limit;
}

std::span<const LimitInfo> all_limits() {
    return table;
}

void collect_limit_checks(const Inputs& in, const Amounts& amounts, LimitChecks& into) {
    into.clear();
    for (const LimitInfo& limit : table)
        limit.add(in, amounts, limit, into);
}

} // namespace waxwright
