#include "check/doubt.hpp"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// A place where a rule has said all that is to be said: told itself, in doubt already, or, for the
/// ceiling, told for the thermometer's sake.
bool is_told(const Findings& findings, std::size_t from, const Finding& finding) {
    const Findings::List& all = findings.all();
    return std::any_of(all.begin() + static_cast<std::ptrdiff_t>(std::min(from, all.size())),
                       all.end(), [&](const Finding& told) {
                           if (!(told.at == finding.at)) return false;
                           if (told.rule == finding.rule) return true;
                           if (finding.rule == Rule::over_ceiling &&
                               told.rule == Rule::near_ceiling) {
                               return true;
                           }
                           return told.doubted == finding.rule;
                       });
}

/// The doubtful figures that bring it near, those first that move it most.
std::string doubtful(const Model& model, const Corners& corners, std::size_t measure) {
    constexpr std::size_t most_named = 3;
    std::vector<std::size_t> moving;
    for (std::size_t i = 0; i < corners.figures().size(); ++i) {
        if (corners.influence(i, measure) > 0) moving.push_back(i);
    }
    std::stable_sort(moving.begin(), moving.end(), [&](std::size_t a, std::size_t b) {
        return corners.influence(a, measure) > corners.influence(b, measure);
    });
    std::string words;
    for (std::size_t i = 0; i < std::min(moving.size(), most_named); ++i) {
        const UncertainInput& figure = corners.figures()[moving[i]];
        words += fmt::format("{}{} is {}", i > 0 ? ", " : "", name_of(model, figure),
                             show(figure.written));
    }
    return words + (moving.size() > most_named ? ", and more" : "");
}

void report_doubt(const Finding& there, std::string because, const Job& job, Findings& findings) {
    Finding& finding =
        report(findings, job, Rule::within_doubt, there.at,
               fmt::format("if a doubtful figure is off, this would be `{}`: {}",
                           info(there.rule).name, there.message),
               std::move(because) + "; measure it, or choose a figure clear of the limit");
    finding.doubted = there.rule;
    finding.related = there.related;
}

bool is_told_in_doubt(Rule rule) {
    const auto limits = all_limits();
    return std::any_of(limits.begin(), limits.end(), [&](const LimitInfo& limit) {
        return limit.rule == rule && limit.in_doubt;
    });
}

} // namespace

void check_doubt(const Model& model, const Reckoning& reckoning, Corners& corners, std::size_t from,
                 Findings& findings) {
    for (std::size_t i = 0; i < corners.limits().size(); ++i) {
        const LimitCheck& check = corners.limits()[i];
        if (!is_told_in_doubt(check.rule)) continue;
        if (!is_looked_at(model, reckoning.in.job, check)) continue;
        const std::size_t measure = static_cast<std::size_t>(Measured::limits) + i;
        const Ends ends = corners.corner(measure, 1);
        const bool moved = std::any_of(ends.begin(), ends.end(), [](auto end) { return end != 0; });
        // With room left there, the rule would find nothing.
        if (!moved || !(corners.at(ends)[measure] >= -1e-6)) continue;
        const Reckoning there = reckon(corners.inputs_at(ends));
        LimitChecks checks;
        collect_limit_checks(there.in, there, checks);
        if (checks[i].silent || !is_broken(checks[i])) continue;
        Findings told;
        report_limit(model, there, checks[i], told);
        for (const Finding& finding : told.all()) {
            if (is_told(findings, from, finding)) continue;
            report_doubt(finding, doubtful(model, corners, measure), reckoning.in.job, findings);
        }
    }
}

} // namespace waxwright
