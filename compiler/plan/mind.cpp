#include <algorithm>

#include "plan/parts.hpp"

namespace waxwright {

namespace {

/// A warning, a note that has to do with heat or vessels, and whatever was allowed. Other notes
/// are for whoever writes the file.
bool belongs_on_sheet(const Finding& finding) {
    if (finding.because || finding.severity == Severity::warning) return true;
    const Family family = info(finding.rule).family;
    return finding.severity == Severity::note &&
           (family == Family::heat || family == Family::vessel);
}

/// For a recipe by itself only what is so whatever batch it is in; for a batch that and its own.
bool is_about(const Subject& subject, std::span<const BlockId> recipes, BlockId batch) {
    if (subject.batch != nobody) return subject.batch == batch;
    return std::find(recipes.begin(), recipes.end(), subject.recipe) != recipes.end();
}

} // namespace

std::vector<MindLine> mind_lines(const Model& model, const Findings& findings,
                                 std::span<const BlockId> recipes, BlockId batch) {
    std::vector<MindLine> lines;
    std::vector<bool> meant(recipes.size());
    for (const Finding& finding : findings.all()) {
        if (!belongs_on_sheet(finding)) continue;
        bool any = false;
        meant.assign(recipes.size(), false);
        for (const Subject& subject : finding.subjects) {
            if (!is_about(subject, recipes, batch)) continue;
            any = true;
            for (std::size_t i = 0; i < recipes.size(); ++i) {
                if (recipes[i] == subject.recipe) meant[i] = true;
            }
        }
        if (!any) continue;
        MindLine line{finding.rule, finding.severity, finding.message,
                      finding.hint, finding.because,  {}};
        const bool all = std::find(meant.begin(), meant.end(), false) == meant.end();
        for (std::size_t i = 0; i < recipes.size() && !all; ++i) {
            if (meant[i]) line.recipes.emplace_back(model.name(recipes[i]));
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

} // namespace waxwright
