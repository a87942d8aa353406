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

std::string grounds_text(std::span<const Line> lines) {
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
    return text;
}

std::string doubts_text(std::span<const Line> lines) {
    return grounds_text(lines) +
           doubt_line(lines, "may be off by the figure after +-",
                      [](const Line& line) { return is_doubtful(*line.entry); });
}

/// What somebody who writes a recipe needs of it; of other kinds than these the first of the
/// schema.
std::span<const Key> keys_at_work(BlockKind kind) {
    static constexpr Key wax[] = {Key::melts,    Key::max_load, Key::ceiling,
                                  Key::scent_at, Key::pour_at,  Key::cures};
    static constexpr Key oil[] = {Key::density,     Key::flash_point, Key::limit,
                                  Key::ifra_cat_12, Key::contains,    Key::made_for};
    return kind == BlockKind::wax   ? std::span<const Key>(wax)
           : kind == BlockKind::oil ? std::span<const Key>(oil)
                                    : std::span<const Key>();
}

/// The figure, and behind it the same in the other unit.
std::string short_text(const Model& model, const Line& line) {
    std::string text(model.sources.slice(line.entry->at));
    if (const std::string again = said_again(model, *line.entry); !again.empty())
        text += fmt::format(" = {}", again);
    return hung(fmt::format("{:<{}}", word(line.key), value_column - 2), text);
}

} // namespace

std::string material_in_short(const Model& model, BlockId id) {
    constexpr std::size_t most = 6;
    const BlockKind kind = model.blocks[id].kind;
    const auto clauses = source_clauses(model.text(id, Key::source), kind);
    std::vector<Line> lines = lines_of(model, id, clauses);
    if (const auto keys = keys_at_work(kind); !keys.empty()) {
        std::erase_if(lines, [&](const Line& line) {
            return std::find(keys.begin(), keys.end(), line.key) == keys.end();
        });
    }
    lines.resize(std::min(lines.size(), most));
    std::string text;
    for (const Line& line : lines)
        text += short_text(model, line);
    const std::string grounds = grounds_text(lines);
    return grounds.empty() ? text : fmt::format("{}\nHow sure that is\n{}", text, grounds);
}

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
