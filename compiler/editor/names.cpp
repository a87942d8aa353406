// Where a name is declared, and where it is used.
#include "editor/features.hpp"
#include "editor/naming.hpp"

namespace waxwright {

namespace {

// LSP's DocumentHighlightKind.
constexpr int highlight_read = 2;
constexpr int highlight_write = 3;

/// The file that a `use` names at the place.
std::optional<FileId> used_at(const Asked& asked) {
    for (const Use& use : asked.look().notebook.loaded.files[asked.file].uses) {
        if (use.at.begin <= asked.offset && asked.offset <= use.at.end) return use.file;
    }
    return std::nullopt;
}

bool includes_declaration(const Json& params) {
    const auto context = params.find("context");
    return context == params.end() || context->value("includeDeclaration", true);
}

} // namespace

/// None in the library, whose files no client can open.
Reply definition(const Asked& asked, const Json&) {
    std::optional<Span> place;
    if (const auto naming = naming_at(asked.look(), asked.file, asked.offset)) {
        place = naming->declared;
    } else if (const auto file = used_at(asked)) {
        place = Span{*file, 0, 0};
    }
    if (!place || asked.look().source(place->file).is_library()) return Json();
    return asked.view.location(*place);
}

Reply references(const Asked& asked, const Json& params) {
    Json found = Json::array();
    const auto naming = naming_at(asked.look(), asked.file, asked.offset);
    if (!naming) return found;
    const bool own = !asked.look().source(naming->declared.file).is_library();
    if (own && includes_declaration(params)) found.push_back(asked.view.location(naming->declared));
    for (const Span use : uses_of(asked.look(), naming->declared))
        found.push_back(asked.view.location(use));
    return found;
}

Reply document_highlight(const Asked& asked, const Json&) {
    Json found = Json::array();
    const auto naming = naming_at(asked.look(), asked.file, asked.offset);
    if (!naming) return found;
    const auto add = [&](Span at, int kind) {
        if (at.file == asked.file)
            found.push_back({{"range", asked.view.range(at)}, {"kind", kind}});
    };
    add(naming->declared, highlight_write);
    for (const Span use : uses_of(asked.look(), naming->declared))
        add(use, highlight_read);
    return found;
}

} // namespace waxwright
