// What can be folded away: blocks, steps, long values, and runs of `use` and of comments.
#include <algorithm>
#include <vector>

#include "editor/features.hpp"
#include "tidy/tokens.hpp"

namespace waxwright {

namespace {

/// Whole lines, from 0 as LSP counts them.
class Folds {
public:
    explicit Folds(const Asked& asked) : source_(asked.source()), tree_(asked.tree()) {}

    Json found() {
        statements(tree_.root());
        comments();
        std::ranges::sort(folds_, {},
                          [](const Json& fold) { return fold["startLine"].get<int>(); });
        return folds_;
    }

private:
    std::uint32_t line_of(std::uint32_t offset) const { return source_.line_at(offset) - 1; }

    /// The line of the last character of a node that is no blank.
    std::uint32_t last_line(NodeId node) const {
        const std::size_t last = tree_.text(node).find_last_not_of(" \t\r\n");
        const std::uint32_t begin = tree_.span(node).begin;
        return line_of(last == std::string_view::npos ? begin
                                                      : begin + static_cast<std::uint32_t>(last));
    }

    void add(std::uint32_t first, std::uint32_t last, const char* kind = nullptr) {
        if (last <= first) return;
        Json fold{{"startLine", first}, {"endLine", last}};
        if (kind != nullptr) fold["kind"] = kind;
        folds_.push_back(std::move(fold));
    }

    /// A `}` on a line of its own stays to be seen.
    void add_braced(NodeId node) {
        const std::uint32_t last = last_line(node);
        std::string_view text = source_.line(last + 1);
        text.remove_prefix(std::min(text.find_first_not_of(" \t"), text.size()));
        add(line_of(tree_.span(node).begin), text.starts_with('}') ? last - 1 : last);
    }

    void statements(NodeId parent) {
        std::uint32_t use_begin = 0, use_end = 0; // the run of `use` lines: [begin, end)
        for (const NodeId node : tree_.children(parent)) {
            const std::uint32_t first = line_of(tree_.span(node).begin);
            switch (tree_.kind(node)) {
            case Kind::use:
                if (first != use_end || use_end == 0) {
                    add(use_begin, use_end == 0 ? 0 : use_end - 1, "imports");
                    use_begin = first;
                }
                use_end = last_line(node) + 1;
                break;
            case Kind::block:
            case Kind::steps:
                add_braced(node);
                statements(node);
                break;
            case Kind::let:
            case Kind::property:
            case Kind::pour:
            case Kind::have:
            case Kind::step:
                add(first, last_line(node));
                break;
            default:
                break;
            }
        }
        add(use_begin, use_end == 0 ? 0 : use_end - 1, "imports");
    }

    /// Comments that have their lines for themselves, one line under another.
    void comments() {
        TokenReader reader(tree_);
        std::uint32_t begin = 0, end = 0; // the run: [begin, end), as lines
        for (Token token = reader.next(); token.kind != TokenKind::end; token = reader.next()) {
            if (token.kind != TokenKind::comment) continue;
            const std::uint32_t line = line_of(token.begin);
            std::string_view text = source_.line(line + 1);
            text.remove_prefix(std::min(text.find_first_not_of(" \t"), text.size()));
            if (!text.starts_with('#')) continue;
            if (line != end || end == 0) {
                add(begin, end == 0 ? 0 : end - 1, "comment");
                begin = line;
            }
            end = line + 1;
        }
        add(begin, end == 0 ? 0 : end - 1, "comment");
    }

    const Source& source_;
    const Tree& tree_;
    std::vector<Json> folds_;
};

} // namespace

Reply folding_range(const Asked& asked, const Json&) {
    return Folds(asked).found();
}

} // namespace waxwright
