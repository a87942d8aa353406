// The straight line from text to plans, written once: commands, tests, the fuzzer and an editor
// all go along it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "check/label.hpp"
#include "findings/finding.hpp"
#include "model/build.hpp"
#include "plan/build.hpp"
#include "plan/cautions.hpp"
#include "plan/label.hpp"
#include "plan/picture.hpp"
#include "plan/plan.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// A recipe by itself or a line of a batch, once it has been checked. Its reckoning takes less time
/// than keeping it would take memory: it is made again where a sheet wants it.
struct Task {
    Job job;
    std::size_t bounds = no_bounds; // index of Workshop::bounds, where a figure is doubtful

    static constexpr std::size_t no_bounds = static_cast<std::size_t>(-1);
};
struct BatchTasks {
    BlockId batch;
    std::vector<Task> lines;
};

/// Everything that is known of the files of a run; it owns their texts, and may be moved.
struct Workshop {
    Model model;
    Findings findings;
    std::vector<Task> recipes; // of all files that are no library, in the order written
    std::vector<BatchTasks> batches;
    std::vector<Bounds> bounds;
    /// To be set before work(), where no note will be shown.
    NoteHints note_hints = NoteHints::wanted;

    /// What the sheets repeat of the findings; made by work().
    std::optional<CautionIndex> cautions;
};

/// How work that may be done side by side is done: calls `work(begin, end)` for the pieces of 0 to
/// `count`, each of `piece` at most, each once, and returns when all have ended.
using InPieces =
    std::function<void(std::size_t count, std::size_t piece,
                       const std::function<void(std::size_t begin, std::size_t end)>& work)>;
/// One piece after another; the driver has a way that takes all cores.
void one_by_one(std::size_t count, std::size_t piece,
                const std::function<void(std::size_t, std::size_t)>& work);

/// Text to model: parses the roots in `sources` and what they use. Syntax, units, names, blends.
Workshop open_workshop(Sources sources, const ReadFile& read, Notebook* notebook = nullptr);

/// The name that findings and pages show for a module of the standard library.
std::string module_file(std::string_view module);
/// The standard library, each of its modules as a file of its own.
Workshop open_library();

/// Model to findings: reckons every recipe and batch, checks each, settles the findings. With
/// `make` over 0 that many are made of `recipe`, or of every recipe for no_block.
void work(Workshop& workshop, const InPieces& in_pieces = one_by_one, BlockId recipe = no_block,
          std::int64_t make = 0);

/// The plan of a recipe or a batch. Only where work() found no error.
Plan plan_of(const Workshop& workshop, BlockId recipe_or_batch, WithMoney money = WithMoney::yes);
Plan plan_of(const Workshop& workshop, const Task& recipe, WithMoney money = WithMoney::yes);
Reckoning reckoning_of(const Workshop& workshop, const Task& task);
std::vector<Reckoning> reckonings_of(const Workshop& workshop, const BatchTasks& batch);

/// The labels of what a recipe or a batch makes: for each market that Model::markets_of gives, or
/// for all where it gives none, one for each recipe of the plan.
std::vector<Label> labels_of(const Workshop& workshop, BlockId recipe_or_batch);

/// The heat plan of a filling of each recipe of the plan, in its order.
std::vector<HeatPicture> pictures_of(const Workshop& workshop, BlockId recipe_or_batch);

} // namespace waxwright
