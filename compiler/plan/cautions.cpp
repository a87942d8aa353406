#include "plan/cautions.hpp"

#include <algorithm>
#include <set>
#include <tuple>
#include <unordered_map>
#include <unordered_set>

#include "reckon/job.hpp"

namespace waxwright {

namespace {

/// A warning, a note for whoever stands at the stove, and whatever was allowed.
bool belongs_on_sheet(const Finding& finding) {
    if (finding.because || finding.severity == Severity::warning) return true;
    return finding.severity == Severity::note && info(finding.rule).reader == NoteFor::stove;
}

/// What a batch has in the place of its recipes' own, and so which of their findings its lines have
/// been checked for anew: those are of no use on the batch's sheet.
class Replaced {
public:
    Replaced(const Model& model, BlockId batch) : model_(model), batch_(batch) {
        for (const Count& line : model.pours_of(batch)) {
            if (as_by_itself(model, batch, line)) as_by_itself_.insert(line.block);
        }
    }

    bool is_replaced(Rule rule, BlockId recipe) const {
        const HangsOn what = info(rule).hangs_on;
        const bool of_line = what == HangsOn::bench || what == HangsOn::pot_or_spare;
        return of_line ? !as_by_itself_.contains(recipe) : batch_says(model_, batch_, what);
    }

private:
    const Model& model_;
    BlockId batch_;
    std::unordered_set<BlockId> as_by_itself_; // recipes with a line that makes what they make
};

} // namespace

CautionIndex::CautionIndex(const Findings& findings) {
    const Findings::List& all = findings.all();
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!belongs_on_sheet(all[i])) continue;
        mention(i, 0, all[i].subjects);
        for (std::size_t j = 0; j < all[i].also.size(); ++j)
            mention(i, j + 1, all[i].also[j].subjects);
    }
    std::sort(by_recipe_.begin(), by_recipe_.end());
    std::sort(by_batch_.begin(), by_batch_.end());
}

void CautionIndex::mention(std::size_t finding, std::size_t words,
                           const std::vector<Subject>& subjects) {
    for (const Subject& subject : subjects) {
        const bool alone = subject.batch == nobody;
        (alone ? by_recipe_ : by_batch_)
            .push_back({alone ? subject.recipe : subject.batch, finding, words, subject.recipe});
    }
}

void CautionIndex::collect(const std::vector<Mention>& from, std::uint32_t of,
                           std::vector<Mention>& into) {
    auto next = std::lower_bound(from.begin(), from.end(), Mention{of, 0, 0, 0});
    for (; next != from.end() && next->of == of; ++next) {
        into.push_back(*next);
    }
}

std::vector<CautionLine> CautionIndex::lines(const Model& model, const Findings& findings,
                                             std::span<const BlockId> recipes,
                                             BlockId batch) const {
    std::unordered_map<BlockId, std::size_t> places; // of each recipe, its first line
    std::vector<Mention> mentions;
    for (std::size_t i = 0; i < recipes.size(); ++i) {
        if (places.emplace(recipes[i], i).second) collect(by_recipe_, recipes[i], mentions);
    }
    if (batch != no_block) {
        const Replaced replaced(model, batch);
        std::erase_if(mentions, [&](const Mention& mention) {
            const Finding& finding = findings.all()[mention.finding];
            return replaced.is_replaced(finding.doubted.value_or(finding.rule), mention.recipe);
        });
        collect(by_batch_, batch, mentions);
    }
    std::stable_sort(mentions.begin(), mentions.end(), [](const Mention& a, const Mention& b) {
        return std::tie(a.finding, a.words) < std::tie(b.finding, b.words);
    });

    std::vector<CautionLine> lines;
    for (std::size_t i = 0; i < mentions.size();) {
        const Mention about = mentions[i];
        const Finding& finding = findings.all()[about.finding];
        CautionLine line{finding.rule, finding.severity, finding.message,
                         finding.hint, finding.because,  {}};
        if (about.words > 0) {
            line.text = finding.also[about.words - 1].message;
            line.hint = finding.also[about.words - 1].hint;
        }
        std::set<std::size_t> meant; // in the order of the lines
        for (; i < mentions.size() && mentions[i].finding == about.finding &&
               mentions[i].words == about.words;
             ++i) {
            const auto place = places.find(mentions[i].recipe);
            if (place != places.end()) meant.insert(place->second);
        }
        if (meant.size() != places.size()) {
            for (const std::size_t place : meant)
                line.recipes.emplace_back(model.name(recipes[place]));
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

} // namespace waxwright
