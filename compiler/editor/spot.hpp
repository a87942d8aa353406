// A place in a text as the tree has it.
#pragma once

#include <vector>

#include "editor/look.hpp"

namespace waxwright {

/// The nodes that an offset lies in, from the file down to the innermost. Between two nodes that
/// touch it is the later one; right behind a node and before no other it is that node.
std::vector<NodeId> path_to(const Tree& tree, std::uint32_t offset);

/// Where a request is about.
struct Spot {
    const Asked& asked;
    std::vector<NodeId> path; // outermost first; never empty

    explicit Spot(const Asked& of) : asked(of), path(path_to(of.tree(), of.offset)) {}

    const Tree& tree() const { return asked.tree(); }
    const Model& model() const { return asked.look().model(); }
    NodeId inner() const { return path.back(); }
    /// The node `up` levels above the innermost; the file where there are fewer.
    NodeId above(std::size_t up) const {
        return path[path.size() - 1 - std::min(up, path.size() - 1)];
    }
    /// The innermost node of that kind; no_node without.
    NodeId within(Kind kind) const;
    /// The block it lies in, as the model has it; no_block where there is none.
    BlockId block() const;
    /// The property it lies in, as it counts for that block: nothing where it is no property there
    /// or not the one that counts.
    const Entry* entry() const;
    bool covers(Span at) const {
        return at.file == asked.file && at.begin <= asked.offset && asked.offset <= at.end;
    }
};

} // namespace waxwright
