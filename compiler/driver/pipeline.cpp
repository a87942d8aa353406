#include "driver/pipeline.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "check/check.hpp"
#include "check/doubt.hpp"
#include "check/money.hpp"
#include "plan/build.hpp"
#include "reckon/corners.hpp"
#include "reckon/melter.hpp"

namespace waxwright {

Workshop open_workshop(Sources& sources, const ReadFile& read) {
    Findings findings;
    Model model = build_model(sources, read, findings);
    return {std::move(model), std::move(findings), {}, {}, {}};
}

namespace {

/// One job: reckoned, checked, and its doubts looked at where it has any.
Reckoning work_out(const Model& model, const Job& job, Findings& findings) {
    Reckoning reckoning = reckon(gather(model, job));
    const std::size_t from = findings.all().size();
    if (!any_doubt(reckoning.in)) {
        LimitChecks limits;
        find_limits(reckoning.in, reckoning, limits);
        check_job(model, reckoning, limits, findings);
        return reckoning;
    }
    Corners corners(reckoning.in, reckoning);
    check_job(model, reckoning, corners.limits(), findings);
    check_doubt(model, reckoning, corners, from, findings);
    reckoning.bounds = bounds(model, reckoning, corners);
    return reckoning;
}

} // namespace

void work(Workshop& workshop, BlockId recipe, std::int64_t make) {
    const Model& model = workshop.model;
    const auto worked = [&](const Job& job) { return work_out(model, job, workshop.findings); };
    for (BlockId id = 0; id < model.blocks.size(); ++id) {
        if (model.in_library(id) || workshop.findings.too_many(model.blocks[id].file)) continue;
        if (model.blocks[id].kind == BlockKind::recipe) {
            const bool scaled = recipe == no_block || recipe == id;
            workshop.recipes.push_back(worked(job_of_recipe(model, id, scaled ? make : 0)));
        } else if (model.blocks[id].kind == BlockKind::batch) {
            BatchReckoning batch{id, {}};
            for (const Job& job : jobs_of_batch(model, id))
                batch.lines.push_back(worked(job));
            check_batch_money(model, batch.lines, workshop.findings);
            workshop.batches.push_back(std::move(batch));
        }
    }
    workshop.findings.settle(model.sources);
    workshop.mind.emplace(workshop.findings);
}

Plan plan_of(const Workshop& workshop, const Reckoning& recipe) {
    return plan_recipe(workshop.model, recipe, *workshop.mind);
}

Plan plan_of(const Workshop& workshop, BlockId id) {
    if (workshop.model.blocks[id].kind == BlockKind::batch) {
        const auto batch =
            std::find_if(workshop.batches.begin(), workshop.batches.end(),
                         [&](const BatchReckoning& each) { return each.batch == id; });
        return plan_batch(workshop.model, id, batch->lines, *workshop.mind);
    }
    const auto recipe =
        std::find_if(workshop.recipes.begin(), workshop.recipes.end(),
                     [&](const Reckoning& each) { return each.in.job.recipe == id; });
    return plan_of(workshop, *recipe);
}

std::vector<HeatPicture> pictures_of(const Workshop& workshop, BlockId id) {
    const Model& model = workshop.model;
    std::vector<HeatPicture> pictures;
    for (const BatchReckoning& batch : workshop.batches) {
        if (batch.batch != id) continue;
        std::vector<std::size_t> order(batch.lines.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        const Melter melter = melter_of(model, id, batch.lines, order);
        for (std::size_t i = 0; i < batch.lines.size(); ++i)
            pictures.push_back(picture_of(model, batch.lines[i], melter.celsius_for(i)));
    }
    for (const Reckoning& recipe : workshop.recipes) {
        if (recipe.in.job.recipe == id) pictures.push_back(picture_of(model, recipe, std::nullopt));
    }
    return pictures;
}

} // namespace waxwright
