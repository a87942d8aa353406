#include "pipeline/pipeline.hpp"

#include "model/phrases.hpp"

#include <algorithm>
#include <numeric>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "check/bench.hpp"
#include "check/check.hpp"
#include "check/doubt.hpp"
#include "check/leftover.hpp"
#include "check/money.hpp"
#include "model/library.hpp"
#include "plan/build.hpp"
#include "plan/label_build.hpp"
#include "reckon/corners.hpp"
#include "reckon/melter.hpp"

namespace waxwright {

void one_by_one(std::size_t count, std::size_t piece,
                const std::function<void(std::size_t, std::size_t)>& work) {
    for (std::size_t from = 0; from < count; from += piece)
        work(from, std::min(from + piece, count));
}

Workshop open_workshop(Sources sources, const ReadFile& read, Notebook* notebook) {
    Findings findings;
    Model model = build_model(std::move(sources), read, findings, notebook);
    answer_phrases(model.sources, findings);
    return {std::move(model), std::move(findings), {}, {}, {}, NoteHints::wanted, {}};
}

std::string module_file(std::string_view module) {
    return fmt::format("stdlib/{}.candle", module);
}

Workshop open_library() {
    Sources sources;
    for (const LibraryModule& module : library_modules()) {
        sources.add(module_file(module.name), std::string(module.text));
    }
    return open_workshop(std::move(sources),
                         [](const std::string& /*path*/) { return std::optional<std::string>(); });
}

namespace {

/// The findings of some tasks that stand one after another, and how far those of each go.
struct Checked {
    Findings findings;
    std::vector<std::size_t> ends;
    std::vector<Bounds> bounds; // of those tasks that have any, in their order
};

void check_task(const Model& model, Task& task, NoteHints hints, Checked& into) {
    const std::size_t from = into.findings.all().size();
    Reckoning reckoning = reckon(gather(model, task.job));
    if (any_doubt(reckoning.in)) {
        Corners corners(reckoning.in, reckoning);
        check_job(model, reckoning, corners.limits(), into.findings);
        check_doubt(model, reckoning, corners, from, into.findings);
        task.bounds = into.bounds.size();
        reckoning.bounds = bounds(model, reckoning, corners);
        into.bounds.push_back(reckoning.bounds);
    } else {
        LimitChecks limits;
        collect_limit_checks(reckoning.in, reckoning, limits);
        check_job(model, reckoning, limits, into.findings);
    }
    check_label(model, reckoning, hints, into.findings);
    into.ends.push_back(into.findings.all().size());
}

/// Checks tasks side by side; their findings come in the order of the tasks. Of a file that has too
/// many errors no more are taken.
void check_tasks(Workshop& workshop, std::span<Task* const> tasks, const InPieces& in_pieces) {
    constexpr std::size_t piece = 32;
    const Model& model = workshop.model;
    std::vector<Checked> pieces((tasks.size() + piece - 1) / piece);
    in_pieces(tasks.size(), piece, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            check_task(model, *tasks[i], workshop.note_hints, pieces[begin / piece]);
    });
    for (std::size_t i = 0; i < tasks.size(); ++i) {
        Checked& from = pieces[i / piece];
        const std::size_t within = i % piece;
        const Job& job = tasks[i]->job;
        const BlockId written = job.batch == no_block ? job.recipe : job.batch;
        if (!workshop.findings.too_many(model.blocks[written].file)) {
            workshop.findings.append(from.findings, within == 0 ? 0 : from.ends[within - 1],
                                     from.ends[within]);
        }
        if (tasks[i]->bounds == Task::no_bounds) continue;
        workshop.bounds.push_back(std::move(from.bounds[tasks[i]->bounds]));
        tasks[i]->bounds = workshop.bounds.size() - 1;
    }
}

/// A recipe without a pot of its own is heated as its batches say, where each of them does.
void note_heated_by_batches(Workshop& workshop) {
    const Model& model = workshop.model;
    std::unordered_map<BlockId, bool> said; // by recipe: so far by all that pour it
    for (const BatchTasks& batch : workshop.batches) {
        for (const Task& line : batch.lines) {
            const Job& job = line.job;
            const bool heated = job.drawn || (job.pot != no_block &&
                                              model.choice(job.pot, Key::heated) != Choice::unsaid);
            const auto known = said.emplace(job.recipe, true).first;
            known->second = known->second && heated;
        }
    }
    for (Task& task : workshop.recipes) {
        const auto known = said.find(task.job.recipe);
        task.job.heated_by_batches = known != said.end() && known->second;
    }
}

} // namespace

