#include "check/limit_reports.hpp"

#include <algorithm>
#include <iterator>

namespace waxwright {

namespace {

struct LimitRule {
    Rule rule;
    ReportLimit* report;
};

constexpr LimitRule rules[] = {
#define RULE(identifier, name, family, severity, hangs_on, reader, about)
#define LIMIT(identifier, name, family, severity, hangs_on, reader, way, in_doubt, about)          \
    {Rule::identifier, report_##identifier},
#include "findings/rules.def"
};

} // namespace

bool is_looked_at(const Model& model, const Job& job, const LimitCheck& check) {
    if (job.batch == no_block) return true;
    // What is kept back of a filling hangs on how many the line makes.
    const bool of_count = check.rule == Rule::pot_too_small && check.item == kept_of_filling;
    if (of_count && !as_by_itself(model, job.batch, {job.recipe, job.count, job.count_at})) {
        return true;
    }
    return batch_says(model, job.batch, info(check.rule).hangs_on);
}

void report_limit(const Model& model, const Reckoning& reckoning, const LimitCheck& check,
                  Findings& findings) {
    const auto* rule = std::find_if(std::begin(rules), std::end(rules),
                                    [&](const LimitRule& each) { return each.rule == check.rule; });
    rule->report(model, reckoning, check, findings);
}

void check_limits(const Model& model, const Reckoning& reckoning, const LimitChecks& checks,
                  Findings& findings) {
    for (const LimitCheck& check : checks) {
        if (check.silent || !is_broken(check)) continue;
        if (!is_looked_at(model, reckoning.in.job, check)) continue;
        report_limit(model, reckoning, check, findings);
    }
}

} // namespace waxwright
