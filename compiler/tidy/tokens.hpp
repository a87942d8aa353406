// A tree read as a line of tokens, comments and line ends with it. The tree has no node for a brace
// or for `of`: what stands between its leaves is read here, and the leaves are taken as they are.
#pragma once

#include <cstdint>

#include "syntax/tree.hpp"

namespace waxwright {

enum class TokenKind : std::uint8_t {
    number,
    unit,
    sign,  // of money
    other, // a name, a text, a date, a word of the language, an operator
    comma,
    colon,
    equals,
    open_parenthesis,
    close_parenthesis,
    open_brace,
    close_brace,
    comment, // from its `#` to the end of its line, without blanks at its end
    end,
};

struct Token {
    TokenKind kind;
    std::uint32_t begin;
    std::uint32_t end;
    std::uint32_t line;      // from 1, as LF alone ends lines
    std::uint32_t line_ends; // of any kind, between the token before and this one
};

/// Reads the tokens of a tree without mistakes, first to last.
class TokenReader {
public:
    explicit TokenReader(const Tree& tree);

    /// The next token; at the end of the text one of kind `end`, ever again.
    Token next();

private:
    std::uint32_t next_leaf();
    void skip_blanks(Token& token);
    std::uint32_t gap_token_end(TokenKind& kind) const;

    const Tree& tree_;
    std::string_view text_;
    std::uint32_t at_ = 0;
    std::uint32_t line_ = 1;
    NodeId node_ = 0; // the next that may be a leaf
};

} // namespace waxwright
