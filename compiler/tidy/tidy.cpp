#include "tidy/tidy.hpp"

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <utility>

#include "source/utf8.hpp"
#include "syntax/parse.hpp"
#include "tidy/lines.hpp"

namespace waxwright {

namespace {

constexpr std::size_t indent = 2; // columns for each level

/// A key or a name that is wider sticks out, and the values of its group go by the others. It also
/// keeps one word from making every line of a file as wide as itself.
constexpr std::size_t widest_head = 16;

/// The same for lines with a comment behind them.
constexpr std::size_t widest_commented = 60;

/// Terminal columns of a text; of one over `limit` only that it is.
std::size_t width_of(std::string_view text, std::size_t limit) {
    std::size_t width = 0;
    for (std::size_t at = 0; at < text.size() && width <= limit;) {
        const Character c = decode_utf8(text, at);
        at += c.length;
        width += c.code_point == '\t' ? 1 : static_cast<std::size_t>(display_width(c.code_point));
    }
    return width;
}

class Layout {
public:
    explicit Layout(std::vector<TidyLine> lines) : lines_(std::move(lines)) {}

    Tidied run() {
        align_bodies();
        align_comments();
        return joined();
    }

private:
    /// Lines of one kind, one after another, with what continues them.
    std::size_t end_of_group(std::size_t first) const {
        std::size_t end = first + 1;
        while (end < lines_.size()) {
            const TidyLine& line = lines_[end];
            const bool goes_on = line.kind == LineKind::continuation ||
                                 (line.kind == lines_[first].kind && !line.blank_above);
            if (!goes_on) break;
            ++end;
        }
        return end;
    }

    void align_bodies() {
        for (std::size_t first = 0; first < lines_.size();) {
            const LineKind kind = lines_[first].kind;
            if (kind != LineKind::property && kind != LineKind::let) {
                align_statement(first++);
                continue;
            }
            const std::size_t end = end_of_group(first);
            std::size_t width = 0;
            for (std::size_t i = first; i < end; ++i) {
                const std::size_t own = width_of(lines_[i].head, widest_head + 1);
                if (own <= widest_head + 1) width = std::max(width, own); // one for the colon
            }
            for (; first < end; ++first)
                align(lines_[first], width, kind);
        }
    }

    void align_statement(std::size_t index) {
        TidyLine& line = lines_[index];
        const std::size_t levels = line.depth + (line.kind == LineKind::continuation ? 1 : 0);
        line.body.insert(0, levels * indent, ' ');
    }

    /// A line of a group of properties or of `let`. What continues a property stands under its
    /// value.
    static void align(TidyLine& line, std::size_t width, LineKind kind) {
        const std::size_t margin = line.depth * indent;
        if (line.kind == LineKind::continuation) {
            const bool under = kind == LineKind::property && width > 0;
            line.body.insert(0, margin + (under ? width + 1 : indent), ' ');
            return;
        }
        const std::size_t own = width_of(line.head, width);
        std::string text(margin, ' ');
        text += line.head;
        text.append(own <= width ? width - own + 1 : 1, ' ');
        line.body.insert(0, text);
    }

    /// Comments behind lines that stand together: no blank line, no comment's own line and no
    /// brace between them.
    void align_comments() {
        for (std::size_t first = 0; first < lines_.size();) {
            std::size_t end = first + 1;
            while (end < lines_.size() && !lines_[end].blank_above && !is_comment(lines_[end]) &&
                   lines_[end].depth == lines_[first].depth)
                ++end;
            align_comments(first, end);
            first = end;
        }
    }

    static bool is_comment(const TidyLine& line) {
        return !line.comment.empty() && line.body.find_first_not_of(' ') == std::string::npos;
    }

    void align_comments(std::size_t first, std::size_t end) {
        std::size_t width = 0;
        for (std::size_t i = first; i < end; ++i) {
            if (lines_[i].comment.empty() || is_comment(lines_[i])) continue;
            const std::size_t own = width_of(lines_[i].body, widest_commented);
            if (own <= widest_commented) width = std::max(width, own);
        }
        for (; first < end; ++first) {
            TidyLine& line = lines_[first];
            if (line.comment.empty() || is_comment(line)) continue;
            const std::size_t own = width_of(line.body, width);
            line.body.append(own <= width ? width - own + 2 : 2, ' ');
        }
    }

    Tidied joined() const {
        Tidied result;
        std::size_t size = 0;
        for (const TidyLine& line : lines_)
            size += line.body.size() + line.comment.size() + 2;
        result.text.reserve(size);
        for (const TidyLine& line : lines_) {
            if (line.blank_above) {
                result.text += '\n';
                result.origins.push_back(line.blank_origin);
            }
            result.text += line.body;
            result.text += line.comment;
            result.text += '\n';
            result.origins.push_back(line.origin);
        }
        return result;
    }

    std::vector<TidyLine> lines_;
};

} // namespace

std::optional<Tidied> tidied(FileId file, const Source& source, Findings& findings) {
    const std::size_t before = findings.all().size();
    const Tree tree = parse(file, source, findings);
    if (findings.all().size() > before) return std::nullopt;
    return Layout(tidy_lines(tree)).run();
}

} // namespace waxwright
