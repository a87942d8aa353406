// Which recipe or batch of a file a command is about.
#pragma once

#include <vector>

#include "driver/options.hpp"
#include "model/model.hpp"

namespace waxwright {

/// Tells on standard error what was wrong with the call; the exit status, 2.
int wrong_call(std::string_view text);
/// The end of a command: its text to the file `out`, or to standard output where that is empty; the
/// exit status.
int hand_out(const std::string& out, std::string_view text);

/// The recipes and batches of the named file itself, in the order written.
std::vector<BlockId> own_sheets(const Model& model);

/// Tells that the file has no recipe of its own for --all, and which batches there are; 2.
int no_recipes(const Model& model, const Options& options);

/// The recipe or batch that `options.name` says, or the file's only one; no_block, with the reason
/// told, where that is not clear or `--make` is given for a batch.
BlockId chosen(const Model& model, const Options& options);

/// Lets the model know where labels are wanted for: where the call says, else where the block's
/// maker `sells-in`, else everywhere. Before the findings are looked for.
void want_labels(Model& model, BlockId target, const Options& options);

} // namespace waxwright
