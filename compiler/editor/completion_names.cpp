// Names in a completion: what is visible, and what the library has besides.
#include <algorithm>
#include <functional>
#include <set>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"
#include "model/library.hpp"
#include "model/phrase_slips.hpp"
#include "model/texts.hpp"
#include "model/use_module.hpp"
#include "source/path.hpp"

namespace waxwright {

std::vector<FileId> files_seen_from(const Look& look, FileId file) {
    std::vector<FileId> seen{file};
    for (std::size_t i = 0; i < seen.size(); ++i) {
        for (const Use& use : look.notebook.loaded.files[seen[i]].uses) {
            if (std::ranges::find(seen, use.file) == seen.end()) seen.push_back(use.file);
        }
    }
    return seen;
}

BlockId block_here(const Completing& c) {
    const Model& model = c.asked.look().model();
    for (BlockId id = 0; id < model.blocks.size(); ++id) {
        const Block& block = model.blocks[id];
        if (block.file == c.asked.file && block.head_at.begin == c.place.head) return id;
    }
    return no_block;
}

std::function<bool(BlockKind)> only(BlockKind kind) {
    return [kind](BlockKind each) { return each == kind; };
}

namespace {

/// The figure that most choose such a thing by.
std::optional<Key> chief_key(BlockKind kind) {
    using enum BlockKind;
    switch (kind) {
    case wax:
        return Key::max_load;
    case oil:
        return Key::flash_point;
    case additive:
        return Key::limit;
    case vessel:
    case pot:
        return Key::brimful;
    case wick:
        return Key::suits;
    case scale:
        return Key::reads;
    case recipe:
        return Key::makes;
    default:
        return std::nullopt;
    }
}

/// A property as it is written, by the tree: what of the library nobody uses is never read. Nothing
/// where it is unsaid, or of several lines.
std::string_view written(const Look& look, BlockId id, Key key) {
    if (const Entry* entry = look.model().entry(id, key)) {
        return look.model().sources.slice(entry->at);
    }
    const Tree& tree = look.tree(look.model().blocks[id].file);
    for (const NodeId line : tree.children(look.notebook.block_nodes[id])) {
        if (tree.kind(line) != Kind::property) continue;
        const Children parts = tree.children(line);
        if (parts.size() == 2 && tree.text(parts[0]) == word(key)) return tree.text(parts[1]);
    }
    return {};
}

/// "wax, max-load 10% of wax"
std::string detail_of(const Look& look, BlockId id) {
    const BlockKind kind = look.model().blocks[id].kind;
    const auto key = chief_key(kind);
    const std::string_view figure = key ? written(look, id, *key) : std::string_view();
    if (figure.empty() && kind == BlockKind::wick)
        return "wick; its supplier's chart says which bores it suits";
    if (figure.empty() || figure.find('\n') != std::string_view::npos) {
        return std::string(word(kind));
    }
    return fmt::format("{}, {} {}", word(kind), word(*key), figure);
}

Proposal item_of(std::string_view before, std::string_view name) {
    return {.label = fmt::format("{}{}", before, name), .kind = ProposalKind::name};
}

/// Those of the library's modules that are not used yet; each brings its module with it.
void add_library_names(Completing& c, const NamesWanted& wanted,
                       const std::set<std::string_view>& known) {
    const Look& look = c.asked.look();
    for (const LibraryModule& module : library_modules()) {
        // The names are pieces of the text: in the library's own order the usual one comes first.
        const Declared declared = declared_in(module.text);
        std::vector<std::pair<std::string_view, BlockKind>> in_order(declared.begin(),
                                                                     declared.end());
        std::ranges::sort(in_order, std::less<>(),
                          [](const auto& each) { return each.first.data(); });
        const bool used =
            std::ranges::any_of(files_seen_from(look, c.asked.file), [&](FileId file) {
                const Source& source = look.source(file);
                return source.is_library() && source.text() == module.text;
            });
        if (used) continue;
        for (const auto& [name, kind] : in_order) {
            if (!wanted.of(kind) || known.contains(name)) continue;
            Proposal item = item_of(wanted.before, name);
            item.detail = fmt::format("{}, of the library; adds `use {}`", word(kind), module.name);
            item.besides = {use_module(c.asked.tree(), c.asked.source(), module.name)};
            c.add(Group::last, std::move(item));
        }
    }
}

} // namespace

void add_names(Completing& c, const NamesWanted& wanted, Group group) {
    const Look& look = c.asked.look();
    const Model& model = look.model();
    std::set<std::string_view> known(wanted.except.begin(), wanted.except.end());
    const std::vector<FileId> files = files_seen_from(c.asked.look(), c.asked.file);
    for (const FileId file : files) {
        for (BlockId id = 0; id < model.blocks.size(); ++id) {
            const Block& block = model.blocks[id];
            if (block.file != file || block.name.empty() || !wanted.of(block.kind)) continue;
            const bool here = file == c.asked.file && block.head_at.begin == c.place.begin;
            if (wanted.but_own_head && here) continue;
            if (!known.insert(block.name).second) continue;
            Proposal item = item_of(wanted.before, block.name);
            item.detail = detail_of(look, id);
            item.words = decoded_text(written(look, id, Key::about)).value_or("");
            c.add(file == c.asked.file ? group : std::max(group, Group::then), std::move(item));
        }
    }
    add_library_names(c, wanted, known);
}

void add_modules(Completing& c, Group group) {
    for (const LibraryModule& module : library_modules()) {
        const auto says = [&](const std::string& line) {
            const std::string_view use = trimmed(line);
            if (first_word(use) != "use") return false;
            const std::string names = fmt::format("{} ", use.substr(3)); // no word at its end
            return tokens_of(names).has(module.name);
        };
        if (std::ranges::any_of(c.place.lines, says) || says(c.place.typed + " ")) continue;
        c.add(group, {.label = std::string(module.name),
                      .kind = ProposalKind::module,
                      .detail = "module of the library"});
    }
}

void add_files(Completing& c, bool quotes) {
    const std::string& own = c.asked.source().name();
    const std::string folder = path_from(own, ".");
    const bool closed = c.line_rest().starts_with('"');
    for (const auto& [path, file] :
         std::map(c.asked.look().files.begin(), c.asked.look().files.end())) {
        const auto& uses = c.asked.look().notebook.loaded.files[c.asked.file].uses;
        const bool used = std::ranges::find(uses, file, &Use::file) != uses.end();
        if (path == own || used || !path.starts_with('/') || !path.ends_with(".candle")) continue;
        const std::string way = relative_path(path, folder);
        Proposal item{.label = quotes ? fmt::format("\"{}\"", way) : way,
                      .kind = ProposalKind::file};
        if (!quotes) {
            item.text = closed ? way : fmt::format("{}\"", way);
            item.at = c.from(c.place.text_begin);
            item.at->end = c.asked.offset;
        }
        c.add(Group::then, std::move(item));
    }
}

} // namespace waxwright
