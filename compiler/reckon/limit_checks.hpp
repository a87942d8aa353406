// What the families of limits share: adding a check, and the functions that the table names. Only
// the limits_*.cpp of this folder include this.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>

#include "reckon/compare.hpp"
#include "reckon/limits.hpp"

namespace waxwright {

// Each of the registry's limits has a function of its name that adds its checks.
#define RULE(identifier, name, family, severity, hangs_on, reader, about)
#define LIMIT(identifier, name, family, severity, hangs_on, reader, way, in_doubt, about)          \
    void add_checks_##identifier(const Inputs& in, const Amounts& a, const LimitInfo& self,        \
                                 LimitChecks& into);
#include "findings/rules.def"

inline constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

using Maybe = std::optional<double>;

/// Adds a check of the rule's item; a value or a limit that isn't known is never broken. `silent`:
/// another rule tells it, or the figure doesn't count here.
inline void add(LimitChecks& into, const LimitInfo& self, std::size_t item, Maybe value,
                Maybe limit, bool silent = false) {
    into.push_back({self.rule, self.way, silent, static_cast<std::uint32_t>(item),
                    value.value_or(unknown), limit.value_or(unknown)});
}

} // namespace waxwright
