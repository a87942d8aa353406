// Another name for one of the maker's own things, in all files that mention it.
#include <algorithm>

#include <fmt/format.h>

#include "editor/features.hpp"
#include "editor/rename_check.hpp"
#include "model/phrase_text.hpp"

namespace waxwright {

namespace {

/// The word that stands at the place, where the tree has one.
std::optional<NodeId> word_at(const Tree& tree, std::uint32_t offset) {
    for (NodeId node = 0; node < tree.nodes.size(); ++node) {
        const bool is_word = tree.kind(node) == Kind::name || tree.kind(node) == Kind::word ||
                             tree.kind(node) == Kind::unit;
        const Span at = tree.span(node);
        if (is_word && at.begin <= offset && offset <= at.end) return node;
    }
    return std::nullopt;
}

Refusal no_name(const Asked& asked) {
    const Tree& tree = asked.tree();
    const auto word = word_at(tree, asked.offset);
    if (!word) return {"there is no name here"};
    const std::string_view text = tree.text(*word);
    if (tree.kind(*word) == Kind::name && !is_reserved(text)) {
        return {fmt::format("`{}` is no name that stands for something here", text)};
    }
    return {fmt::format("`{}` is a word of the language: only your own names can change", text)};
}

/// The name at the place, if it is one that can have another.
std::variant<Naming, Refusal> renamable(const Asked& asked) {
    const Look& look = asked.look();
    const auto naming = naming_at(look, asked.file, asked.offset);
    if (!naming) return no_name(asked);
    const std::string_view name = asked.source().slice(naming->at);
    if (look.source(naming->declared.file).is_library()) {
        return Refusal{
            fmt::format("`{}` is in the standard library: write a block `like` it", name)};
    }
    if (is_declaration(look, naming->declared)) return *naming;
    return Refusal{fmt::format("the line that declares `{}` can't be read: mend {} first", name,
                               place_in_words(look.model().sources, naming->declared))};
}

/// What is wrong with a name by itself. In a few words: some editors show them in one line.
std::optional<std::string> no_good(const std::string& name) {
    if (is_reserved(name))
        return fmt::format("`{0}` is a word of the language: `my-{0}`, perhaps", name);
    const bool good = !name.empty() && name.front() >= 'a' && name.front() <= 'z' &&
                      name.back() != '-' && Names::is_kebab(name);
    if (good) return std::nullopt;
    return fmt::format("`{}` can't be a name: letters a to z, digits, hyphens", name);
}

} // namespace

Reply prepare_rename(const Asked& asked, const Json&) {
    const auto found = renamable(asked);
    if (const auto* refusal = std::get_if<Refusal>(&found)) return *refusal;
    const Naming& naming = std::get<Naming>(found);
    return Json{{"range", asked.view.range(naming.at)},
                {"placeholder", asked.source().slice(naming.at)}};
}

Reply rename(const Asked& asked, const Json& params) {
    const Look& look = asked.look();
    // `Sea Jar` is what people type, and `sea-jar` is what they mean.
    const auto wanted = params.at("newName").get<std::string>();
    NameChange change{{asked.file, 0, 0}, {}, Names::as_name(trimmed(wanted)), {}};
    const auto found = renamable(asked);
    if (const auto* refusal = std::get_if<Refusal>(&found)) return *refusal;
    if (const auto words = no_good(change.new_name)) return Refusal{*words};
    change.declared = std::get<Naming>(found).declared;
    change.old_name = look.model().sources.slice(change.declared);
    if (change.new_name == change.old_name) return asked.view.workspace_edit({});
    std::vector<Span> places = uses_of(look, change.declared);
    places.push_back(change.declared);
    std::ranges::sort(places, {}, [](Span at) { return std::pair(at.file, at.begin); });
    for (const Span at : places)
        change.edits.push_back({at, change.new_name});
    if (const auto words = hidden_mention(look, change)) return Refusal{*words};
    if (const auto words = changed_meaning(look, change)) return Refusal{*words};
    return asked.view.workspace_edit(change.edits);
}

} // namespace waxwright