void work(Workshop& workshop, const InPieces& in_pieces, BlockId recipe, std::int64_t make) {
    const Model& model = workshop.model;
    for (BlockId id = 0; id < model.blocks.size(); ++id) {
        if (model.in_library(id) || workshop.findings.too_many(model.blocks[id].file)) continue;
        if (model.blocks[id].kind == BlockKind::recipe) {
            const bool scaled = recipe == no_block || recipe == id;
            workshop.recipes.push_back({job_of_recipe(model, id, scaled ? make : 0)});
        } else if (model.blocks[id].kind == BlockKind::batch) {
            BatchTasks batch{id, {}};
            for (const Job& job : jobs_of_batch(model, id))
                batch.lines.push_back({job});
            workshop.batches.push_back(std::move(batch));
        } else if (model.blocks[id].kind == BlockKind::leftover) {
            check_leftover(model, id, workshop.findings);
        }
    }
    note_heated_by_batches(workshop);
    std::vector<Task*> tasks;
    for (Task& task : workshop.recipes)
        tasks.push_back(&task);
    for (BatchTasks& batch : workshop.batches) {
        for (Task& task : batch.lines)
            tasks.push_back(&task);
    }
    check_tasks(workshop, tasks, in_pieces);
    for (const BatchTasks& batch : workshop.batches) {
        std::vector<Job> jobs;
        for (const Task& task : batch.lines)
            jobs.push_back(task.job);
        check_batch_money(model, jobs, workshop.findings);
        const BlockId melter = melter_block(model, batch.batch);
        if (melter == no_block) continue;
        check_melter(model, gather_pot(model, melter), reckonings_of(workshop, batch),
                     workshop.findings);
    }
    workshop.findings.sort_and_join(model.sources);
    workshop.cautions.emplace(workshop.findings);
}

Reckoning reckoning_of(const Workshop& workshop, const Task& task) {
    Reckoning reckoning = reckon(gather(workshop.model, task.job));
    if (task.bounds != Task::no_bounds) reckoning.bounds = workshop.bounds[task.bounds];
    return reckoning;
}

std::vector<Reckoning> reckonings_of(const Workshop& workshop, const BatchTasks& batch) {
    std::vector<Reckoning> reckonings;
    reckonings.reserve(batch.lines.size());
    for (const Task& task : batch.lines)
        reckonings.push_back(reckoning_of(workshop, task));
    return reckonings;
}

Plan plan_of(const Workshop& workshop, const Task& recipe, WithMoney money) {
    return plan_recipe(workshop.model, reckoning_of(workshop, recipe), workshop.findings,
                       *workshop.cautions, money);
}

Plan plan_of(const Workshop& workshop, BlockId id, WithMoney money) {
    for (const BatchTasks& batch : workshop.batches) {
        if (batch.batch != id) continue;
        return plan_batch(workshop.model, id, reckonings_of(workshop, batch), workshop.findings,
                          *workshop.cautions, money);
    }
    const auto recipe = std::find_if(workshop.recipes.begin(), workshop.recipes.end(),
                                     [&](const Task& each) { return each.job.recipe == id; });
    return plan_of(workshop, *recipe, money);
}

std::vector<Label> labels_of(const Workshop& workshop, BlockId id) {
    const Plan plan = plan_of(workshop, id, WithMoney::no);
    std::vector<Reckoning> lines;
    for (const BatchTasks& batch : workshop.batches)
        if (batch.batch == id) lines = reckonings_of(workshop, batch);
    for (const Task& recipe : workshop.recipes)
        if (recipe.job.recipe == id) lines.push_back(reckoning_of(workshop, recipe));
    std::vector<Market> markets = workshop.model.markets_of(id);
    if (markets.empty()) markets.assign(all_markets().begin(), all_markets().end());
    std::vector<Label> labels;
    for (const Market market : markets)
        for (std::size_t i = 0; i < lines.size(); ++i)
            labels.push_back(plan_label(workshop.model, lines[i], plan, i, market));
    return labels;
}

std::vector<HeatPicture> pictures_of(const Workshop& workshop, BlockId id) {
    const Model& model = workshop.model;
    std::vector<HeatPicture> pictures;
    for (const BatchTasks& batch : workshop.batches) {
        if (batch.batch != id) continue;
        const std::vector<Reckoning> lines = reckonings_of(workshop, batch);
        std::vector<std::size_t> order(lines.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        const Melter melter = melter_of(gather_pot(model, melter_block(model, id)), lines, order);
        for (std::size_t i = 0; i < lines.size(); ++i)
            pictures.push_back(picture_of(model, lines[i], melter.celsius_for(i)));
    }
    for (const Task& recipe : workshop.recipes) {
        if (recipe.job.recipe != id) continue;
        pictures.push_back(picture_of(model, reckoning_of(workshop, recipe), std::nullopt));
    }
    return pictures;
}

} // namespace waxwright
