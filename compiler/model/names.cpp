#include "model/names.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"

namespace waxwright {

Names::Names(const LoadedFiles& loaded, Model& model, Findings& findings)
    : loaded_(loaded), model_(model), findings_(findings), own_(loaded.files.size()),
      used_(loaded.files.size()) {
    for (const FileId file : loaded.order) {
        enter_used(file);
        enter_file(file);
    }
}

const Symbol* Names::find(FileId file, std::string_view name) const {
    const auto found = own_[file].find(name);
    return found != own_[file].end() ? &found->second : find_used(file, name);
}

const Symbol* Names::find_used(FileId file, std::string_view name) const {
    const auto found = used_[file].find(name);
    return found != used_[file].end() ? &found->second : nullptr;
}

std::vector<std::string_view> Names::visible(FileId file) const {
    std::vector<std::string_view> names;
    if (own_[file].size() + used_[file].size() > most_looked_through) return names;
    for (const Table* table : {&own_[file], &used_[file]}) {
        for (const auto& [name, symbol] : *table) {
            names.push_back(name);
        }
    }
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    return names;
}

/// True if `later` is a block `like` the block `earlier`, under the same name: then it replaces it
/// for whoever uses both.
bool Names::derives(const Symbol& later, const Symbol& earlier) const {
    if (later.what != Symbol::What::block || earlier.what != Symbol::What::block) return false;
    const Block& block = model_.blocks[later.id];
    const Symbol* base = find_used(block.file, block.name);
    return base != nullptr && base->what == Symbol::What::block &&
           (base->id == earlier.id || derives(*base, earlier));
}

void Names::enter_used(FileId file) {
    Table& table = used_[file];
    for (const Use& use : loaded_.files[file].uses) {
        for (const Table* theirs : {&own_[use.file], &used_[use.file]}) {
            for (const auto& [name, symbol] : *theirs) {
                if (theirs == &used_[use.file] && own_[use.file].contains(name)) continue;
                const auto [place, fresh] = table.try_emplace(name, symbol);
                if (fresh || place->second.at == symbol.at) continue;
                if (derives(symbol, place->second)) {
                    place->second = symbol;
                } else if (!derives(place->second, symbol)) {
                    findings_
                        .report(Rule::defined_twice, use.at,
                                fmt::format("`{}` comes from two of the files used here", name),
                                "rename it in one of them")
                        .related = {{place->second.at, "one is here"}, {symbol.at, "one is here"}};
                }
            }
        }
    }
}

void Names::enter_file(FileId file) {
    const Tree& tree = loaded_.files[file].tree;
    for (const NodeId node : tree.children(tree.root())) {
        if (tree.kind(node) == Kind::block) {
            enter_block(file, node);
        } else if (tree.kind(node) == Kind::let) {
            enter_let(file, node);
        } else if (tree.kind(node) == Kind::broken) {
            enter_broken(file, node);
        }
    }
}

void Names::enter_block(FileId file, NodeId node) {
    const Tree& tree = loaded_.files[file].tree;
    const NodeId head = tree.children(node)[0];
    if (tree.kind(head) == Kind::broken) {
        enter_broken_head(file, head);
        return;
    }
    const Children parts = tree.children(head);
    const std::string_view name = tree.text(parts[1]);
    const Span at = tree.span(parts[1]);
    const BlockKind kind = find_block_kind(tree.text(parts[0]));
    const bool like_own_name = parts.size() > 2 && tree.text(parts[2]) == name;
    if (kind == BlockKind::unknown) {
        std::string hint = did_you_mean(tree.text(parts[0]), block_kind_words());
        if (hint.empty()) {
            hint = fmt::format("the kinds are {}", fmt::join(block_kind_words(), ", "));
        }
        Finding& finding = findings_.report(
            Rule::syntax, tree.span(parts[0]),
            fmt::format("`{}` is no kind of block", tree.text(parts[0])), std::move(hint));
        offer_nearest(finding, tree.span(parts[0]), tree.text(parts[0]), block_kind_words(),
                      Spelling::word);
        declare(file, name, {Symbol::What::poisoned, 0, at}, true);
        return;
    }
    Span head_at = tree.span(head);
    head_at.end = tree.span(parts[parts.size() - 1]).end;
    const auto id = static_cast<BlockId>(model_.blocks.size());
    model_.blocks.push_back({.kind = kind,
                             .file = file,
                             .node = node,
                             .name = name,
                             .name_at = at,
                             .head_at = head_at,
                             .whole_at = tree.span(node)});
    const bool good = is_name(name, at);
    declare(file, name, {good ? Symbol::What::block : Symbol::What::poisoned, id, at},
            like_own_name);
}

/// A head that could not be read still declares the word where its name should be.
void Names::enter_broken_head(FileId file, NodeId head) {
    const std::string_view text = loaded_.files[file].tree.text(head);
    const std::size_t begin = text.find_first_not_of(" \t", text.find_first_of(" \t"));
    if (begin == std::string_view::npos) return;
    const std::string_view name = text.substr(begin, text.find_first_of(" \t{", begin) - begin);
    declare(file, name, {Symbol::What::poisoned, 0, loaded_.files[file].tree.span(head)}, true);
}

void Names::enter_let(FileId file, NodeId node) {
    const Tree& tree = loaded_.files[file].tree;
    const Children parts = tree.children(node);
    const std::string_view name = tree.text(parts[0]);
    const Span at = tree.span(parts[0]);
    const auto id = static_cast<LetId>(lets.size());
    lets.push_back({file, parts[1], name, at});
    const bool good = is_name(name, at);
    const bool fresh =
        declare(file, name, {good ? Symbol::What::let : Symbol::What::poisoned, id, at}, false);
    lets[id].told = !good || !fresh;
}

/// A `let` that could not be read still declares its name, if it got that far.
void Names::enter_broken(FileId file, NodeId node) {
    constexpr std::string_view blanks = " \t";
    const std::string_view line = loaded_.files[file].tree.text(node);
    if (!line.starts_with("let") || line.find_first_of(blanks) != 3) return;
    const std::size_t begin = line.find_first_not_of(blanks, 3);
    if (begin == std::string_view::npos) return;
    const std::string_view name = line.substr(begin, line.find_first_of(" \t=", begin) - begin);
    if (own_[file].contains(name)) return;
    own_[file].emplace(name,
                       Symbol{Symbol::What::poisoned, 0, loaded_.files[file].tree.span(node)});
}

/// False if the name is taken, which is told.
bool Names::declare(FileId file, std::string_view name, Symbol symbol, bool like_own_name) {
    const auto [place, fresh] = own_[file].try_emplace(name, symbol);
    const Symbol* used = find_used(file, name);
    const Symbol* first = fresh ? used : &place->second;
    if (first == nullptr || (fresh && like_own_name)) return true;
    const bool library = model_.sources[first->at.file].is_library();
    Finding& finding = findings_.report(
        Rule::defined_twice, symbol.at, fmt::format("`{}` is there already", name),
        library ? fmt::format("it is in the standard library: write `like {}` behind the name to "
                              "change it, or take another name",
                              name)
                : std::string("take another name for one of them"));
    if (!library) finding.related.push_back({first->at, "it stands here first"});
    return false;
}

bool Names::is_name(std::string_view name, Span at) {
    if (is_reserved(name)) {
        findings_.report(Rule::syntax, at, fmt::format("`{}` is a word of the language", name),
                         fmt::format("take another name: `my-{}`, for example", name));
        return false;
    }
    const bool kebab = std::all_of(name.begin(), name.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
    if (kebab && name.find("--") == std::string_view::npos) return true;
    std::string better;
    for (const char c : name) {
        const bool joint = c == '_' || c == '-';
        if (joint && !better.empty() && better.back() == '-') continue;
        better += joint ? '-' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    findings_.report(Rule::syntax, at, fmt::format("`{}` is no name", name),
                     fmt::format("a name is lower-case words joined by hyphens: `{}`", better));
    return false;
}

} // namespace waxwright
