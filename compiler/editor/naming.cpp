#include "editor/naming.hpp"

#include <algorithm>

namespace waxwright {

namespace {

/// The name that a statement declares; no_node where it declares none.
NodeId declared_by(const Tree& tree, NodeId statement) {
    if (tree.kind(statement) == Kind::let) return tree.children(statement)[0];
    if (tree.kind(statement) != Kind::block) return Tree::no_node;
    const NodeId head = tree.children(statement)[0];
    return tree.kind(head) == Kind::head ? tree.children(head)[1] : Tree::no_node;
}

/// The name of the last declaration that begins at or before the offset.
NodeId declaration_before(const Tree& tree, std::uint32_t offset) {
    NodeId found = Tree::no_node;
    for (const NodeId statement : tree.children(tree.root())) {
        if (tree.span(statement).begin > offset) break;
        const NodeId name = declared_by(tree, statement);
        if (name != Tree::no_node && tree.span(name).begin <= offset) found = name;
    }
    return found;
}

} // namespace

std::optional<Naming> naming_at(const Look& look, FileId file, std::uint32_t offset) {
    const auto uses = look.notebook.uses_in(file);
    auto after =
        std::ranges::upper_bound(uses, offset, {}, [](const NameUse& use) { return use.at.begin; });
    if (after != uses.begin() && offset <= (--after)->at.end)
        return Naming{after->at, after->to.at};
    const Tree& tree = look.tree(file);
    const NodeId name = declaration_before(tree, offset);
    if (name == Tree::no_node || tree.span(name).end < offset) return std::nullopt;
    return Naming{tree.span(name), tree.span(name)};
}

bool is_declaration(const Look& look, Span at) {
    const Tree& tree = look.tree(at.file);
    const NodeId name = declaration_before(tree, at.begin);
    return name != Tree::no_node && tree.span(name) == at;
}

std::vector<Span> uses_of(const Look& look, Span declared) {
    std::vector<Span> places;
    for (const NameUse& use : look.notebook.uses) {
        if (use.to.at == declared && !look.source(use.at.file).is_library())
            places.push_back(use.at);
    }
    return places;
}

} // namespace waxwright
