// The things that texts declare: an outline of one, and a search in all.
#include <algorithm>
#include <array>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "editor/features.hpp"

namespace waxwright {

namespace {

// LSP's SymbolKind.
constexpr int symbol_class = 5;
constexpr int symbol_property = 7;
constexpr int symbol_function = 12;
constexpr int symbol_constant = 14;
constexpr int symbol_array = 18;
constexpr int symbol_object = 19;
constexpr int symbol_event = 24;

int symbol_kind(BlockKind kind) {
    switch (kind) {
    case BlockKind::recipe:
        return symbol_function;
    case BlockKind::batch:
    case BlockKind::test_burn:
        return symbol_event;
    case BlockKind::stock:
        return symbol_array;
    default:
        return is_matter(kind) ? symbol_class : symbol_object;
    }
}

/// One line of a text, its blanks and line ends made single blanks.
std::string in_one_line(std::string_view text) {
    std::string line;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\t' || c == '\r' || c == '\n';
        if (!blank) {
            line += c;
        } else if (!line.empty() && line.back() != ' ') {
            line += ' ';
        }
    }
    if (line.ends_with(' ')) line.pop_back();
    return line;
}

/// A line end behind the last line belongs to the node, and not to what is shown.
Span without_end(const Tree& tree, NodeId node) {
    Span at = tree.span(node);
    const std::size_t last = tree.text(node).find_last_not_of(" \t\r\n");
    if (last != std::string_view::npos) at.end = at.begin + static_cast<std::uint32_t>(last) + 1;
    return at;
}

/// What a statement is shown as, without what lies in it.
struct Entity {
    std::string name;
    int kind;
    std::string detail;
    std::string title; // of a block that has one
    Span whole;
    Span name_at; // within the whole
};

/// The outline of one file.
class Outline {
public:
    Outline(const View& view, FileId file) : view_(view), tree_(view.look.tree(file)) {
        const std::vector<NodeId>& nodes = view.look.notebook.block_nodes;
        const std::vector<Block>& blocks = view.look.model().blocks;
        for (BlockId id = 0; id < blocks.size(); ++id) {
            if (blocks[id].file == file) ids_.emplace(nodes[id], id);
        }
    }

    /// Blocks and lets, in the order of the text.
    template <typename Visit>
    void each(Visit visit) const {
        for (const NodeId node : tree_.children(tree_.root())) {
            if (tree_.kind(node) == Kind::let) visit(node, let(node));
            if (tree_.kind(node) == Kind::block) visit(node, block(node));
        }
    }

    Json symbol(const Entity& entity) const {
        Json json{{"name", entity.name.empty() ? "?" : entity.name}, // LSP wants some name
                  {"kind", entity.kind},
                  {"range", view_.range(entity.whole)},
                  {"selectionRange", view_.range(entity.name_at)}};
        if (!entity.detail.empty()) json["detail"] = entity.detail;
        return json;
    }

    /// What lies in a block: its properties and its other lines, and the steps in their order.
    Json children(NodeId node) const {
        Json found = Json::array();
        for (const NodeId child : tree_.children(node)) {
            switch (tree_.kind(child)) {
            case Kind::property:
                found.push_back(property(child));
                break;
            case Kind::steps:
                found.push_back(symbol(word_of(child, symbol_array)));
                found.back()["children"] = children(child);
                break;
            case Kind::step:
            case Kind::pour:
            case Kind::have:
                found.push_back(symbol(line(child)));
                break;
            default:
                break;
            }
        }
        return found;
    }

private:
    Entity let(NodeId node) const {
        const Children parts = tree_.children(node);
        return {std::string(tree_.text(parts[0])), symbol_constant,
                in_one_line(tree_.text(parts[1])), {},
                without_end(tree_, node),          tree_.span(parts[0])};
    }

    Entity block(NodeId node) const {
        const NodeId head = tree_.children(node)[0];
        const Span whole = without_end(tree_, node);
        const auto id = ids_.find(node);
        const BlockKind kind =
            id == ids_.end() ? BlockKind::unknown : view_.look.model().blocks[id->second].kind;
        if (tree_.kind(head) != Kind::head) { // what it was meant to be called is not sure
            return {in_one_line(tree_.text(head)), symbol_kind(kind), {}, {}, whole,
                    without_end(tree_, head)};
        }
        const Children parts = tree_.children(head);
        std::string detail(tree_.text(parts[0]));
        std::string title;
        if (id != ids_.end()) title = view_.look.model().text(id->second, Key::title);
        if (!title.empty()) detail += fmt::format(", {}", in_one_line(title));
        return {std::string(tree_.text(parts[1])),
                symbol_kind(kind),
                std::move(detail),
                std::move(title),
                whole,
                tree_.span(parts[1])};
    }

