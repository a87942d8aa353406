#include "grammar/editor/tokens.hpp"

#include <optional>
#include <string>
#include <unordered_map>

#include "findings/registry.hpp"
#include "grammar/editor/words.hpp"
#include "model/library.hpp"
#include "model/schema.hpp"
#include "tidy/tokens.hpp"

namespace waxwright::editor {

namespace {

/// Where a leaf stands, as far as its class hangs on that.
struct Place {
    Kind parent = Kind::file;
    std::uint32_t verb_end = 0;           // what begins before it is of the step's verb
    BlockKind block = BlockKind::unknown; // the block round it
    std::string_view choices{};           // what the property's value may choose from
};

/// Finds the class of every leaf of a tree, by the offset at which it begins.
class LeafClasses {
public:
    explicit LeafClasses(const Tree& tree) : tree_(tree) { visit(tree.root(), {}); }

    std::optional<Class> at(std::uint32_t begin) const {
        const auto found = by_begin_.find(begin);
        if (found == by_begin_.end()) return std::nullopt;
        return found->second;
    }

private:
    void visit(NodeId id, Place place);
    Class leaf(NodeId id, const Place& place, std::size_t index) const;
    Class name(NodeId id, const Place& place, std::size_t index) const;
    Class word_node(NodeId id, const Place& place) const;
    std::uint32_t end_of_verb(NodeId clause) const;

    const Tree& tree_;
    std::unordered_map<std::uint32_t, Class> by_begin_;
};

bool has_word(std::string_view list, std::string_view word) {
    return (" " + std::string(list) + " ").find(" " + std::string(word) + " ") != std::string::npos;
}

/// Where the words of a step's verb end; where the clause begins if it is none.
std::uint32_t LeafClasses::end_of_verb(NodeId clause) const {
    const std::string_view text = tree_.text(clause);
    std::size_t longest = 0;
    for (const VerbInfo& verb : all_verbs()) {
        std::size_t at = 0;
        bool fits = true;
        for (const char c : verb.words) {
            if (c == ' ') {
                const std::size_t next = text.find_first_not_of(" \t", at);
                fits = fits && next != at && next != text.npos;
                at = next;
            } else {
                fits = fits && at < text.size() && text[at] == c;
                ++at;
            }
            if (!fits) break;
        }
        const bool ends = fits && (at == text.size() || text[at] == ' ' || text[at] == '\t');
        if (ends && at > longest) longest = at;
    }
    return tree_.nodes[clause].begin + static_cast<std::uint32_t>(longest);
}

void LeafClasses::visit(NodeId id, Place place) {
    const Kind kind = tree_.kind(id);
    const Children children = tree_.children(id);
    place.parent = kind;
    if (kind == Kind::block && !children.empty() && tree_.kind(children[0]) == Kind::head) {
        const Children head = tree_.children(children[0]);
        if (!head.empty()) place.block = find_block_kind(tree_.text(head[0]));
    } else if (kind == Kind::property && !children.empty()) {
        const auto key = find_key(tree_.text(children[0]));
        const PropertyInfo* property = key ? find_property(place.block, *key) : nullptr;
        if (property) place.choices = property->words;
    } else if (kind == Kind::clause) {
        place.verb_end = end_of_verb(id);
    }
    for (std::size_t index = 0; index < children.size(); ++index) {
        const NodeId child = children[index];
        if (tree_.nodes[child].size > 1) {
            visit(child, place);
        } else {
            by_begin_[tree_.nodes[child].begin] = leaf(child, place, index);
        }
    }
}

Class LeafClasses::leaf(NodeId id, const Place& place, std::size_t index) const {
    if (tree_.nodes[id].begin < place.verb_end) return Class::verb;
    switch (tree_.kind(id)) {
    case Kind::number:
        return Class::number;
    case Kind::unit: // any word may stand there: `6 marsh-glass` is a unit to the grammar
        return is_unit(tree_.text(id)) || place.parent == Kind::cash ? Class::unit : Class::name;
    case Kind::sign:
        return Class::unit;
    case Kind::date:
        return Class::date;
    case Kind::text:
        return Class::text;
    case Kind::plus:
    case Kind::minus:
    case Kind::times:
    case Kind::divided:
        return Class::operator_;
    case Kind::name:
        return name(id, place, index);
    case Kind::word:
        return word_node(id, place);
    default: // across, deep, closed cup, open cup, by volume
        return Class::word;
    }
}

Class LeafClasses::name(NodeId id, const Place& place, std::size_t index) const {
    const std::string_view text = tree_.text(id);
    switch (place.parent) {
    case Kind::head:
        return index == 1 ? Class::declared : Class::name;
    case Kind::let:
        return Class::declared;
    case Kind::of_:
        return Class::word;
    case Kind::use:
        for (const LibraryModule& module : library_modules()) {
            if (module.name == text) return Class::module_;
        }
        return Class::name;
    default:
        return has_word(place.choices, text) ? Class::choice : Class::name;
    }
}

Class LeafClasses::word_node(NodeId id, const Place& place) const {
    const std::string_view text = tree_.text(id);
    switch (place.parent) {
    case Kind::head:
        return find_block_kind(text) == BlockKind::unknown ? Class::name : Class::kind;
    case Kind::property:
        return find_key(text) ? Class::key : Class::name;
    case Kind::allow:
        return find_rule(text) ? Class::rule : Class::name;
    case Kind::currency:
        return Class::unit;
    default:
        return Class::name;
    }
}

/// What stands between the leaves: words the tree needs no node for, comments, marks.
Class between(const Token& token, std::string_view text) {
    if (token.kind == TokenKind::comment) return Class::comment;
    if (token.kind != TokenKind::other) return Class::none;
    if (text == "+-" || text == "±") return Class::operator_;
    // A batch's own `pour` is no step, but it is the same word.
    return text == info(Verb::pour).words ? Class::verb : Class::word;
}

} // namespace

std::vector<ClassedToken> classed_tokens(const Tree& tree) {
    const LeafClasses leaves(tree);
    std::vector<ClassedToken> all;
    TokenReader reader(tree);
    for (Token token = reader.next(); token.kind != TokenKind::end; token = reader.next()) {
        const std::string_view text =
            tree.whole_text().substr(token.begin, token.end - token.begin);
        const Class which = leaves.at(token.begin).value_or(between(token, text));
        if (which != Class::none) all.push_back({which, token.begin, token.end});
    }
    return all;
}

} // namespace waxwright::editor
