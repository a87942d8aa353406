#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "emit/materials.hpp"
#include "findings/nearest.hpp"
#include "model/library.hpp"
#include "pipeline/pipeline.hpp"

namespace waxwright {

namespace {

/// The blocks for which `is` holds, in the order of the modules. A module that another one uses is
/// there a second time, as a used file, of which only what is used is read: that one is left out.
template <typename Is>
std::vector<BlockId> blocks_where(const Model& model, Is is) {
    std::vector<BlockId> blocks;
    for (BlockId id = 0; id < model.blocks.size(); ++id) {
        if (!model.in_library(id) && is(model.blocks[id])) blocks.push_back(id);
    }
    return blocks;
}

constexpr std::string_view about_pages =
    "\nwaxwright materials NAME shows a material's figures and where they are from.\n"
    "After +- stands how far off a doubtful figure may be. Your supplier's data sheet goes "
    "first.\n";

std::string all_listed(const Model& model) {
    const auto all = blocks_where(model, [](const Block& /*block*/) { return true; });
    return all_materials(model, all) + std::string(about_pages);
}

/// A material by its name; else a kind or a module; else what has the word in its name. Empty when
/// there is nothing of the kind.
/// True if it is a word of the name, or what a long word begins with: `clove` of clove-bud, `cedar`
/// of cedarwood; rosemary is no `rose`.
bool has_word(std::string_view name, std::string_view wanted) {
    constexpr std::size_t long_enough = 5;
    for (std::size_t at = 0; at < name.size();) {
        const std::size_t end = std::min(name.find('-', at), name.size());
        const std::string_view part = name.substr(at, end - at);
        if (part == wanted || (wanted.size() >= long_enough && part.starts_with(wanted)))
            return true;
        at = end + 1;
    }
    return false;
}

/// Names that have the word's letters in them, as a hint.
std::string alike_hint(const Model& model, std::string_view wanted) {
    std::string names;
    for (const Block& block : model.blocks) {
        if (block.name.find(wanted) == std::string_view::npos) continue;
        names += fmt::format("{}`{}`", names.empty() ? "" : ", ", block.name);
    }
    return names.empty()
               ? names
               : fmt::format("it is no other word for {}; `waxwright materials oil` lists the oils",
                             names);
}

std::string asked_for(const Model& model, std::string_view wanted) {
    const auto named = blocks_where(model, [&](const Block& b) { return b.name == wanted; });
    if (!named.empty()) return material_page(model, named.front());
    auto some = blocks_where(model, [&](const Block& b) {
        return word(b.kind) == wanted || model.sources[b.file].name() == module_file(wanted);
    });
    if (some.empty()) {
        some = blocks_where(model, [&](const Block& b) { return has_word(b.name, wanted); });
        if (some.size() == 1) return material_page(model, some.front());
    }
    return some.empty() ? std::string() : some_materials(model, some) + std::string(about_pages);
}

/// The nearest of all names, kinds and modules.
std::string nearest_hint(const Model& model, std::string_view wanted) {
    std::vector<std::string_view> words;
    for (const Block& block : model.blocks) {
        words.push_back(block.name);
    }
    for (const Block& block : model.blocks) {
        words.push_back(word(block.kind));
    }
    for (const LibraryModule& module : library_modules()) {
        words.push_back(module.name);
    }
    return did_you_mean(wanted, words);
}

} // namespace

int run_materials(const Options& options) {
    const Workshop workshop = open_library();
    const Model& model = workshop.model;
    const std::string text =
        options.word.empty() ? all_listed(model) : asked_for(model, options.word);
    if (text.empty()) {
        std::string hint = alike_hint(model, options.word);
        if (hint.empty()) hint = nearest_hint(model, options.word);
        write_error(fmt::format("waxwright: the standard library has no `{}`{}{}\n", options.word,
                                hint.empty() ? "" : "; ", hint));
        return 2;
    }
    const std::string problem = write_out(text);
    if (problem.empty()) return 0;
    write_error(fmt::format("waxwright: standard output: {}\n", problem));
    return 2;
}

} // namespace waxwright
