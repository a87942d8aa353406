// The syntax tree: a flat vector of 16-byte nodes in post-order (children before their parent), so
// that building it is appending and taking back is cutting. A node refers to text by offset.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "source/source.hpp"

namespace waxwright {

enum class Kind : std::uint8_t {
    // Statements of a file
    file,
    language, // number
    use,      // name or text, one or several
    currency, // word
    let,      // name, value
    block,    // head, then statements, then perhaps unclosed
    // A block
    head,     // word (the kind), name, perhaps name (what it is like); or broken
    property, // word, value
    steps,    // step..., perhaps unclosed
    step,     // clause, perhaps clause, perhaps because
    clause,   // word, then operands and tails as written
    because,  // text
    allow,    // word, because
    pour,     // value
    have,     // value, perhaps lot
    lot,      // text
    // What is not as it should be
    broken,   // a line that could not be read; its finding has been told
    unclosed, // stands, empty, where a `}` should have been
    unopened, // the same for a `{`; or a colon in front of one
    stray,    // a `}` that closes nothing
    orphans,  // lines of a block outside any block
    // Values
    value,  // phrase..., perhaps by_volume
    phrase, // operand, then tails
    by_volume,
    number,
    unit,     // `g`, `fl oz`, `oz per lb`: one leaf, any word that stands where a unit may
    measure,  // number, perhaps unit
    compound, // measure, measure...
    cash,     // sign, number, perhaps unit (`$18/h`: the unit is `/h`)
    sign,
    date,
    name,
    text,
    group, // an operand in parentheses
    item,  // measure, compound or group, then name: `80% soy`
    rest,  // name
    sum,   // operand, (plus or minus, operand)...
    plus,
    minus,
    product, // operand, (times or over, operand)...
    times,
    divided,
    doubt, // an operand: what stands behind +-
    // Tails of a phrase: each has its operand, or none
    to,
    at,
    of_, // name
    for_,
    over,
    with,
    in_room,
    across,
    deep,
    closed_cup,
    open_cup,
    word, // a key, a kind, a rule's name
};

struct Node {
    Kind kind;
    std::uint8_t unused1 = 0;
    std::uint16_t unused2 = 0;
    std::uint32_t begin;
    std::uint32_t end;
    std::uint32_t size; // nodes of the subtree, itself included
};
static_assert(sizeof(Node) == 16);

using NodeId = std::uint32_t;

/// The children of a node, first to last. They are met last to first, so they are kept from the end
/// of the room forwards; more than 16 are kept in a vector.
class Children {
public:
    /// Takes the child before those taken so far.
    void push_front(NodeId id) {
        if (size_ < few) {
            few_[few - ++size_] = id;
        } else {
            push_more(id);
        }
    }
    /// To be called after the last push_front.
    void finish() {
        if (!more_.empty()) turn();
    }
    std::size_t size() const { return size_; }
    bool empty() const { return size_ == 0; }
    NodeId operator[](std::size_t index) const { return begin()[index]; }
    const NodeId* begin() const { return more_.empty() ? few_ + few - size_ : more_.data(); }
    const NodeId* end() const { return begin() + size_; }

private:
    void push_more(NodeId id);
    void turn();

    static constexpr std::size_t few = 16;
    std::size_t size_ = 0;
    NodeId
        few_[few]; // NOLINT: not set before it is used, for it is made for every node that is read
    std::vector<NodeId> more_;
};

/// One file's tree. The root is the last node; a tree is never empty once parsed.
class Tree {
public:
    Tree(FileId file, std::string_view text) : file_(file), text_(text) {}

    FileId file() const { return file_; }
    NodeId root() const { return static_cast<NodeId>(nodes.size() - 1); }
    std::string_view whole_text() const { return text_; }
    Kind kind(NodeId id) const { return nodes[id].kind; }
    Span span(NodeId id) const { return {file_, nodes[id].begin, nodes[id].end}; }
    std::string_view text(NodeId id) const {
        return text_.substr(nodes[id].begin, nodes[id].end - nodes[id].begin);
    }
    Children children(NodeId id) const {
        Children found;
        const NodeId first = id + 1 - nodes[id].size;
        for (NodeId next = id; next > first;) {
            const NodeId child = next - 1;
            found.push_front(child);
            next = child + 1 - nodes[child].size;
        }
        found.finish();
        return found;
    }
    /// The last child, for nodes that have exactly one; no_node without children.
    NodeId last_child(NodeId id) const { return nodes[id].size > 1 ? id - 1 : no_node; }

    static constexpr NodeId no_node = 0xFFFFFFFF;

    std::vector<Node> nodes; // parse() fills it; everybody else reads

private:
    FileId file_;
    std::string_view text_; // owned by the Source
};

/// True if every subtree size fits its children, spans nest and the root covers the file. A test
/// and the fuzzer hold it.
bool is_sound(const Tree& tree);

} // namespace waxwright
