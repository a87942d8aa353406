#include "model/use_module.hpp"

#include <optional>

#include <fmt/format.h>

namespace waxwright {

namespace {

/// Behind the line that an offset is in.
std::uint32_t next_line(const Source& source, std::uint32_t offset) {
    const std::uint32_t line = source.line_at(offset);
    return line < source.line_count() ? source.line_begin(line + 1)
                                      : static_cast<std::uint32_t>(source.text().size());
}

/// A line end, if what is before an offset has none.
std::string_view line_end_before(const Source& source, std::uint32_t offset) {
    const bool ends = offset <= source.mark_length() || source.text()[offset - 1] == '\n' ||
                      source.text()[offset - 1] == '\r';
    return ends ? "" : "\n";
}

} // namespace

Edit use_module(const Tree& tree, const Source& source, std::string_view module) {
    std::optional<Span> last_name; // of the last `use` that has modules
    std::uint32_t line = source.mark_length();
    bool first = true, used = false;
    for (const NodeId node : tree.children(tree.root())) {
        const Kind kind = tree.kind(node);
        if (first && kind != Kind::broken)
            line = source.line_begin(source.line_at(tree.span(node).begin));
        first = false;
        if (kind == Kind::language || kind == Kind::use)
            line = next_line(source, tree.span(node).begin);
        if (kind != Kind::use) continue;
        used = true;
        for (const NodeId item : tree.children(node)) {
            if (tree.kind(item) == Kind::name) last_name = tree.span(item);
        }
    }
    if (last_name) {
        return {{tree.file(), last_name->end, last_name->end}, fmt::format(", {}", module)};
    }
    // The first `use` of a file stands apart from what follows it.
    const std::string_view behind = source.text().substr(line);
    const bool apart = !used && !behind.empty() && behind[0] != '\n' && behind[0] != '\r';
    return {{tree.file(), line, line},
            fmt::format("{}use {}\n{}", line_end_before(source, line), module, apart ? "\n" : "")};
}

} // namespace waxwright
