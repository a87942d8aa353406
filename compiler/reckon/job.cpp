#include "reckon/job.hpp"

#include <algorithm>

namespace waxwright {

namespace {

/// Which block's property counts, a batch's before its recipe's own.
struct Said {
    BlockId block = no_block; // no_block where neither says it
    bool known = true;        // false if one of them said it and it can't be read
};

Said said(const Model& model, const Job& job, Key key) {
    for (const BlockId block : {job.batch, job.recipe}) {
        if (model.unreadable(block, key)) return {.known = false};
        if (model.entry(block, key) != nullptr) return {.block = block};
    }
    return {};
}

void find_vessel(const Model& model, Job& job) {
    const auto makes = model.count_list(job.recipe, Key::makes);
    if (makes.empty()) return;
    job.vessel = makes[0].block;
    job.vessel_at = makes[0].at;
    if (job.count <= 0) job.count = std::max<std::int64_t>(makes[0].count, 0);
}

void find_bench(const Model& model, Job& job) {
    const Said pot = said(model, job, Key::pot);
    const auto pots = model.count_list(pot.block, Key::pot);
    job.pot_known = pot.known;
    if (!pots.empty()) {
        job.pot = pots[0].block;
        job.pot_at = pots[0].at;
        job.pots_at_once = std::max<std::int64_t>(pots[0].count, 1);
    }
    const Said scale = said(model, job, Key::scale);
    job.scale_known = scale.known;
    if (const auto* ref = model.get<Ref>(scale.block, Key::scale)) {
        job.scale = ref->block;
        job.scale_at = ref->at;
    }
}

Job make_job(const Model& model, BlockId recipe, BlockId batch, std::int64_t count, Span count_at) {
    const Span head = model.blocks[recipe].head_at;
    const Span bench = batch == no_block ? head : model.blocks[batch].head_at;
    Job job{.recipe = recipe,
            .batch = batch,
            .count = std::max<std::int64_t>(count, 0),
            .count_at = count_at,
            .vessel_at = head,
            .pot_at = bench,
            .scale_at = bench};
    find_vessel(model, job);
    find_bench(model, job);
    const bool melter = model.entry(batch, Key::melter) != nullptr;
    job.beside_melter = melter && model.entry(recipe, Key::leftovers) != nullptr;
    job.drawn = melter && !job.beside_melter;
    return job;
}

} // namespace

Job job_of_recipe(const Model& model, BlockId recipe, std::int64_t count) {
    const Entry* makes = model.entry(recipe, Key::makes);
    const Span at = makes != nullptr ? makes->at : model.blocks[recipe].head_at;
    return make_job(model, recipe, no_block, count, at);
}

std::vector<Job> jobs_of_batch(const Model& model, BlockId batch) {
    std::vector<Job> jobs;
    const auto pours = model.pours_of(batch);
    jobs.reserve(pours.size());
    for (const Count& pour : pours) {
        if (pour.block == no_block) continue;
        jobs.push_back(make_job(model, pour.block, batch, pour.count, pour.at));
    }
    return jobs;
}

bool batch_says(const Model& model, BlockId batch, HangsOn what) {
    const auto says = [&](Key key) { return model.entry(batch, key) != nullptr; };
    switch (what) {
    case HangsOn::heat:
        return says(Key::pot) || says(Key::melter);
    case HangsOn::thermometer:
        return says(Key::thermometer_error);
    case HangsOn::room:
        return says(Key::room);
    case HangsOn::pot_or_spare:
        return says(Key::pot) || says(Key::spare);
    case HangsOn::nothing:
    case HangsOn::bench:
        break;
    }
    return false;
}

bool as_by_itself(const Model& model, BlockId batch, const Count& line) {
    for (const Key key : {Key::pot, Key::scale, Key::spare}) {
        if (model.entry(batch, key) != nullptr) return false;
    }
    const auto makes = model.count_list(line.block, Key::makes);
    return !makes.empty() && makes[0].count == line.count;
}

} // namespace waxwright
