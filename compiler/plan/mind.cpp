#include "plan/mind.hpp"

#include <algorithm>

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

/// True if the batch puts something in the place of what a recipe's own finding hangs on: then its
/// lines have been checked for it anew, and the recipe's own is of no use on the batch's sheet.
bool is_replaced(const Model& model, BlockId batch, Rule rule) {
    const auto says = [&](Key key) { return model.entry(batch, key) != nullptr; };
    if (info(rule).family == Family::bench) return true; // the count is another
    switch (rule) {
    case Rule::scent_over_flash_on_heat:
    case Rule::scent_near_flash_on_heat:
    case Rule::scent_over_flash:
    case Rule::rewarm_over_flash:
    case Rule::microwave:
    case Rule::direct_heat:
    case Rule::bath_too_cool:
    case Rule::heat_unsaid:
        return says(Key::pot) || says(Key::melter);
    case Rule::near_ceiling:
        return says(Key::thermometer_error);
    case Rule::thermal_shock:
        return says(Key::room);
    default:
        return false;
    }
}

} // namespace

MindIndex::MindIndex(const Findings& findings) : findings_(findings) {
    const std::vector<Finding>& all = findings.all();
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!belongs_on_sheet(all[i])) continue;
        for (const Subject& subject : all[i].subjects) {
            if (subject.batch == nobody) {
                by_recipe_.push_back({subject.recipe, i, subject.recipe});
            } else {
                by_batch_.push_back({subject.batch, i, subject.recipe});
            }
        }
    }
    std::sort(by_recipe_.begin(), by_recipe_.end());
    std::sort(by_batch_.begin(), by_batch_.end());
}

void MindIndex::collect(const std::vector<Mention>& from, std::uint32_t of,
                        std::vector<Mention>& into) {
    auto next = std::lower_bound(from.begin(), from.end(), Mention{of, 0, 0});
    for (; next != from.end() && next->of == of; ++next) {
        into.push_back(*next);
    }
}

std::vector<MindLine> MindIndex::lines(const Model& model, std::span<const BlockId> recipes,
                                       BlockId batch) const {
    std::vector<Mention> mentions;
    for (const BlockId recipe : recipes) {
        collect(by_recipe_, recipe, mentions);
    }
    if (batch != no_block) {
        std::erase_if(mentions, [&](const Mention& mention) {
            return is_replaced(model, batch, findings_.all()[mention.finding].rule);
        });
        collect(by_batch_, batch, mentions);
    }
    std::stable_sort(mentions.begin(), mentions.end(),
                     [](const Mention& a, const Mention& b) { return a.finding < b.finding; });

    std::vector<MindLine> lines;
    for (std::size_t i = 0; i < mentions.size();) {
        const std::size_t index = mentions[i].finding;
        const Finding& finding = findings_.all()[index];
        MindLine line{finding.rule, finding.severity, finding.message,
                      finding.hint, finding.because,  {}};
        std::vector<bool> meant(recipes.size());
        for (; i < mentions.size() && mentions[i].finding == index; ++i) {
            for (std::size_t r = 0; r < recipes.size(); ++r) {
                if (recipes[r] == mentions[i].recipe) meant[r] = true;
            }
        }
        const bool all = std::find(meant.begin(), meant.end(), false) == meant.end();
        for (std::size_t r = 0; r < recipes.size() && !all; ++r) {
            if (meant[r]) line.recipes.emplace_back(model.name(recipes[r]));
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

} // namespace waxwright
