#include "model/names.hpp"

#include <algorithm>
#include <iterator>
#include <map>

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

/// Of a name that several used files declare, the one that replaces the others, else the first.
const Symbol* Names::find_used(FileId file, std::string_view name) const {
    const auto found = declaring_.find(name);
    if (found == declaring_.end()) return nullptr;
    const Symbol* best = nullptr;
    for (const FileId other : found->second) {
        if (!std::binary_search(used_[file].begin(), used_[file].end(), other)) continue;
        const Symbol& symbol = own_[other].at(name);
        if (best == nullptr || derives(symbol, *best)) best = &symbol;
    }
    return best;
}

bool Names::sees(FileId file, FileId other) const {
    return file == other || std::binary_search(used_[file].begin(), used_[file].end(), other);
}

std::vector<BlockId> Names::makers() const {
    std::vector<BlockId> own(own_.size(), no_block);
    bool any = false;
    for (BlockId id = 0; id < model_.blocks.size(); ++id) {
        const Block& block = model_.blocks[id];
        if (block.kind != BlockKind::maker || own[block.file] != no_block) continue;
        own[block.file] = id;
        any = true;
    }
    std::vector<BlockId> seen = own;
    for (FileId file = 0; any && file < seen.size(); ++file) {
        for (std::size_t i = 0; seen[file] == no_block && i < used_[file].size(); ++i)
            seen[file] = own[used_[file][i]];
    }
    return seen;
}

std::vector<std::string_view> Names::visible(FileId file) const {
    std::vector<std::string_view> names;
    const auto take = [&](FileId from) {
        if (names.size() + own_[from].size() > most_looked_through) return false;
        for (const auto& [name, symbol] : own_[from])
            names.push_back(name);
        return true;
    };
    if (!take(file) || !std::all_of(used_[file].begin(), used_[file].end(), take)) return {};
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
    FileSet& all = used_[file];
    for (const Use& use : loaded_.files[file].uses) {
        if (!all.empty()) report_clashes(file, all, use);
        FileSet more;
        const FileSet& theirs = used_[use.file];
        std::set_union(all.begin(), all.end(), theirs.begin(), theirs.end(),
                       std::back_inserter(more));
        const auto place = std::lower_bound(more.begin(), more.end(), use.file);
        if (place == more.end() || *place != use.file) more.insert(place, use.file);
        all = std::move(more);
    }
}

/// The two things of one name that `use` brings together: one of the files used before, one of its
/// own. What one of the used files sees both of has been told there.
std::optional<std::pair<Symbol, Symbol>> Names::clash(FileId file, std::string_view name,
                                                      const FileSet& before, const Use& use) const {
    const std::vector<FileId>& declaring = declaring_.at(name);
    for (const FileId late : declaring) {
        if (!sees(use.file, late)) continue;
        const Symbol& later = own_[late].at(name);
        for (const FileId early : declaring) {
            if (early == late || !std::binary_search(before.begin(), before.end(), early)) continue;
            const Symbol& earlier = own_[early].at(name);
            if (derives(later, earlier) || derives(earlier, later)) continue;
            const std::vector<Use>& uses = loaded_.files[file].uses;
            if (std::any_of(uses.begin(), uses.end(), [&](const Use& one) {
                    return sees(one.file, late) && sees(one.file, early);
                })) {
                continue;
            }
            return std::pair(earlier, later);
        }
    }
    return std::nullopt;
}