    Json property(NodeId node) const {
        const Children parts = tree_.children(node);
        return symbol({std::string(tree_.text(parts[0])),
                       symbol_property,
                       in_one_line(tree_.text(parts[1])),
                       {},
                       without_end(tree_, node),
                       tree_.span(parts[0])});
    }

    /// A statement that is called by the word it begins with.
    Entity word_of(NodeId node, int kind) const {
        const Span whole = without_end(tree_, node);
        const std::string_view text = tree_.text(node);
        const auto size =
            static_cast<std::uint32_t>(std::min(text.find_first_of(" \t\r\n{:=#"), text.size()));
        const Span word{whole.file, whole.begin, std::min(whole.begin + size, whole.end)};
        return {std::string(text.substr(0, word.end - word.begin)), kind, {}, {}, whole, word};
    }

    /// A statement that is called by all its words, without the comment behind it.
    Entity line(NodeId node) const {
        Span words = without_end(tree_, node);
        words.end = std::max(words.begin, tree_.span(node - 1).end); // of its last part
        return {in_one_line(view_.look.source(words.file).slice(words)),
                symbol_function,
                {},
                {},
                without_end(tree_, node),
                words};
    }

    const View& view_;
    const Tree& tree_;
    std::unordered_map<NodeId, BlockId> ids_;
};

/// LSP's SymbolInformation.
Json flat(const View& view, const Entity& entity) {
    return {{"name", entity.name.empty() ? "?" : entity.name},
            {"kind", entity.kind},
            {"location", view.location(entity.name_at)}};
}

/// A letter or a digit as a search sees it; 0 for what joins.
char searched(char c) {
    if (c >= 'A' && c <= 'Z') return static_cast<char>(c - 'A' + 'a');
    return c == '-' || c == ' ' || c == '_' ? '\0' : c;
}

std::string searched(std::string_view text) {
    std::string kept;
    for (const char c : text) {
        if (const char letter = searched(c)) kept += letter;
    }
    return kept;
}

/// How well a name answers a search: 0 it begins so, 1 it has it within, 2 it has its letters in
/// that order; 3 it doesn't.
std::size_t fit(std::string_view name, std::string_view query) {
    const std::size_t place = name.find(query);
    if (place != std::string_view::npos) return place == 0 ? 0 : 1;
    std::size_t found = 0;
    for (const char c : name) {
        if (found < query.size() && c == query[found]) ++found;
    }
    return found == query.size() ? 2 : 3;
}

} // namespace

Reply document_symbol(const Asked& asked, const Json&) {
    Json symbols = Json::array();
    const Outline outline(asked.view, asked.file);
    outline.each([&](NodeId node, const Entity& entity) {
        if (!asked.view.client.nested_symbols) {
            symbols.push_back(flat(asked.view, entity));
            return;
        }
        symbols.push_back(outline.symbol(entity));
        if (Json inside = outline.children(node); !inside.empty()) {
            symbols.back()["children"] = std::move(inside);
        }
    });
    return symbols;
}

/// By name or title, the best fits first; at most `most_found`.
Reply workspace_symbol(const View& view, const Json& params) {
    constexpr std::size_t most_found = 500;
    const std::string query = searched(params.at("query").get<std::string>());
    std::array<Json, 3> found{Json::array(), Json::array(), Json::array()};
    for (FileId file = 0; file < view.look.model().sources.size(); ++file) {
        if (view.look.source(file).is_library()) continue;
        Outline(view, file).each([&](NodeId, const Entity& entity) {
            const std::size_t fits =
                std::min(fit(searched(entity.name), query),
                         entity.title.empty() ? 3 : fit(searched(entity.title), query));
            if (fits < found.size() && found[fits].size() < most_found)
                found[fits].push_back(flat(view, entity));
        });
    }
    Json all = Json::array();
    for (Json& some : found) {
        for (Json& each : some) {
            if (all.size() < most_found) all.push_back(std::move(each));
        }
    }
    return all;
}

} // namespace waxwright
