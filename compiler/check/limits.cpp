#include "check/limits.hpp"

#include <algorithm>
#include <iterator>

namespace waxwright {

namespace {

struct LimitRule {
    Rule rule;
    TellLimit* tell;
};

constexpr LimitRule rules[] = {
#define RULE(identifier, name, family, severity, hangs_on, reader, about)
#define LIMIT(identifier, name, family, severity, hangs_on, reader, way, in_doubt, about)          \
    {Rule::identifier, tell_##identifier},
#include "findings/rules.def"
};

} // namespace

bool is_looked_at(const Model& model, const Job& job, Rule rule) {
    return job.batch == no_block || batch_says(model, job.batch, info(rule).hangs_on);
}

void tell_limit(const Model& model, const Reckoning& reckoning, const LimitCheck& check,
                Findings& findings) {
    const auto* rule = std::find_if(std::begin(rules), std::end(rules),
                                    [&](const LimitRule& each) { return each.rule == check.rule; });
    rule->tell(model, reckoning, check, findings);
}

void check_limits(const Model& model, const Reckoning& reckoning, const LimitChecks& checks,
                  Findings& findings) {
    for (const LimitCheck& check : checks) {
        if (check.silent || !is_broken(check)) continue;
        if (!is_looked_at(model, reckoning.in.job, check.rule)) continue;
        tell_limit(model, reckoning, check, findings);
    }
}

} // namespace waxwright