/// Tells, in one finding, every name that `use` brings a second time. The smaller side is gone
/// through: a large file is used by many.
void Names::report_clashes(FileId file, const FileSet& before, const Use& use) {
    FileSet theirs;
    std::copy_if(
        used_[use.file].begin(), used_[use.file].end(), std::back_inserter(theirs),
        [&](FileId each) { return !std::binary_search(before.begin(), before.end(), each); });
    theirs.push_back(use.file);
    const auto names_of = [&](const FileSet& files) {
        std::size_t count = 0;
        for (const FileId each : files)
            count += own_[each].size();
        return count;
    };
    const bool few = names_of(theirs) <= names_of(before);
    std::map<std::string_view, std::pair<Symbol, Symbol>> found; // by name, to tell them in order
    for (const FileId each : few ? theirs : before) {
        for (const auto& [name, symbol] : own_[each]) {
            if (declaring_.at(name).size() < 2) continue;
            if (const auto both = clash(file, name, before, use)) found.emplace(name, *both);
        }
    }
    if (found.empty()) return;
    constexpr std::size_t most_listed = 8;
    std::string names;
    std::vector<Related> related;
    for (const auto& [name, both] : found) {
        if (related.size() == 2 * most_listed) {
            names += fmt::format(" and {} more", found.size() - most_listed);
            break;
        }
        names += fmt::format("{}`{}`", names.empty() ? "" : ", ", name);
        related.push_back({both.first.at, fmt::format("one `{}` is here", name)});
        related.push_back({both.second.at, fmt::format("the other `{}` is here", name)});
    }
    findings_
        .report(Rule::defined_twice, use.at,
                fmt::format("{} {} from two of the files used here", names,
                            found.size() == 1 ? "comes" : "come"),
                found.size() == 1 ? "rename it in one of them" : "rename them in one of the files")
        .related = std::move(related);
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

/// A word that people use for such a thing goes before one that is only spelt like a kind.
void Names::report_unknown_kind(const Tree& tree, NodeId head, NodeId kind) {
    const std::string_view written = tree.text(kind);
    const Span at = tree.span(kind);
    std::string lower(written);
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    const BlockKind meant = block_kind_meant(lower);
    std::string_view behind = tree.text(head).substr(written.size());
    while (behind.ends_with(' '))
        behind.remove_suffix(1);
    std::string hint =
        meant == BlockKind::unknown
            ? did_you_mean(written, block_kind_words())
            : fmt::format("is it {}? write `{}{} {{`", with_article(meant), word(meant), behind);
    if (hint.empty()) {
        hint = fmt::format("the kinds are {}", fmt::join(block_kind_words(), ", "));
    }
    Finding& finding = findings_.report(
        Rule::syntax, at, fmt::format("`{}` is not a kind of block", written), std::move(hint));
    if (meant == BlockKind::unknown) {
        offer_nearest(finding, at, written, block_kind_words(), Spelling::word);
    } else {
        finding.fixes.push_back(put(at, std::string(word(meant)), false));
    }
}

void Names::enter_block(FileId file, NodeId node) {
    const Tree& tree = loaded_.files[file].tree;
    const NodeId head = tree.children(node)[0];
    if (tree.kind(head) == Kind::broken) {
        enter_broken_head(file, node, head);
        return;
    }
    const Children parts = tree.children(head);
    const std::string_view name = tree.text(parts[1]);
    const Span at = tree.span(parts[1]);
    const BlockKind kind = find_block_kind(tree.text(parts[0]));
    const bool like_own_name = parts.size() > 2 && tree.text(parts[2]) == name;
    if (kind == BlockKind::unknown) {
        report_unknown_kind(tree, head, parts[0]);
        declare(file, name, {Symbol::What::poisoned, 0, at}, true);
        return;
    }
    Span head_at = tree.span(head);
    head_at.end = tree.span(parts[parts.size() - 1]).end;
    const auto id = static_cast<BlockId>(model_.blocks.size());
    model_.blocks.push_back({.kind = kind,
                             .file = file,
                             .name = name,
                             .name_at = at,
                             .head_at = head_at,
                             .whole_at = tree.span(node)});
    block_nodes.push_back(node);
    const bool good = is_name(name, at);
    declare(file, name, {good ? Symbol::What::block : Symbol::What::poisoned, id, at},
            like_own_name);
    if (good) return;
    // `vessel jam_jar` is meant to be jam-jar: who writes that has the right name for it.
    model_.texts.push_back(as_name(name));
    const std::string_view stored = model_.texts.back();
    const Symbol symbol{Symbol::What::poisoned, id, at};
    if (own_[file].emplace(stored, symbol).second) declaring_[stored].push_back(file);
}

/// A head that could not be read still declares the word where its name should be.
void Names::enter_broken_head(FileId file, NodeId node, NodeId head) {
    const std::string_view text = loaded_.files[file].tree.text(head);
    const std::size_t begin = text.find_first_not_of(" \t", text.find_first_of(" \t"));
    if (begin == std::string_view::npos) return;
    const std::string_view name = text.substr(begin, text.find_first_of(" \t{", begin) - begin);
    // `vessel jam jar {` is used as jam-jar.
    const std::string joined =
        as_name(text.substr(begin, text.find_last_not_of(" \t{") + 1 - begin));
    Symbol symbol{Symbol::What::poisoned, 0, loaded_.files[file].tree.span(head)};
    const BlockKind kind = find_block_kind(text.substr(0, text.find_first_of(" \t")));
    model_.texts.push_back(joined);
    const std::string_view stored = model_.texts.back();
    // Its inside is read as if it were named so, that all of the file is told at once.
    if (kind != BlockKind::unknown && is_kebab(stored) && stored.find("like") == stored.npos) {
        symbol = {Symbol::What::block, static_cast<BlockId>(model_.blocks.size()), symbol.at};
        model_.blocks.push_back({.kind = kind,
                                 .file = file,
                                 .name = stored,
                                 .name_at = symbol.at,
                                 .head_at = symbol.at,
                                 .whole_at = loaded_.files[file].tree.span(node)});
        block_nodes.push_back(node);
    }
    declare(file, name, symbol, true);
    if (joined == name) return;
    if (own_[file].emplace(stored, symbol).second) declaring_[stored].push_back(file);
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
    const std::string_view name = line.substr(begin, line.find_first_of(" \t=:", begin) - begin);
    const Symbol symbol{Symbol::What::poisoned, 0, loaded_.files[file].tree.span(node)};
    if (own_[file].emplace(name, symbol).second) declaring_[name].push_back(file);
}

/// False if the name is taken, which is told.
bool Names::declare(FileId file, std::string_view name, Symbol symbol, bool like_own_name) {
    const auto [place, fresh] = own_[file].try_emplace(name, symbol);
    if (fresh) declaring_[name].push_back(file);
    const Symbol* used = find_used(file, name);
    const Symbol* first = fresh ? used : &place->second;
    if (first == nullptr || (fresh && like_own_name)) return true;
    const bool library = model_.sources[first->at.file].is_library();
    if (library && fresh && is_of_other_kind(symbol, *first)) {
        report_other_kind(name, symbol, *first);
        own_[file].erase(name); // what the library calls so is what the rest of the file means
        return false;
    }
    Finding& finding = findings_.report(
        Rule::defined_twice, symbol.at, fmt::format("there is a `{}` already", name),
        library ? fmt::format("it is in the standard library: write `like {}` after the name to "
                              "change it, or take another name",
                              name)
                : std::string("take another name for one of them"));
    if (!library) finding.related.push_back({first->at, "it stands here first"});
    return false;
}

bool Names::is_kebab(std::string_view name) {
    const bool good = std::all_of(name.begin(), name.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
    return good && name.find("--") == std::string_view::npos;
}

bool Names::is_of_other_kind(const Symbol& one, const Symbol& other) const {
    return one.what == Symbol::What::block && other.what == Symbol::What::block &&
           model_.blocks[one.id].kind != model_.blocks[other.id].kind;
}

/// `recipe lavender`: the library's is an oil, and nothing is like a thing of another kind.
void Names::report_other_kind(std::string_view name, const Symbol& own, const Symbol& library) {
    const BlockKind kind = model_.blocks[own.id].kind;
    const std::string_view ending = kind == BlockKind::recipe ? "candle" : word(kind);
    std::string other = fmt::format("{}-{}", name, ending);
    Finding& finding = findings_.report(
        Rule::defined_twice, own.at,
        fmt::format("there is a `{}` already: the standard library has {} of that name", name,
                    with_article(model_.blocks[library.id].kind)),
        fmt::format("take another name: `{}`, for example", other));
    finding.fixes.push_back(put(own.at, std::move(other), false));
}

std::string Names::as_name(std::string_view name) {
    std::string better;
    for (const char c : name) {
        const bool joint = c == '_' || c == '-' || c == ' ' || c == '\t';
        if (joint && !better.empty() && better.back() == '-') continue;
        better += joint ? '-' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return better;
}

bool Names::is_name(std::string_view name, Span at) {
    if (is_reserved(name)) {
        findings_.report(Rule::syntax, at, fmt::format("`{}` is a word of the language", name),
                         fmt::format("take another name: `my-{}`, for example", name));
        return false;
    }
    if (is_kebab(name)) return true;
    std::string better = as_name(name);
    Finding& finding =
        findings_.report(Rule::syntax, at, fmt::format("`{}` can't be a name", name),
                         fmt::format("a name is lower-case words joined by hyphens: `{}`", better));
    const bool good = is_kebab(better) && !is_reserved(better);
    finding.fixes.push_back(put(at, std::move(better), good)); // refused where a use would be lost
    return false;
}

} // namespace waxwright
