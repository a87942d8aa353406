#include "model/name_lookup.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/library.hpp"
#include "model/phrase_text.hpp"
#include "model/use_module.hpp"

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
            const BlockKind block = find_block_kind(line.substr(0, kind));
            if (block == BlockKind::unknown) continue;
            const std::size_t stop = std::min(line.find_first_of(" {", kind + 1), line.size());
            names.push_back({line.substr(kind + 1, stop - kind - 1), module.name, block});
        }
    }
    std::sort(names.begin(), names.end(),
              [](const LibraryName& a, const LibraryName& b) { return a.name < b.name; });
    return names;
}

} // namespace

const Symbol* NameLookup::look_up(At name, BlockKind refers) {
    const Symbol* symbol = names_.find(name.file, text(name));
    if (symbol == nullptr) {
        unknown_name(name.file, text(name), span(name), refers);
    } else {
        names_.found(span(name), *symbol);
    }
    return symbol;
}

/// Kept till the end, so that each name is told once, where it stands first, with its other places.
void NameLookup::unknown_name(FileId file, std::string_view name, Span at, BlockKind refers,
                              std::string_view also) {
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
    const std::string written = Names::as_name(name);
    const auto same = std::find(names.begin(), names.end(), written);
    if (same != names.end()) { // only its capitals differ, or what joins its parts
        unknown.hint = fmt::format("write `{}`", written);
        unknown.meant = *same;
        unknown.sure = true;
        return;
    }
    unknown.hint = unknown_hint(file, name, names, refers, unknown);
    unknown.meant = nearest(name, names);
    // What could not be read may have declared the very name.
    unknown.sure = !loaded_.files[file].incomplete && !unknown.meant.empty() &&
                   surely_meant(name, unknown.meant, names, Spelling::name);
}

namespace {

/// The words of a name, between its hyphens.
std::vector<std::string_view> words_of(std::string_view name) {
    std::vector<std::string_view> words;
    for (std::size_t at = 0; at <= name.size();) {
        const std::size_t end = std::min(name.find('-', at), name.size());
        words.push_back(name.substr(at, end - at));
        at = end + 1;
    }
    return words;
}

/// True if each word of `some` is one of `all`, or begins one where it is long enough to say so.
bool has_all(std::span<const std::string_view> all, std::span<const std::string_view> some) {
    constexpr std::size_t long_enough = 5; // `rose` is no short word for rosemary
    return std::all_of(some.begin(), some.end(), [&](std::string_view word) {
        return std::any_of(all.begin(), all.end(), [&](std::string_view each) {
            return each == word || (word.size() >= long_enough && each.starts_with(word));
        });
    });
}

/// Names that have all words of this one, in any order; where there is none, such as have no other
/// words than it has: `orange` of `sweet-orange`.
std::vector<std::string_view> kinds_of(std::string_view name,
                                       std::span<const std::string_view> names) {
    constexpr std::size_t most_shown = 6;
    constexpr std::size_t shortest = 4; // of a name that is a part of this one
    const std::vector<std::string_view> wanted = words_of(name);
    std::vector<std::string_view> kinds;
    std::vector<std::string_view> parts;
    for (const std::string_view each : names) {
        const std::vector<std::string_view> words = words_of(each);
        if (has_all(words, wanted)) {
            kinds.push_back(each);
        } else if (each.size() >= shortest && wanted.size() > words.size() &&
                   std::all_of(words.begin(), words.end(), [&](std::string_view word) {
                       return std::find(wanted.begin(), wanted.end(), word) != wanted.end();
                   })) {
            parts.push_back(each);
        }
    }
    if (kinds.empty()) kinds = std::move(parts);
    if (kinds.empty() || kinds.size() > 2 * most_shown) return {};
    std::sort(kinds.begin(), kinds.end());
    kinds.resize(std::min(kinds.size(), most_shown));
    return kinds;
}

/// "which one: `clove-bud`, `clove-leaf`?"
std::string kinds_words(std::span<const std::string_view> kinds) {
    if (kinds.empty()) return {};
    if (kinds.size() == 1) return fmt::format("did you mean `{}`?", kinds.front());
    return fmt::format("which one: `{}`?", fmt::join(kinds, "`, `"));
}

} // namespace

/// The names of such blocks as are wanted; where that isn't known, of all that a recipe is made of.
std::vector<std::string_view>
NameLookup::of_kind(FileId file, std::span<const std::string_view> names, BlockKind refers) const {
    std::vector<std::string_view> fitting;
    for (const std::string_view name : names) {
        const Symbol* symbol = names_.find(file, name);
        if (symbol == nullptr || symbol->what == Symbol::What::poisoned) continue;
        if (symbol->what == Symbol::What::let) {
            if (refers == BlockKind::unknown) fitting.push_back(name);
            continue;
        }
        const BlockKind kind = model_.blocks[symbol->id].kind;
        const bool fits = refers != BlockKind::unknown
                              ? kind == refers
                              : bought(kind) != Bought::never || kind == BlockKind::substance;
        if (fits) fitting.push_back(name);
    }
    return fitting;
}

