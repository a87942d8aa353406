#include "model/reader.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/build.hpp"
#include "model/library.hpp"
#include "syntax/parse.hpp"

namespace waxwright {

namespace {

/// Every name of the standard library with its module, sorted by name. Its blocks begin a line
/// each: `oil lavender {`.
std::vector<LibraryName> all_library_names() {
    std::vector<LibraryName> names;
    for (const LibraryModule& module : library_modules()) {
        for (std::size_t at = 0; at < module.text.size();) {
            const std::size_t end = std::min(module.text.find('\n', at), module.text.size());
            const std::string_view line = module.text.substr(at, end - at);
            at = end + 1;
            const std::size_t kind = line.find(' ');
            if (kind == std::string_view::npos || line.find('{') == std::string_view::npos)
                continue;
            if (find_block_kind(line.substr(0, kind)) == BlockKind::unknown) continue;
            const std::size_t stop = std::min(line.find_first_of(" {", kind + 1), line.size());
            names.push_back({line.substr(kind + 1, stop - kind - 1), module.name});
        }
    }
    std::sort(names.begin(), names.end(),
              [](const LibraryName& a, const LibraryName& b) { return a.name < b.name; });
    return names;
}

} // namespace

Reader::Reader(const LoadedFiles& loaded, Names& names, Model& model, Findings& findings)
    : loaded_(loaded), names_(names), model_(model), findings_(findings),
      block_states_(model.blocks.size(), State::untouched), let_figures_(names.lets.size()),
      let_blends_(names.lets.size()) {}

void Reader::read_all() {
    // Steps and entries are most of a large model: their room is counted, not doubled and copied as
    // it fills.
    std::size_t steps = 0, properties = 0;
    for (const auto& file : loaded_.files) {
        for (const Node& node : file.tree.nodes) {
            steps += node.kind == Kind::clause ? 1 : 0;
            properties += node.kind == Kind::property ? 1 : 0;
        }
    }
    model_.steps.reserve(steps);
    model_.entries.reserve(properties + properties / 4); // some are taken over by `like`
    for (BlockId id = 0; id < model_.blocks.size(); ++id) {
        if (model_.in_library(id) || findings_.too_many(model_.blocks[id].file)) continue;
        ensure(id);
        if (model_.blocks[id].kind == BlockKind::test_burn) model_.test_burns.push_back(id);
    }
    const auto of = [this](BlockId burn) {
        const auto* ref = model_.get<Ref>(burn, Key::of);
        return ref != nullptr ? ref->block : no_block;
    };
    std::stable_sort(model_.test_burns.begin(), model_.test_burns.end(),
                     [&](BlockId a, BlockId b) { return of(a) < of(b); });
    check_lets();
    report_unknown_names();
}

const Symbol* Reader::look_up(At name) {
    const Symbol* symbol = names_.find(name.file, text(name));
    if (symbol == nullptr) unknown_name(name.file, text(name), span(name));
    return symbol;
}

/// Kept till the end, so that each name is told once, where it stands first, with its other places.
void Reader::unknown_name(FileId file, std::string_view name, Span at, std::string_view also) {
    if (findings_.too_many(file)) return;
    const auto [place, fresh] = unknown_names_.try_emplace({file, name});
    place->second.places.push_back(at);
    if (!fresh) return;
    // Looking through all names is for a file with a few misspelt ones, not with thousands.
    constexpr std::size_t most_looked_up = 200;
    std::vector<std::string_view> names;
    if (unknown_names_.size() <= most_looked_up) names = names_.visible(file);
    if (!also.empty()) names.insert(names.begin(), also);
    Unknown& unknown = place->second;
    unknown.hint = unknown_hint(file, name, names);
    unknown.meant = nearest(name, names);
    // What could not be read may have declared the very name.
    unknown.sure = !loaded_.files[file].incomplete && !unknown.meant.empty() &&
                   surely_meant(name, unknown.meant, names, Spelling::name);
}

namespace {

/// "which one: `clove-bud`, `clove-leaf`?": names of which this is a word, or the beginning of one.
std::string kinds_of(std::string_view name, std::span<const std::string_view> names) {
    constexpr std::size_t most_shown = 4;
    constexpr std::size_t long_enough = 5; // `rose` is no short word for rosemary
    std::vector<std::string> kinds;
    for (const std::string_view each : names) {
        for (std::size_t at = 0; at < each.size();) {
            const std::size_t end = std::min(each.find('-', at), each.size());
            const std::string_view part = each.substr(at, end - at);
            if (part == name || (name.size() >= long_enough && part.starts_with(name))) {
                kinds.push_back(fmt::format("`{}`", each));
                break;
            }
            at = end + 1;
        }
    }
    if (kinds.empty() || kinds.size() > 2 * most_shown) return {};
    std::sort(kinds.begin(), kinds.end());
    kinds.resize(std::min(kinds.size(), most_shown));
    return fmt::format("which one: {}?", fmt::join(kinds, ", "));
}

} // namespace

/// Empty where the name may be in a file that could not be read.
std::string Reader::unknown_hint(FileId file, std::string_view name,
                                 std::span<const std::string_view> names) {
    // Where something could not be read the name may stand there: only a slip of one letter is
    // sure.
    if (loaded_.files[file].incomplete && nearest(name, names, 1).empty()) return {};
    std::string hint = did_you_mean(name, names);
    if (!hint.empty()) return hint;
    hint = kinds_of(name, names);
    if (!hint.empty()) return hint;
    hint = module_hint(name);
    return hint.empty() ? "declare it in this file, or `use` the module or file that has it" : hint;
}

/// The module of the standard library that has a block of this name, as a hint.
std::string Reader::module_hint(std::string_view name) {
    if (library_names_.empty()) library_names_ = all_library_names();
    const auto found = std::lower_bound(
        library_names_.begin(), library_names_.end(), name,
        [](const LibraryName& each, std::string_view wanted) { return each.name < wanted; });
    if (found == library_names_.end() || found->name != name) return {};
    return fmt::format("the standard library has it: `use {}`", found->module);
}

void Reader::report_unknown_names() {
    constexpr std::size_t most_shown = 3; // places besides the first
    for (auto& [key, unknown] : unknown_names_) {
        if (unknown.hint.empty()) continue;
        std::vector<Span>& places = unknown.places;
        std::sort(places.begin(), places.end(),
                  [](const Span& a, const Span& b) { return a.begin < b.begin; });
        places.erase(std::unique(places.begin(), places.end()), places.end());
        Finding& finding = findings_.report(Rule::unknown_name, places.front(),
                                            fmt::format("nothing here is called `{}`", key.second),
                                            std::move(unknown.hint));
        for (std::size_t i = 1; i < places.size() && i <= most_shown; ++i) {
            const std::size_t left = i == most_shown ? places.size() - 1 - i : 0;
            finding.related.push_back(
                {places[i], left == 0 ? std::string("it is used here too")
                                      : fmt::format("it is used here too, and {} more time{}", left,
                                                    left == 1 ? "" : "s")});
        }
        if (unknown.meant.empty()) continue;
        Fix fix = put(places.front(), std::string(unknown.meant), unknown.sure);
        for (std::size_t i = 1; i < places.size(); ++i)
            fix.edits.push_back({places[i], std::string(unknown.meant)});
        finding.fixes.push_back(std::move(fix));
    }
}

void Reader::not_expected(At node) {
    add_use(findings_.report(Rule::syntax, span(node),
                             fmt::format("`{}` does not belong here", text(node)), "take it away"));
}

void Reader::add_use(Finding& finding) {
    if (used_at_) finding.related.push_back({*used_at_, "this is where it is used"});
}

std::optional<At> Reader::only_phrase(At value) {
    const Children phrases = children(value);
    if (phrases.size() > 1) {
        not_expected({value.file, phrases[1]});
        return std::nullopt;
    }
    return At{value.file, phrases[0]};
}

std::optional<At> Reader::only_operand(At value, std::string_view wanted_thing) {
    const std::optional<At> phrase = only_phrase(value);
    if (!phrase) return std::nullopt;
    const Children parts = children(*phrase);
    if (parts.size() == 1) return At{value.file, parts[0]};
    const At tail{value.file, parts[1]};
    add_use(findings_.report(Rule::syntax, span(tail),
                             fmt::format("{} is wanted here, and `{}` does not belong after it",
                                         wanted_thing, text(tail))));
    return std::nullopt;
}

std::optional<At> Reader::resolved(At value) {
    std::vector<LetId> path;
    for (;;) {
        const Children phrases = children(value);
        if (phrases.size() != 1) return value;
        const Children parts = children({value.file, phrases[0]});
        if (parts.size() != 1) return value;
        const At name{value.file, parts[0]};
        if (kind(name) != Kind::name) return value;
        const Symbol* symbol = names_.find(value.file, text(name));
        if (symbol == nullptr || symbol->what != Symbol::What::let) return value;
        Let& let = names_.lets[symbol->id];
        let.used = true;
        if (let.looped) return std::nullopt;
        if (std::find(path.begin(), path.end(), symbol->id) != path.end()) {
            report_let_loop(symbol->id, path);
            return std::nullopt;
        }
        if (path.size() >= deepest_nesting) {
            findings_.report(
                Rule::nesting, let.name_at,
                fmt::format("names are made of names more than {} deep", deepest_nesting));
            return std::nullopt;
        }
        path.push_back(symbol->id);
        value = {let.file, let.value};
    }
}

/// Tells a loop once: `path` holds the lets that led back to `id`.
void Reader::report_let_loop(LetId id, const std::vector<LetId>& path) {
    std::string way;
    for (auto step = std::find(path.begin(), path.end(), id); step != path.end(); ++step) {
        names_.lets[*step].looped = true;
        if (*step == id) continue;
        way += fmt::format("{}`{}`", way.empty() ? ", by way of " : ", ", names_.lets[*step].name);
    }
    findings_.report(Rule::let_loop, names_.lets[id].name_at,
                     fmt::format("`{}` is worked out from itself{}", names_.lets[id].name, way),
                     way.empty() ? "write what it is without its own name"
                                 : "write what one of them is without the others");
}

/// A let that nobody uses is still read, so that its mistakes are found.
void Reader::check_lets() {
    for (LetId id = 0; id < names_.lets.size(); ++id) {
        const Let& let = names_.lets[id];
        if (let.used || model_.sources[let.file].is_library()) continue;
        if (findings_.too_many(let.file)) continue;
        if (!let.told) {
            findings_.report(Rule::unused_name, let.name_at,
                             fmt::format("`{}` is never used", let.name),
                             "take it away, or use it");
        }
        const Children phrases = tree(let.file).children(let.value);
        const Children parts = children({let.file, phrases[0]});
        const At operand{let.file, parts[0]};
        if (phrases.size() > 1 || kind(operand) == Kind::text || kind(operand) == Kind::date) {
            continue;
        }
        bool blend = kind(operand) == Kind::item || kind(operand) == Kind::rest;
        if (kind(operand) == Kind::sum) {
            for (const NodeId part : children(operand)) {
                const Kind part_kind = tree(let.file).kind(part);
                blend = blend || part_kind == Kind::item || part_kind == Kind::rest;
            }
        }
        if (blend) {
            let_blend(id);
        } else if (kind(operand) == Kind::name) {
            look_up(operand);
        } else {
            figure(operand);
        }
    }
}

Model build_model(Sources& sources, const ReadFile& read, Findings& findings) {
    Model model(sources);
    for (FileId root = 0; root < sources.size(); ++root) {
        model.roots.push_back(root);
    }
    const LoadedFiles loaded = load_files(sources, read, findings);
    Names names(loaded, model, findings);
    Reader(loaded, names, model, findings).read_all();
    return model;
}

} // namespace waxwright
