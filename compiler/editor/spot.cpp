#include "editor/spot.hpp"

#include <algorithm>

namespace waxwright {

std::vector<NodeId> path_to(const Tree& tree, std::uint32_t offset) {
    std::vector<NodeId> path{tree.root()};
    for (;;) {
        NodeId next = Tree::no_node;
        for (const NodeId child : tree.children(path.back())) {
            const Span at = tree.span(child);
            if (at.begin <= offset && offset <= at.end) next = child;
        }
        if (next == Tree::no_node) return path;
        path.push_back(next);
    }
}

NodeId Spot::within(Kind kind) const {
    const auto found = std::find_if(path.rbegin(), path.rend(),
                                    [&](NodeId id) { return tree().kind(id) == kind; });
    return found == path.rend() ? Tree::no_node : *found;
}

BlockId Spot::block() const {
    const NodeId node = within(Kind::block);
    if (node == Tree::no_node) return no_block;
    const std::vector<NodeId>& nodes = asked.look().notebook.block_nodes;
    for (BlockId id = 0; id < nodes.size(); ++id) {
        if (nodes[id] == node && model().blocks[id].file == asked.file) return id;
    }
    return no_block;
}

const Entry* Spot::entry() const {
    const NodeId property = within(Kind::property);
    const BlockId id = block();
    if (property == Tree::no_node || id == no_block) return nullptr;
    const Span key = tree().span(tree().children(property)[0]);
    const Slice slice = model().blocks[id].entries;
    for (std::uint32_t i = slice.first; i < slice.first + slice.count; ++i) {
        if (model().entries[i].key_at == key) return &model().entries[i];
    }
    return nullptr;
}

} // namespace waxwright
