#include "check/doubt.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "check/check.hpp"
#include "check/margins.hpp"
#include "check/tell.hpp"
#include "reckon/doubt.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// The rules that hold a figure against a limit. Those that only keep a distance from one, as
/// `load-near-limit`, and those for tastes, as `pour-at-range`, are left to the figures as written.
bool is_limit(Rule rule) {
    switch (rule) {
    case Rule::load_over_limit:
    case Rule::oil_over_limit:
    case Rule::additive_over_limit:
    case Rule::ifra_cat_12_over:
    case Rule::over_ceiling:
    case Rule::near_wax_flash:
    case Rule::scent_over_flash_on_heat:
    case Rule::rewarm_over_flash:
    case Rule::not_melted:
    case Rule::scent_cold:
    case Rule::pour_cold:
    case Rule::bath_too_cool:
    case Rule::overfull:
    case Rule::headspace_thin:
    case Rule::thermal_shock:
    case Rule::wick_too_big:
    case Rule::wick_too_small:
    case Rule::pot_too_small:
        return true;
    default:
        return false;
    }
}

/// A place where a rule has said all that is to be said: told itself, in doubt already, or, for the
/// ceiling, told for the thermometer's sake.
bool is_told(const Findings& findings, std::size_t from, const Finding& finding) {
    const std::vector<Finding>& all = findings.all();
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
std::string doubtful(const Model& model, const Doubts& doubts, const Extremes& extremes,
                     std::size_t margin) {
    constexpr std::size_t most_named = 3;
    std::vector<std::size_t> moving;
    for (std::size_t i = 0; i < doubts.knobs().size(); ++i) {
        if (extremes.influence(i, margin) > 0) moving.push_back(i);
    }
    std::stable_sort(moving.begin(), moving.end(), [&](std::size_t a, std::size_t b) {
        return extremes.influence(a, margin) > extremes.influence(b, margin);
    });
    std::string words;
    for (std::size_t i = 0; i < std::min(moving.size(), most_named); ++i) {
        const Knob& knob = doubts.knobs()[moving[i]];
        words +=
            fmt::format("{}{} is {}", i > 0 ? ", " : "", name_of(model, knob), show(knob.written));
    }
    return words + (moving.size() > most_named ? ", and more" : "");
}

void tell_doubt(const Finding& there, std::string because, const Job& job, Findings& findings) {
    Finding& finding =
        tell(findings, job, Rule::within_doubt, there.at,
             fmt::format("at an end of the doubt this would be `{}`: {}", info(there.rule).name,
                         there.message),
             std::move(because) + "; measure it, or choose a figure clear of the limit");
    finding.doubted = there.rule;
    finding.related = there.related;
}

} // namespace

void check_doubt(Model& model, const Reckoning& reckoning, std::size_t from, Findings& findings) {
    const Doubts doubts(model, reckoning.job);
    if (!doubts.any()) return;
    Extremes extremes(doubts, reckoning, [&model](const Reckoning& r, std::vector<double>& into) {
        margins(model, r, into);
    });
    std::vector<double> as_written;
    margins(model, reckoning, as_written);
    std::vector<Ends> seen;
    for (std::size_t margin = 0; margin < as_written.size(); ++margin) {
        const Ends ends = extremes.corner(margin, 1);
        const bool moved = std::any_of(ends.begin(), ends.end(), [](auto end) { return end != 0; });
        if (!moved || std::find(seen.begin(), seen.end(), ends) != seen.end()) continue;
        // With room left there, no rule would find anything.
        if (extremes.at(ends)[margin] < -1e-6) continue;
        seen.push_back(ends);
        Findings there;
        doubts.with(ends, [&](const Reckoning& r) { check_job(model, r, there); });
        for (const Finding& finding : there.all()) {
            if (!is_limit(finding.rule) || finding.severity == Severity::note) continue;
            if (is_told(findings, from, finding)) continue;
            tell_doubt(finding, doubtful(model, doubts, extremes, margin), reckoning.job, findings);
        }
    }
}

} // namespace waxwright
