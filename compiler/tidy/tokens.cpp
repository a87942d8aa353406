#include "tidy/tokens.hpp"

#include <algorithm>
#include <string_view>

namespace waxwright {

namespace {

/// Nodes that are one token, however many words they have. An empty `steps` has no nodes in it
/// either, and is none.
bool is_leaf(Kind kind) {
    switch (kind) {
    case Kind::by_volume:
    case Kind::number:
    case Kind::unit:
    case Kind::sign:
    case Kind::date:
    case Kind::name:
    case Kind::text:
    case Kind::plus:
    case Kind::minus:
    case Kind::times:
    case Kind::divided:
    case Kind::across:
    case Kind::deep:
    case Kind::closed_cup:
    case Kind::open_cup:
    case Kind::word:
        return true;
    default:
        return false;
    }
}

TokenKind kind_of_leaf(Kind kind) {
    switch (kind) {
    case Kind::number:
        return TokenKind::number;
    case Kind::unit:
        return TokenKind::unit;
    case Kind::sign:
        return TokenKind::sign;
    default:
        return TokenKind::other;
    }
}

TokenKind kind_of_mark(char c) {
    switch (c) {
    case ',':
        return TokenKind::comma;
    case ':':
        return TokenKind::colon;
    case '=':
        return TokenKind::equals;
    case '(':
        return TokenKind::open_parenthesis;
    case ')':
        return TokenKind::close_parenthesis;
    case '{':
        return TokenKind::open_brace;
    case '}':
        return TokenKind::close_brace;
    case '#':
        return TokenKind::comment;
    default:
        return TokenKind::other;
    }
}

bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

/// What ends a word or a mark that the tree has no node for.
bool ends_other(char c) {
    return is_blank(c) || c == '\n' || c == '\r' || kind_of_mark(c) != TokenKind::other;
}

} // namespace

TokenReader::TokenReader(const Tree& tree) : tree_(tree), text_(tree.whole_text()) {
    if (text_.starts_with("\xEF\xBB\xBF")) at_ = 3;
}

/// Where the next leaf begins; the end of the text if there is none. Leaves stand in the tree in
/// the order of the text.
std::uint32_t TokenReader::next_leaf() {
    const auto count = static_cast<NodeId>(tree_.nodes.size());
    while (node_ < count &&
           !(is_leaf(tree_.kind(node_)) && tree_.nodes[node_].end > tree_.nodes[node_].begin))
        ++node_;
    return node_ < count ? tree_.nodes[node_].begin : static_cast<std::uint32_t>(text_.size());
}

void TokenReader::skip_blanks(Token& token) {
    for (const std::uint32_t leaf = next_leaf(); at_ < leaf; ++at_) {
        const char c = text_[at_];
        if (c == '\n') ++line_;
        if (c == '\r' || (c == '\n' && (at_ == 0 || text_[at_ - 1] != '\r'))) {
            ++token.line_ends;
        } else if (c != '\n' && !is_blank(c)) {
            return;
        }
    }
}

/// Where the token at the place ends that is no leaf.
std::uint32_t TokenReader::gap_token_end(TokenKind& kind) const {
    kind = kind_of_mark(text_[at_]);
    if (kind == TokenKind::comment) {
        std::size_t end = std::min(text_.find_first_of("\r\n", at_), text_.size());
        while (is_blank(text_[end - 1]))
            --end;
        return static_cast<std::uint32_t>(end);
    }
    std::uint32_t end = at_ + 1;
    if (kind != TokenKind::other) return end;
    const auto limit = node_ < tree_.nodes.size() ? tree_.nodes[node_].begin
                                                  : static_cast<std::uint32_t>(text_.size());
    while (end < limit && !ends_other(text_[end]))
        ++end;
    return end;
}

Token TokenReader::next() {
    Token token{TokenKind::end, 0, 0, 0, 0};
    skip_blanks(token);
    token.begin = token.end = at_;
    token.line = line_;
    if (at_ >= text_.size()) return token;
    if (at_ == next_leaf()) {
        token.kind = kind_of_leaf(tree_.kind(node_));
        token.end = tree_.nodes[node_].end;
        ++node_;
    } else {
        token.end = gap_token_end(token.kind);
    }
    at_ = token.end;
    return token;
}

} // namespace waxwright
