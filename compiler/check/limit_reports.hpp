// The rules that hold a figure against a limit: what is told where one is broken. Which figure
// against which limit is in reckon/limits.cpp.
#pragma once

#include "findings/finding.hpp"
#include "reckon/limits.hpp"

namespace waxwright {

/// Tells every broken check that is not silent. Of a line of a batch only the rules that hang on
/// what the batch has in the place of its recipe's own: the rest its recipe has been told.
void check_limits(const Model& model, const Reckoning& reckoning, const LimitChecks& checks,
                  Findings& findings);
/// True if the rule is looked at for this job.
bool is_looked_at(const Model& model, const Job& job, const LimitCheck& check);
/// Tells one.
void report_limit(const Model& model, const Reckoning& reckoning, const LimitCheck& check,
                  Findings& findings);

/// Each is told by its family's file, for a check that is broken.
using ReportLimit = void(const Model& model, const Reckoning& reckoning, const LimitCheck& check,
                         Findings& findings);
#define RULE(identifier, name, family, severity, hangs_on, reader, about)
#define LIMIT(identifier, name, family, severity, hangs_on, reader, way, in_doubt, about)          \
    ReportLimit report_##identifier;
#include "findings/rules.def"

} // namespace waxwright
