#include "tidy/lines.hpp"

#include <utility>

#include "tidy/tokens.hpp"

namespace waxwright {

namespace {

/// Where a statement begins, and where what it says ends: a comma behind that stands between
/// properties on one line.
struct Statement {
    LineKind kind;
    std::uint32_t begin;
    std::uint32_t end;
};

/// All statements of a file, at whatever depth, in their order.
class Statements {
public:
    explicit Statements(const Tree& tree) : tree_(tree) {
        for (const NodeId id : tree.children(tree.root())) {
            if (tree.kind(id) == Kind::block) {
                add_block(id);
            } else {
                add(id, tree.kind(id) == Kind::let ? LineKind::let : LineKind::statement);
            }
        }
    }
    std::vector<Statement> take() { return std::move(all_); }

private:
    void add(NodeId id, LineKind kind) {
        const NodeId last = tree_.last_child(id);
        const Node& node = tree_.nodes[id];
        all_.push_back(
            {kind, node.begin, last == Tree::no_node ? node.end : tree_.nodes[last].end});
    }
    /// Of a block and of `steps` only the head is a statement: what is in them are others.
    void add_head(NodeId id) {
        all_.push_back({LineKind::statement, tree_.nodes[id].begin, tree_.nodes[id].begin});
    }
    void add_block(NodeId block) {
        add_head(block);
        for (const NodeId id : tree_.children(block)) {
            if (tree_.kind(id) == Kind::steps) {
                add_head(id);
                for (const NodeId step : tree_.children(id))
                    add(step, LineKind::statement);
            } else if (tree_.kind(id) != Kind::head) {
                add(id,
                    tree_.kind(id) == Kind::property ? LineKind::property : LineKind::statement);
            }
        }
    }

    const Tree& tree_;
    std::vector<Statement> all_;
};

/// `text` with one blank for each run of them.
std::string with_single_blanks(std::string_view text) {
    std::string result;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\t';
        if (!blank) {
            result += c;
        } else if (!result.empty() && result.back() != ' ') {
            result += ' ';
        }
    }
    return result;
}

/// The spelling of a unit that stands on sheets. A `C` in a quotient is a difference, and stays.
std::string plain_unit(std::string_view text) {
    if (text == "C") return "°C";
    if (text == "F") return "°F";
    std::string result = with_single_blanks(text);
    const auto at_end = [&](std::size_t at) {
        return at == result.size() || result[at] == '/' || result[at] == ' ';
    };
    for (std::size_t at = 0; at < result.size(); ++at) {
        const bool starts = at == 0 || result[at - 1] == '/' || result[at - 1] == ' ';
        const std::size_t letter = result[at] == 'm' ? at + 1 : at;
        if (starts && letter < result.size() && result[letter] == 'L' && at_end(letter + 1)) {
            result[letter] = 'l';
        }
    }
    return result;
}

class LineMaker {
public:
    explicit LineMaker(const Tree& tree)
        : text_(tree.whole_text()), statements_(Statements(tree).take()), reader_(tree) {}

    std::vector<TidyLine> run() {
        for (Token token = reader_.next(); token.kind != TokenKind::end; token = reader_.next())
            take(token);
        return std::move(lines_);
    }

private:
    bool is_within_statement(const Token& token) const { return token.begin < statement_end_; }

    void take(const Token& token) {
        if (token.kind == TokenKind::comment) {
            take_comment(token);
            return;
        }
        if (next_ < statements_.size() && token.begin == statements_[next_].begin) {
            statement_end_ = statements_[next_].end;
            open(token, statements_[next_].kind);
            ++next_;
        } else if (token.kind == TokenKind::close_brace) {
            --depth_;
            open(token, LineKind::closing);
        } else if (token.kind == TokenKind::comma && !is_within_statement(token)) {
            return;
        } else if (token.line_ends > 0) {
            open(token, LineKind::continuation);
        }
        write(token);
        if (token.kind == TokenKind::open_brace) ++depth_;
    }

    void take_comment(const Token& token) {
        if (token.line_ends > 0 || lines_.empty()) {
            open(token, is_within_statement(token) ? LineKind::continuation : LineKind::comment);
        }
        lines_.back().comment = text_.substr(token.begin, token.end - token.begin);
    }

    void open(const Token& token, LineKind kind) {
        bool blank = token.line_ends > 1 && kind != LineKind::closing;
        if (lines_.empty() || lines_.back().body.ends_with('{')) blank = false;
        // Where CR alone ends lines the blank line is none as LF counts them.
        const bool counted = blank && token.line > lines_.back().origin + 1;
        const std::uint32_t blank_origin = counted ? token.line - 1 : 0;
        // A blank line parts a block from what comes after it.
        if (!lines_.empty() && lines_.back().kind == LineKind::closing &&
            lines_.back().depth == 0) {
            blank = true;
        }
        lines_.push_back({kind, depth_, token.line, blank, blank_origin});
        before_ = TokenKind::end;
    }

    /// Puts a token behind what is on the line.
    void write(const Token& token) {
        TidyLine& line = lines_.back();
        const std::string_view text = text_.substr(token.begin, token.end - token.begin);
        if (token.kind == TokenKind::equals && line.kind == LineKind::let) {
            line.head = std::move(line.body);
            line.body.clear();
            before_ = TokenKind::end;
        }
        if (!line.body.empty() && wants_blank(token.kind, text)) line.body += ' ';
        before_ = token.kind;
        if (token.kind == TokenKind::unit) {
            line.body += plain_unit(text);
        } else if (text.starts_with('"')) {
            line.body += text;
        } else {
            line.body += with_single_blanks(text);
        }
        if (token.kind == TokenKind::colon && line.kind == LineKind::property) {
            line.head = std::move(line.body);
            line.body.clear();
        }
    }

    bool wants_blank(TokenKind kind, std::string_view text) const {
        if (before_ == TokenKind::open_parenthesis || before_ == TokenKind::sign) return false;
        switch (kind) {
        case TokenKind::comma:
        case TokenKind::colon:
        case TokenKind::close_parenthesis:
            return false;
        case TokenKind::unit: // `7%`, and `/h` of `$18/h`
            return text.front() != '%' && text.front() != '/';
        default:
            return true;
        }
    }

    std::string_view text_;
    std::vector<Statement> statements_;
    TokenReader reader_;
    std::vector<TidyLine> lines_;
    std::size_t next_ = 0; // of the statements
    std::uint32_t statement_end_ = 0;
    std::uint32_t depth_ = 0;
    TokenKind before_ = TokenKind::end; // the token before on this line
};

} // namespace

std::vector<TidyLine> tidy_lines(const Tree& tree) {
    return LineMaker(tree).run();
}

} // namespace waxwright