namespace {

/// What to type for a thing that is not there yet.
std::string declare_it(std::string_view name, BlockKind refers) {
    if (!is_kebab(name)) return "declare it in this file";
    if (refers == BlockKind::unknown) {
        return fmt::format(
            "write what it is, `let {0} = …` for a figure, or a block such as `wax {0} "
            "{{`",
            name);
    }
    return fmt::format("give it a block of its own, `{} {} {{`", word(refers), name);
}

} // namespace

/// Empty where the name may be in a file that could not be read.
std::string NameLookup::unknown_hint(FileId file, std::string_view name,
                                     std::span<const std::string_view> names, BlockKind refers,
                                     Unknown& unknown) {
    // Where something could not be read the name may stand there: only a slip of one letter is
    // sure.
    if (loaded_.files[file].incomplete && nearest(name, names, 1).empty()) return {};
    std::string hint = did_you_mean(name, names);
    if (!hint.empty()) return hint;
    unknown.kinds = kinds_of(name, of_kind(file, names, refers));
    hint = kinds_words(unknown.kinds);
    if (!hint.empty()) return hint;
    hint = module_hint(name, unknown);
    if (hint.empty()) hint = library_kinds(name, refers, unknown);
    if (hint.empty()) hint = those_there(name, of_kind(file, names, refers), refers, unknown);
    if (!hint.empty()) return hint;
    return declare_it(name, refers) + ", or `use` the module or file that has it";
}

/// A thing that was given another name by hand: those of its kind that are there. The makers' own
/// come before the library's.
std::string NameLookup::those_there(std::string_view name, std::vector<std::string_view> fitting,
                                    BlockKind refers, Unknown& unknown) {
    constexpr std::size_t most_shown = 6;
    if (refers == BlockKind::unknown) return {};
    const auto own_end =
        std::stable_partition(fitting.begin(), fitting.end(),
                              [&](std::string_view each) { return module_of(each).empty(); });
    const bool own = own_end != fitting.begin();
    if (own) fitting.erase(own_end, fitting.end());
    if (fitting.empty() || fitting.size() > most_shown) return {};
    unknown.kinds = std::move(fitting);
    const std::string which =
        unknown.kinds.size() == 1
            ? fmt::format("is it `{}`, {} {}?", unknown.kinds.front(),
                          own ? "your only" : "the only", word(refers))
            : fmt::format("which {}{} is it: `{}`?", word(refers), own ? " of yours" : "",
                          fmt::join(unknown.kinds, "`, `"));
    return fmt::format("{} If it is another, {}, or `use` the file that has it", which,
                       declare_it(name, refers));
}

/// The module of the standard library that has a block of this name; empty if none has.
std::string_view NameLookup::module_of(std::string_view name) {
    if (library_names_.empty()) library_names_ = all_library_names();
    const auto found = std::lower_bound(
        library_names_.begin(), library_names_.end(), name,
        [](const LibraryName& each, std::string_view wanted) { return each.name < wanted; });
    return found == library_names_.end() || found->name != name ? std::string_view()
                                                                : found->module;
}

std::string NameLookup::module_hint(std::string_view name, Unknown& unknown) {
    unknown.module = module_of(name);
    if (unknown.module.empty()) return {};
    return fmt::format("the standard library has it: `use {}`", unknown.module);
}

/// Of the library, though not used here: `cotton` without `use wicks`.
std::string NameLookup::library_kinds(std::string_view name, BlockKind refers, Unknown& unknown) {
    std::vector<std::string_view> names;
    for (const LibraryName& each : library_names_)
        if (refers == BlockKind::unknown || each.kind == refers) names.push_back(each.name);
    unknown.kinds = kinds_of(name, names);
    if (unknown.kinds.empty()) return {};
    unknown.module = module_of(unknown.kinds.front());
    return fmt::format("{} The library has them: `use {}`", kinds_words(unknown.kinds),
                       unknown.module);
}

void NameLookup::report_unknown_names() {
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
        offer_meant(key.first, unknown, finding);
    }
}

Edit NameLookup::use_of(FileId file, std::string_view module) const {
    return use_module(tree(file), model_.sources[file], module);
}

/// The nearest name, in all its places; else each of those that it may be, and the module that it,
/// or they, are in.
void NameLookup::offer_meant(FileId file, const Unknown& unknown, Finding& finding) {
    const auto offer = [&](std::string_view name, bool sure) {
        Fix fix = put(unknown.places.front(), std::string(name), sure);
        for (std::size_t i = 1; i < unknown.places.size(); ++i)
            fix.edits.push_back({unknown.places[i], std::string(name)});
        if (!unknown.module.empty()) fix.edits.push_back(use_of(file, module_of(name)));
        finding.fixes.push_back(std::move(fix));
    };
    if (!unknown.meant.empty()) return offer(unknown.meant, unknown.sure);
    for (const std::string_view kind : unknown.kinds)
        offer(kind, false);
    if (unknown.kinds.empty() && !unknown.module.empty()) {
        finding.fixes.push_back(
            {fmt::format("add `use {}`", unknown.module), {use_of(file, unknown.module)}, false});
    }
}

} // namespace waxwright
