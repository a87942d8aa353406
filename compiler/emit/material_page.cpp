#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "emit/material_parts.hpp"
#include "emit/material_source.hpp"
#include "emit/material_units.hpp"
#include "emit/materials.hpp"

namespace waxwright {

namespace {

constexpr std::size_t value_column = 18;

/// One property of the page.
struct Line {
    Key key;
    const Entry* entry;       // none for `about`
    std::string_view grounds; // "" if the source says nothing of it
};

std::string_view grounds_of(std::span<const SourceClause> clauses, Key key) {
    for (const SourceClause& clause : clauses) {
        const auto found = std::find(clause.keys.begin(), clause.keys.end(), key);
        if (found != clause.keys.end()) return clause.grounds;
    }
    return {};
}

/// The properties in the order of the schema.
std::vector<Line> lines_of(const Model& model, BlockId id, std::span<const SourceClause> clauses) {
    std::vector<Line> lines;
    for (const PropertyInfo& row : properties_of(model.blocks[id].kind)) {
        const Entry* entry = model.entry(id, row.key);
        if (entry != nullptr) lines.push_back({row.key, entry, grounds_of(clauses, row.key)});
    }
    return lines;
}

/// A figure that speaks for itself, such as what a lid is made of, needs no ground to be shown.
std::string figure_text(const Model& model, const Line& line) {
    std::string text = hung(fmt::format("  {:<{}}", word(line.key), value_column - 2),
                            model.sources.slice(line.entry->at));
    const std::string again = said_again(model, *line.entry);
    if (!again.empty()) text += wrapped("= " + again, value_column);
    if (!line.grounds.empty()) {
        text += wrapped(fmt::format("source: {}", line.grounds), value_column);
    }
    return text;
}

std::string remarks_text(std::span<const SourceClause> clauses) {
    std::string text;
    for (const SourceClause& clause : clauses) {
        if (clause.keys.empty()) text += wrapped(fmt::format("note: {}", clause.grounds), 2);
    }
    return text;
}

/// "  - low confidence: density, melting-heat", if any of the lines is such. What a thing is made
/// of is no figure that could be out.
template <typename Is>
std::string doubt_line(std::span<const Line> lines, std::string_view why, Is is) {
    std::string keys;
    for (const Line& line : lines) {
        if (!std::holds_alternative<Word>(line.entry->value) && is(line)) {
            keys += fmt::format("{}{}", keys.empty() ? "" : ", ", word(line.key));
        }
    }
    return keys.empty() ? keys : hung("  - ", fmt::format("{}: {}", why, keys));
}

std::string doubts_text(std::span<const Line> lines) {
    struct Reason {
        Ground ground;
        std::string_view why;
    };
    static constexpr Reason reasons[] = {
        {Ground::low, "low confidence: don't rely on it for a limit"},
        {Ground::disagree, "sources disagree"},
        {Ground::practice, "common practice, with nothing published"},
        {Ground::from_memory, "from memory: the text was not seen"},
        {Ground::derived, "derived, not measured"},
    };
    std::string text;
    for (const Reason& reason : reasons) {
        text += doubt_line(lines, reason.why, [&](const Line& line) {
            return stands_on(line.grounds, reason.ground);
        });
    }
    return text + doubt_line(lines, "may be off by the figure after +-",
                             [](const Line& line) { return is_doubtful(*line.entry); });
}

} // namespace

std::string material_page(const Model& model, BlockId id) {
    const Block& block = model.blocks[id];
    const std::vector<SourceClause> clauses =
        source_clauses(model.text(id, Key::source), block.kind);
    const std::vector<Line> lines = lines_of(model, id, clauses);
    std::string text = fmt::format("{} {}\n", word(block.kind), block.name);
    if (const std::string_view about = model.text(id, Key::about); !about.empty()) {
        text += wrapped(about, 2);
        const std::string_view grounds = grounds_of(clauses, Key::about);
        if (!grounds.empty()) text += wrapped(fmt::format("source: {}", grounds), 4);
    }
    text += "\n";
    for (const Line& line : lines) {
        text += figure_text(model, line);
    }
    const std::string remarks = remarks_text(clauses);
    if (!remarks.empty()) text += (lines.empty() ? "" : "\n") + remarks;
    const std::string doubts = doubts_text(lines);
    if (!doubts.empty()) text += "\nWhat is doubtful\n" + doubts;
    return text;
}

} // namespace waxwright
