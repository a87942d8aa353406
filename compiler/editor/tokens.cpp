// Semantic tokens: what each word of a text is, for an editor to show it so. Of a line that can't
// be read nothing is said; what the editor shows of it by itself stays.
#include <algorithm>
#include <array>
#include <vector>

#include "editor/features.hpp"
#include "editor/paint.hpp"
#include "tidy/tokens.hpp"

namespace waxwright {

namespace {

/// LSP's names, by PaintType.
constexpr std::array<const char*, static_cast<std::size_t>(PaintType::none)> type_words{
    "keyword",    "type",      "class",  "variable", "property", "function",
    "enumMember", "namespace", "number", "string",   "comment",  "operator"};
constexpr std::array<const char*, 2> modifier_words{"declaration", "defaultLibrary"};

struct Painted {
    Span at;
    Paint paint;
};

/// What stands between the leaves: words of the language, operators that make no leaf, comments.
PaintType between(const Token& token, std::string_view text) {
    if (token.kind == TokenKind::comment) return PaintType::comment;
    if (token.kind == TokenKind::equals) return PaintType::operator_;
    if (token.kind != TokenKind::other) return PaintType::none;
    const char first = text.front();
    const bool letter = (first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z');
    return letter ? PaintType::keyword : PaintType::operator_; // +-
}

/// All tokens of a text that are shown, in its order.
class TokenPainter {
public:
    explicit TokenPainter(const Asked& asked)
        : tree_(asked.tree()), paints_(painted(asked.look(), asked.file)) {}

    std::vector<Painted> all() {
        std::vector<Painted> found;
        TokenReader reader(tree_);
        for (Token token = reader.next(); token.kind != TokenKind::end; token = reader.next()) {
            const Span at{tree_.file(), token.begin, token.end};
            const Paint paint = paint_of(token);
            if (paint.type != PaintType::none) found.push_back({at, paint});
        }
        return found;
    }

private:
    /// The next node by place that is a leaf, or a line that can't be read.
    void advance(std::uint32_t begin) {
        for (; node_ < tree_.nodes.size(); ++node_) {
            const Node& node = tree_.nodes[node_];
            if (node.size != 1 || node.begin == node.end) continue;
            if (node.begin >= begin || (is_unread(node) && node.end > begin)) return;
        }
    }

    static bool is_unread(const Node& node) {
        return node.kind == Kind::broken || node.kind == Kind::orphans ||
               node.kind == Kind::stray || node.kind == Kind::unopened;
    }

    Paint paint_of(const Token& token) {
        advance(token.begin);
        if (node_ < tree_.nodes.size()) {
            const Node& node = tree_.nodes[node_];
            if (is_unread(node) && node.begin <= token.begin) return {};
            if (node.begin == token.begin && node.end == token.end) return paints_[node_];
        }
        const std::string_view text =
            tree_.whole_text().substr(token.begin, token.end - token.begin);
        return {.type = between(token, text)};
    }

    const Tree& tree_;
    std::vector<Paint> paints_;
    NodeId node_ = 0;
};

/// LSP's row of numbers, five a token: how many lines further, how many characters further, how
/// long, its type, its modifiers.
class Encoder {
public:
    Encoder(const Source& source, Encoding encoding) : source_(source), encoding_(encoding) {}

    void add(const Painted& token) {
        const std::uint32_t line = source_.line_at(token.at.begin);
        const bool same = line == line_;
        if (!same) from_ = source_.line_begin(line);
        const auto units = [&](std::uint32_t begin, std::uint32_t end) {
            return units_of(source_.text().substr(begin, end - begin), encoding_);
        };
        data_.push_back(line - line_);
        data_.push_back(units(from_, token.at.begin));
        data_.push_back(units(token.at.begin, token.at.end));
        data_.push_back(static_cast<std::uint32_t>(token.paint.type));
        data_.push_back((token.paint.declares ? 1U : 0U) | (token.paint.library ? 2U : 0U));
        line_ = line;
        from_ = token.at.begin;
    }

    Json result() const { return {{"data", data_}}; }

private:
    const Source& source_;
    Encoding encoding_;
    std::vector<std::uint32_t> data_;
    std::uint32_t line_ = 1; // of the token before
    std::uint32_t from_ = 0; // its begin, or that of the line
};

Json tokens_within(const Asked& asked, Span wanted) {
    Encoder encoder(asked.source(), asked.view.client.encoding);
    for (const Painted& token : TokenPainter(asked).all()) {
        if (token.at.end > wanted.begin && token.at.begin < wanted.end) encoder.add(token);
    }
    return encoder.result();
}

} // namespace

Reply semantic_tokens(const Asked& asked, const Json&) {
    const auto size = static_cast<std::uint32_t>(asked.source().text().size());
    return tokens_within(asked, {asked.file, 0, size});
}

Reply semantic_tokens_range(const Asked& asked, const Json& params) {
    return tokens_within(
        asked, span_of(asked.file, asked.source(), params.at("range"), asked.view.client.encoding));
}

Json semantic_token_types() {
    return type_words;
}

Json semantic_token_modifiers() {
    return modifier_words;
}

} // namespace waxwright
