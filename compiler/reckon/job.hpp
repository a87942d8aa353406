// What is to be made: a recipe on its own, or a line of a batch, with the bench it is made on.
#pragma once

#include <cstdint>
#include <vector>

#include "findings/registry.hpp"
#include "model/model.hpp"

namespace waxwright {

struct Job {
    BlockId recipe = no_block;
    BlockId batch = no_block;  // where it is a line of a batch
    std::int64_t count = 0;    // vessels; 0 where the recipe's own is unreadable
    Span count_at;             // `makes`, or the batch's line
    BlockId vessel = no_block; // the recipe's, in a batch too
    Span vessel_at;
    BlockId pot = no_block;
    std::int64_t pots_at_once = 1;
    Span pot_at; // the recipe's or batch's head where there is no pot; so for the scale
    BlockId scale = no_block;
    Span scale_at;
    // Batches pour it, and each has a pot or a melter that says how it is heated.
    bool heated_by_batches = false;
    bool drawn = false; // the wax of the pots is drawn from a melter of the batch's
    // Its batch has a melter, and its pots melt their own wax all the same: leftovers would scent
    // the melter's wax for all others.
    bool beside_melter = false;

    // False where it was said and can't be read: nothing that hangs on it is worked out.
    bool pot_known = true;
    bool scale_known = true;
};

/// The job of a recipe by itself; `count` over 0 takes the place of `makes`.
Job job_of_recipe(const Model& model, BlockId recipe, std::int64_t count = 0);
/// One job for each line of a batch, in its order. Its pot, scale, spare and thermometer-error
/// replace the recipes' own.
std::vector<Job> jobs_of_batch(const Model& model, BlockId batch);
/// True if the batch says what a rule hangs on. What makes a line weigh out otherwise (`bench`) is
/// of the line, and not asked here: see as_by_itself.
bool batch_says(const Model& model, BlockId batch, HangsOn what);
/// True if a line of a batch weighs out what its recipe does by itself: as many vessels, and no
/// pot, scale or spare of the batch's.
bool as_by_itself(const Model& model, BlockId batch, const Count& line);

} // namespace waxwright
