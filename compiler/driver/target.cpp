#include "driver/target.hpp"

#include <string>
#include <vector>

#include <fmt/format.h>

#include "driver/files.hpp"
#include "findings/nearest.hpp"

namespace waxwright {

int wrong_call(std::string_view text) {
    write_error(fmt::format("waxwright: {}\n", text));
    return 2;
}

int hand_out(const std::string& out, std::string_view text) {
    const std::string problem = write_text(out, text);
    return problem.empty() ? 0 : wrong_call(problem);
}

namespace {

bool has_sheet(const Block& block) {
    return block.kind == BlockKind::recipe || block.kind == BlockKind::batch;
}

} // namespace

std::vector<BlockId> own_sheets(const Model& model) {
    std::vector<BlockId> own;
    for (BlockId id = 0; id < model.blocks.size(); ++id) {
        if (model.blocks[id].file == model.roots[0] && has_sheet(model.blocks[id])) {
            own.push_back(id);
        }
    }
    return own;
}

namespace {

std::string listed(const Model& model, const std::vector<BlockId>& ids) {
    std::string names;
    for (const BlockId id : ids) {
        names += fmt::format("{}{} ({})", names.empty() ? "" : ", ", model.name(id),
                             word(model.blocks[id].kind));
    }
    return names;
}

std::string_view word(Command command) {
    static constexpr std::string_view words[] = {
#define COMMAND(identifier, word, run, about) word,
#include "driver/commands.def"
#undef COMMAND
    };
    return words[static_cast<std::size_t>(command)];
}

/// "say which one: a (recipe), b (batch); for example `waxwright sheet FILE b`".
std::string which_one(const Model& model, const std::vector<BlockId>& ids, const Options& options) {
    return fmt::format("say which one: {}; for example `waxwright {} {} {}`", listed(model, ids),
                       word(options.command), options.file, model.name(ids.back()));
}

BlockId named(const Model& model, const Options& options) {
    const std::vector<BlockId> own = own_sheets(model);
    const std::string& file = options.file;
    if (options.name.empty()) {
        if (own.size() == 1) return own[0];
        if (own.empty()) {
            wrong_call(fmt::format("{}: has no recipe and no batch", file));
        } else {
            wrong_call(fmt::format("{}: {}", file, which_one(model, own, options)));
        }
        return no_block;
    }
    for (const BlockId id : own) {
        if (model.name(id) == options.name) return id;
    }
    std::vector<std::string_view> names;
    for (BlockId id = 0; id < model.blocks.size(); ++id) { // one of a used file will do as well
        if (!has_sheet(model.blocks[id]) || model.in_library(id)) continue;
        if (model.name(id) == options.name) return id;
        names.push_back(model.name(id));
    }
    const std::string hint = did_you_mean(options.name, names);
    wrong_call(fmt::format("{}: has no recipe or batch `{}`; {}", file, options.name,
                           hint.empty() ? "it has " + listed(model, own) : hint));
    return no_block;
}

} // namespace

int no_recipes(const Model& model, const Options& options) {
    const std::vector<BlockId> batches = own_sheets(model);
    return wrong_call(
        fmt::format("{}: has no recipe for --all{}", options.file,
                    batches.empty() ? "" : "; " + which_one(model, batches, options)));
}

BlockId chosen(const Model& model, const Options& options) {
    const BlockId target = named(model, options);
    if (target != no_block && options.make && model.blocks[target].kind == BlockKind::batch) {
        wrong_call("--make is for a recipe; a batch says how many of each itself");
        return no_block;
    }
    return target;
}

void want_labels(Model& model, BlockId target, const Options& options) {
    if (const auto market = find_market(options.market)) {
        model.label_for = {*market};
    } else if (target != no_block && model.markets_of(target).empty()) {
        model.label_for.assign(all_markets().begin(), all_markets().end());
    }
}

} // namespace waxwright
