#include "syntax/tree.hpp"

#include <algorithm>
#include <iterator>

namespace waxwright {

void Children::push_more(NodeId id) {
    if (more_.empty()) more_.assign(std::reverse_iterator(few_ + few), std::reverse_iterator(few_));
    more_.push_back(id);
    ++size_;
}

void Children::turn() {
    std::reverse(more_.begin(), more_.end());
}

namespace {

bool children_fit(const Tree& tree, NodeId id) {
    const Node& node = tree.nodes[id];
    if (node.size == 0 || node.size > id + 1 || node.begin > node.end) return false;
    std::uint32_t limit = node.end;
    std::uint32_t left = node.size - 1;
    for (NodeId child = id; left > 0;) {
        --child;
        const Node& inner = tree.nodes[child];
        if (inner.size > left || inner.end > limit || inner.begin < node.begin) return false;
        limit = inner.begin;
        left -= inner.size;
        child = child + 1 - inner.size;
    }
    return true;
}

} // namespace

bool is_sound(const Tree& tree) {
    if (tree.nodes.empty() || tree.nodes.back().kind != Kind::file) return false;
    if (tree.nodes.back().size != tree.nodes.size()) return false;
    for (NodeId id = 0; id < tree.nodes.size(); ++id) {
        if (!children_fit(tree, id)) return false;
    }
    return true;
}

} // namespace waxwright
