#include "model/name_lookup.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/library.hpp"

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

const Symbol* NameLookup::look_up(At name) {
    const Symbol* symbol = names_.find(name.file, text(name));
    if (symbol == nullptr) unknown_name(name.file, text(name), span(name));
    return symbol;
}

/// Kept till the end, so that each name is told once, where it stands first, with its other places.
void NameLookup::unknown_name(FileId file, std::string_view name, Span at, std::string_view also) {
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
        if (each.size() > name.size() && each.starts_with(name) && each[name.size()] == '-') {
            kinds.push_back(fmt::format("`{}`", each)); // `cotton-braid`
            continue;
        }
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
std::string NameLookup::unknown_hint(FileId file, std::string_view name,
                                     std::span<const std::string_view> names) {
    // Where something could not be read the name may stand there: only a slip of one letter is
    // sure.
    if (loaded_.files[file].incomplete && nearest(name, names, 1).empty()) return {};
    std::string hint = did_you_mean(name, names);
    if (!hint.empty()) return hint;
    hint = kinds_of(name, names);
    if (!hint.empty()) return hint;
    hint = module_hint(name);
    if (hint.empty()) hint = library_kinds(name);
    return hint.empty() ? "declare it in this file, or `use` the module or file that has it" : hint;
}

/// The module of the standard library that has a block of this name, as a hint.
std::string NameLookup::module_hint(std::string_view name) {
    if (library_names_.empty()) library_names_ = all_library_names();
    const auto found = std::lower_bound(
        library_names_.begin(), library_names_.end(), name,
        [](const LibraryName& each, std::string_view wanted) { return each.name < wanted; });
    if (found == library_names_.end() || found->name != name) return {};
    return fmt::format("the standard library has it: `use {}`", found->module);
}

/// Of the library, though not used here: `cotton` without `use wicks`.
std::string NameLookup::library_kinds(std::string_view name) {
    std::vector<std::string_view> names;
    for (const LibraryName& each : library_names_)
        names.push_back(each.name);
    const std::string kinds = kinds_of(name, names);
    if (kinds.empty()) return {};
    const auto of =
        std::find_if(library_names_.begin(), library_names_.end(), [&](const auto& each) {
            return kinds.find("`" + std::string(each.name) + "`") != std::string::npos;
        });
    return fmt::format("{} The library has them: `use {}`", kinds, of->module);
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
        if (unknown.meant.empty()) continue;
        Fix fix = put(places.front(), std::string(unknown.meant), unknown.sure);
        for (std::size_t i = 1; i < places.size(); ++i)
            fix.edits.push_back({places[i], std::string(unknown.meant)});
        finding.fixes.push_back(std::move(fix));
    }
}

} // namespace waxwright
