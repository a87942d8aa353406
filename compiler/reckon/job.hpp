// What is to be made: a recipe on its own, or a line of a batch, with the bench it is made on.
#pragma once

#include <cstdint>
#include <vector>

#include "model/model.hpp"

namespace waxwright {

struct Job {
    BlockId recipe;
    BlockId batch = no_block; // where it is a line of a batch
    std::int64_t count = 0;   // vessels; 0 where the recipe's own is unreadable
    Span count_at;            // `makes`, or the batch's line
    BlockId vessel = no_block;
    Span vessel_at;
    BlockId pot = no_block;
    std::int64_t pots_at_once = 1;
    Span pot_at;
    BlockId scale = no_block;
    Span scale_at;
    double spare = 0;                // fraction
    double thermometer_error = 3;    // C°
    double room = 20;                // °C

    std::uint32_t batch_subject() const { return batch; }
};

/// The job of a recipe by itself; `count` over 0 takes the place of `makes`.
Job job_of_recipe(const Model& model, BlockId recipe, std::int64_t count = 0);
/// One job for each line of a batch, in its order. Its pot, scale, spare and thermometer-error
/// replace the recipes' own.
std::vector<Job> jobs_of_batch(const Model& model, BlockId batch);

} // namespace waxwright
