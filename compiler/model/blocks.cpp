// Blocks: their statements in order, what they take over by `like`, and what they lack.
#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/block_reader.hpp"
#include "model/vessel_needs.hpp"
#include "syntax/parse.hpp"

namespace waxwright {

namespace {

/// The word a line begins with, if a colon stands behind it.
std::string_view key_of(std::string_view line) {
    const std::size_t end = line.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-");
    if (end == std::string_view::npos || end == 0) return {};
    const std::size_t colon = line.find_first_not_of(" \t", end);
    return colon != std::string_view::npos && line[colon] == ':' ? line.substr(0, end)
                                                                 : std::string_view{};
}

const Entry* find(const std::vector<Entry>& entries, Key key) {
    const auto found = std::find_if(entries.begin(), entries.end(),
                                    [&](const Entry& entry) { return entry.key == key; });
    return found == entries.end() ? nullptr : &*found;
}

} // namespace

/// Reads a block, once, with all it refers to. A loop of `like` ends here.
void BlockReader::ensure(BlockId id) {
    if (block_states_[id] != ReadState::untouched) return;
    block_states_[id] = ReadState::reading;
    const std::optional<Span> outer = std::exchange(context_.used_at, std::nullopt);
    read_block(id);
    context_.used_at = outer;
    block_states_[id] = ReadState::done;
}

void BlockReader::read_block(BlockId id) {
    read_like(id);
    const Block block = model_.blocks[id]; // the vector may grow under a reference, not its copy
    Own own;
    own.entries.reserve(16);
    const Children parts = tree(block.file).children(names_.block_nodes[id]);
    for (std::size_t i = 1; i < parts.size() && !findings_.too_many(block.file); ++i) {
        read_statement(id, parts[i], own);
    }
    inherit(id, own);
    check_needed(id);
}

/// What the name behind `like` stands for; a block's own name is looked for in used files only.
const Symbol* BlockReader::liked(BlockId id) {
    const Block& block = model_.blocks[id];
    const Children head =
        tree(block.file).children(tree(block.file).children(names_.block_nodes[id])[0]);
    const std::string_view name = tree(block.file).text(head[2]);
    return name == block.name ? names_.find_used(block.file, name) : names_.find(block.file, name);
}

/// `mud` is like `sand`, `sand` like `mud`: from a block to the one it is like, and back to it.
std::string BlockReader::like_loop(BlockId id, BlockId liked_id) {
    std::string loop = fmt::format("`{}` is like `{}`", model_.name(id), model_.name(liked_id));
    for (BlockId next = liked_id; next != id;) {
        const BlockId after = liked(next)->id;
        loop += fmt::format(", `{}` like `{}`", model_.name(next), model_.name(after));
        next = after;
    }
    return loop;
}

void BlockReader::read_like(BlockId id) {
    const Block block = model_.blocks[id];
    const Children head =
        tree(block.file).children(tree(block.file).children(names_.block_nodes[id])[0]);
    if (head.size() < 3) return;
    const At name{block.file, head[2]};
    const bool own_name = text(name) == block.name;
    const Symbol* symbol = liked(id);
    Block& self = model_.blocks[id];
    self.broken = true; // till the other one is there
    if (symbol == nullptr) {
        if (own_name && names_.find(block.file, text(name)) != nullptr) {
            findings_.report(
                Rule::like_loop, span(name), fmt::format("`{}` is like itself", text(name)),
                "a block can only be like its own name if a used file has a block of that name");
        } else {
            lookup_.unknown_name(block.file, text(name), span(name));
        }
        return;
    }
    names_.found(span(name), *symbol);
    if (symbol->what == Symbol::What::poisoned) return;
    if (symbol->what == Symbol::What::let || model_.blocks[symbol->id].kind != block.kind) {
        const std::string_view is = symbol->what == Symbol::What::let
                                        ? "bound by `let`"
                                        : with_article(model_.blocks[symbol->id].kind);
        findings_.report(Rule::wrong_kind, span(name),
                         fmt::format("`{}` is {}, and {} can only be like {}", text(name), is,
                                     with_article(block.kind), with_article(block.kind)));
        return;
    }
    if (block_states_[symbol->id] == ReadState::reading) {
        findings_.report(Rule::like_loop, span(name),
                         "blocks are like each other in a loop: " + like_loop(id, symbol->id),
                         "take `like` from one of them");
        return;
    }
    if (context_.depth >= deepest_nesting) {
        findings_.report(
            Rule::nesting, span(name),
            fmt::format("blocks are like each other more than {} deep", deepest_nesting),
            "let this one be like an earlier block");
        return;
    }
    ++context_.depth;
    ensure(symbol->id);
    --context_.depth;
    model_.blocks[id].like = symbol->id;
    model_.blocks[id].broken = model_.blocks[symbol->id].broken;
}

void BlockReader::read_statement(BlockId id, NodeId node, Own& own) {
    const BlockKind kind_of_block = model_.blocks[id].kind;
    switch (tree(model_.blocks[id].file).kind(node)) {
    case Kind::property:
        read_property(id, node, own.entries);
        break;
    case Kind::steps:
        if (kind_of_block == BlockKind::recipe) {
            read_steps_node(id, node);
        } else {
            misplaced(id, node, "steps", "a recipe");
        }
        break;
    case Kind::allow:
        if (kind_of_block == BlockKind::recipe) {
            read_allow(id, node);
        } else {
            misplaced(id, node, "allow", "a recipe");
        }
        break;
    case Kind::pour:
        if (kind_of_block == BlockKind::batch) {
            read_pour(id, node, own.pours);
        } else {
            misplaced(id, node, "pour", "a batch, or a recipe's steps");
        }
        break;
    case Kind::have:
        if (kind_of_block == BlockKind::stock) {
            read_have(id, node, own.haves);
        } else {
            misplaced(id, node, "have", "a stock");
        }
        break;
    case Kind::broken:
        read_broken(id, node, own.entries);
        break;
    default:
        break; // marks of braces, told already
    }
}

void BlockReader::read_property(BlockId id, NodeId node, std::vector<Entry>& own) {
    const Block block = model_.blocks[id];
    const Children parts = tree(block.file).children(node);
    const At key_at{block.file, parts[0]}, value_at{block.file, parts[1]};
    const std::optional<Key> key = find_key(text(key_at));
    const PropertyInfo* info = key ? find_property(block.kind, *key) : nullptr;
    if (info == nullptr) {
        unknown_property(id, key_at, own);
        return;
    }
    const Value value = values_.read_value(*info, value_at, block.kind);
    if (const Entry* first = find(own, *key)) {
        findings_
            .report(Rule::defined_twice, span(key_at),
                    fmt::format("`{}` is given twice", text(key_at)), "take one of them away")
            .related.push_back({first->key_at, "it stands here first"});
        return;
    }
    own.push_back({*key, true, span(key_at), span(value_at), value});
}

namespace {

/// "it belongs in a recipe": a word that is a property, and of another kind of block.
std::string belongs_elsewhere(std::string_view text) {
    const std::optional<Key> key = find_key(text);
    if (!key) return {};
    for (const BlockKind kind : {BlockKind::recipe, BlockKind::batch, BlockKind::vessel,
                                 BlockKind::pot, BlockKind::scale}) {
        if (find_property(kind, *key) != nullptr) {
            return fmt::format("it belongs in {}", with_article(kind));
        }
    }
    return {};
}

} // namespace

void BlockReader::unknown_property(BlockId id, At key, std::vector<Entry>& own) {
    const BlockKind block_kind = model_.blocks[id].kind;
    std::vector<std::string_view> words;
    for (const PropertyInfo& row : properties_of(block_kind)) {
        words.push_back(word(row.key));
    }
    for (const Key common : {Key::about, Key::source, Key::sold}) {
        if (find_property(block_kind, common) != nullptr) words.push_back(word(common));
    }
    const std::string_view near = maybe_meant(text(key), words);
    // What was probably meant is not told as missing on top.
    const auto meant = find_key(near);
    const bool fresh = meant && find(own, *meant) == nullptr;
    if (fresh) own.push_back({*meant, true, span(key), span(key), {}});
    std::string hint = did_you_mean(text(key), words);
    if (hint.empty()) {
        const bool kept = bought(block_kind) == Bought::kept;
        hint = kept && text(key) == word(Key::sold) ? "leftovers are counted at no cost"
                                                    : belongs_elsewhere(text(key));
        if (hint.empty()) {
            hint = fmt::format("{} has {}", with_article(block_kind), fmt::join(words, ", "));
        }
        if (block_kind == BlockKind::batch) {
            hint = "its recipes are lines of their own, as `pour 12 tide-line`; besides, " + hint;
        }
        model_.blocks[id].broken = true; // it may have been any of them
    }
    Finding& finding = findings_.report(
        Rule::unknown_property, span(key),
        fmt::format("{} has no `{}`", with_article(block_kind), text(key)), std::move(hint));
    offer_nearest(finding, span(key), text(key), words, Spelling::word, fresh);
}

/// A line that could not be read still says what it was about, if it got as far as its key.
void BlockReader::read_broken(BlockId id, NodeId node, std::vector<Entry>& own) {
    Block& block = model_.blocks[id];
    const std::string_view line = tree(block.file).text(node);
    const Span at = tree(block.file).span(node);
    if (line.starts_with("pour")) block.pours_broken = true;
    if (line.find('{') != std::string_view::npos) block.steps_broken = true; // misspelt, maybe
    if (const std::optional<Key> key = find_key(key_of(line))) {
        if (find(own, *key) == nullptr) own.push_back({*key, true, at, at, {}});
    } else {
        block.broken = true;
    }
}

/// Behind its own, a block has what it takes over from the one it is like.
/// A vessel is filled to a line of its own, `fill`, or to a `headspace`: the one written here
/// replaces the other one of what the block is like.
bool BlockReader::replaces(const std::vector<Entry>& own, const Block& base, Key key) const {
    const auto based = [&](Key wanted) {
        const auto first = model_.entries.begin() + base.entries.first;
        return std::any_of(first, first + base.entries.count,
                           [&](const Entry& entry) { return entry.key == wanted; });
    };
    const auto said = [&](Key wanted) { return find(own, wanted) != nullptr || based(wanted); };
    if (find(own, key) != nullptr) return true;
    if (base.kind == BlockKind::leftover) return says_otherwise(own, key);
    if (key == Key::headspace) return base.kind == BlockKind::vessel && find(own, Key::fill);
    // Without a brimful or an inside a headspace says nothing, and is told beside the `fill`.
    return key == Key::fill && find(own, Key::headspace) &&
           (said(Key::brimful) || said(Key::inside));
}

void BlockReader::inherit(BlockId id, const Own& own) {
    const auto append = [](auto& to, const auto& from) {
        const Slice slice{static_cast<std::uint32_t>(to.size()),
                          static_cast<std::uint32_t>(from.size())};
        to.insert(to.end(), from.begin(), from.end());
        return slice;
    };
    const std::uint32_t first = append(model_.entries, own.entries).first;
    Block& block = model_.blocks[id];
    block.pours = append(model_.counts, own.pours);
    block.haves = append(model_.haves, own.haves);
    if (block.like != no_block) {
        const Block& base = model_.blocks[block.like];
        for (std::uint32_t i = 0; i < base.entries.count; ++i) {
            Entry entry = model_.entries[base.entries.first + i];
            entry.own = false;
            if (entry.key != Key::title && !replaces(own.entries, base, entry.key)) {
                model_.entries.push_back(entry);
            }
        }
        if (!block.has_steps) {
            block.steps = base.steps;
            block.has_steps = base.has_steps;
            block.steps_broken = block.steps_broken || base.steps_broken;
        }
        if (block.pours.count == 0 && !block.pours_broken) block.pours = base.pours;
        if (block.haves.count == 0) block.haves = base.haves;
    }
    const auto count = static_cast<std::uint32_t>(model_.entries.size()) - first;
    block.entries = {first, count};
    for (std::uint32_t i = first; i < first + count; ++i)
        block.keys.add(model_.entries[i].key);
}

void BlockReader::check_needed(BlockId id) {
    const Block& block = model_.blocks[id];
    if (block.broken) return;
    std::vector<std::string> lacks; // all in one finding, since they have one place
    std::string hint;
    const auto lack = [&](std::string_view what, const std::string& how) {
        lacks.push_back(fmt::format("`{}`", what));
        hint += (hint.empty() ? "write " : "\n") + how;
    };
    for (const PropertyInfo& row : properties_of(block.kind)) {
        if (row.needed && model_.entry(id, row.key) == nullptr) {
            lack(word(row.key), fmt::format("`{}: …` ({})", word(row.key), row.doc));
        }
    }
    if (block.kind == BlockKind::recipe && !block.has_steps && !block.steps_broken) {
        lack("steps", "`steps {`, a line for each step, and `}`");
    }
    if (!lacks.empty()) {
        findings_.report(Rule::missing_property, block.name_at,
                         fmt::format("`{}` has no {}", block.name, fmt::join(lacks, ", no ")),
                         std::move(hint));
    }
    if (block.kind == BlockKind::batch && block.pours.count == 0 && !block.pours_broken) {
        findings_.report(Rule::missing_property, block.name_at,
                         fmt::format("`{}` has no recipe to pour", block.name),
                         "write `pour 24 tide-line`, a line for each recipe");
    }
    if (block.kind == BlockKind::vessel) check_vessel_capacity(id);
    if (block.kind == BlockKind::recipe) check_added(id);
    if (block.kind == BlockKind::recipe) check_fresh(id);
    if (block.kind == BlockKind::leftover) check_leftover(id);
}

/// What a step adds must be weighed out: one of the recipe's additives.
void BlockReader::check_added(BlockId id) {
    if (model_.unreadable(id, Key::additives)) return;
    const std::span<const Share> additives = model_.blend(id, Key::additives);
    for (const Step& step : model_.steps_of(id)) {
        if (step.material == no_block) continue;
        const bool listed =
            std::any_of(additives.begin(), additives.end(),
                        [&](const Share& share) { return share.material == step.material; });
        if (listed) continue;
        findings_.report(
            Rule::wrong_kind, step.at,
            fmt::format("`{}` is not among the additives of `{}`", model_.name(step.material),
                        model_.name(id)),
            fmt::format("write how much of it: `additives: 2% {}`", model_.name(step.material)));
    }
}

/// True for pounds, ounces, cups and inches.
bool in_us_units(UnitId id) {
    return id != no_unit && (unit(id).system == System::us || unit(id).system == System::imperial);
}

/// A vessel has either `fill`, or `headspace` with `brimful` or `inside`.
void BlockReader::check_vessel_capacity(BlockId id) {
    const Block& block = model_.blocks[id];
    const auto has = [&](Key key) { return model_.entry(id, key) != nullptr; };
    const Entry* headspace = model_.entry(id, Key::headspace);
    if (has(Key::fill) && headspace != nullptr && headspace->own) {
        findings_
            .report(Rule::defined_twice, headspace->key_at,
                    "`fill` and `headspace` both say how far it is filled",
                    model_.entry(id, Key::fill)->own
                        ? "take one of them away"
                        : "write `brimful` or `inside` with the headspace, and it replaces the "
                          "`fill`; or take it away")
            .related.push_back({model_.entry(id, Key::fill)->key_at, "the other one"});
    }
    const VesselNeeds needs = vessel_needs(has);
    if (!needs.one_of.empty()) {
        findings_.report(Rule::missing_property, block.name_at,
                         fmt::format("`{}` does not say how much it holds", block.name),
                         "write `fill`; or `headspace` with `brimful` or `inside`: weigh the "
                         "water that fills it");
    } else if (needs.headspace) {
        // In the units of the vessel's own figures; what is asked for next is asked for at once.
        const auto* brimful = model_.get<Figure>(id, Key::brimful);
        const bool us = brimful != nullptr && in_us_units(brimful->quantity.unit);
        std::string hint = fmt::format("write how far below the brim the wax ends: `headspace: {}`",
                                       us ? "1/2 in" : "12 mm");
        if (needs.bore) {
            hint +=
                fmt::format(", and how wide it is inside: `bore: {}`", us ? "2 3/4 in" : "74 mm");
        }
        findings_.report(Rule::missing_property, block.name_at,
                         fmt::format("`{}` has no `headspace`", block.name), std::move(hint));
    }
}

} // namespace waxwright
