// The straight line from text to plans, written once: commands, tests, the fuzzer and an editor
// all go along it.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "findings/finding.hpp"
#include "model/build.hpp"
#include "plan/mind.hpp"
#include "plan/picture.hpp"
#include "plan/plan.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// A batch and its lines, worked out.
struct BatchReckoning {
    BlockId batch;
    std::vector<Reckoning> lines;
};

/// Everything that is known of the files of a run. The sources must outlive it, and it stays where
/// it is once work() has been done: the index of its findings points into it.
struct Workshop {
    Model model;
    Findings findings;
    std::vector<Reckoning> recipes; // of all files that are no library, in the order written
    std::vector<BatchReckoning> batches;

    /// What the sheets repeat of the findings; made by work().
    std::optional<MindIndex> mind;
};

/// Text to model: parses the roots in `sources` and what they use. Syntax, units, names, blends.
Workshop open_workshop(Sources& sources, const ReadFile& read);

/// Model to findings: reckons every recipe and batch, checks each, settles the findings. With
/// `make` over 0 that many are made of `recipe`, or of every recipe for no_block.
void work(Workshop& workshop, BlockId recipe = no_block, std::int64_t make = 0);

/// The plan of a recipe or a batch. Only where work() found no error.
Plan plan_of(const Workshop& workshop, BlockId recipe_or_batch);
Plan plan_of(const Workshop& workshop, const Reckoning& recipe);

/// The heat plan of a filling of each recipe of the plan, in its order.
std::vector<HeatPicture> pictures_of(const Workshop& workshop, BlockId recipe_or_batch);

} // namespace waxwright
