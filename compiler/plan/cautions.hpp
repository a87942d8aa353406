// Which findings a sheet repeats under 'Dangers of this batch' and 'More to mind', found by recipe.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "findings/finding.hpp"
#include "model/model.hpp"
#include "plan/plan.hpp"

namespace waxwright {

/// Built once for the findings of a run, so that each of ten thousand sheets needn't go through all
/// of them. It is of those findings as they are then, settled.
class CautionIndex {
public:
    explicit CautionIndex(const Findings& findings);

    /// The lines for these recipes, on their own or (with `batch`) as the lines of that batch; the
    /// findings are those it was made of.
    std::vector<CautionLine> lines(const Model& model, const Findings& findings,
                                   std::span<const BlockId> recipes, BlockId batch) const;

private:
    /// A finding is about this recipe; `of` is what it is looked up by, the recipe or the batch.
    struct Mention {
        std::uint32_t of;
        std::size_t finding;
        std::size_t words; // 0: the finding's own; from 1 on those of its `also`
        std::uint32_t recipe;

        friend auto operator<=>(const Mention&, const Mention&) = default; // NOLINT: no null in it
    };
    void mention(std::size_t finding, std::size_t words, const std::vector<Subject>& subjects);
    static void collect(const std::vector<Mention>& from, std::uint32_t of,
                        std::vector<Mention>& into);

    std::vector<Mention> by_recipe_; // what is so whatever batch it is in
    std::vector<Mention> by_batch_;
};

} // namespace waxwright
