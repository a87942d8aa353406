#include <fmt/format.h>

#include "emit/material_parts.hpp"
#include "emit/materials.hpp"

namespace waxwright {

namespace {

constexpr std::size_t name_column = 22;

std::string name_line(const Model& model, BlockId id) {
    const std::string_view about = model.text(id, Key::about);
    return hung(fmt::format("  {:<{}} ", model.name(id), name_column), about);
}

/// What somebody who chooses among materials of a kind looks at first.
std::span<const Key> chief_keys(BlockKind kind) {
    static constexpr Key wax[] = {Key::melts, Key::max_load, Key::pour_at};
    static constexpr Key oil[] = {Key::density, Key::flash_point};
    static constexpr Key substance[] = {Key::cas, Key::hazards};
    static constexpr Key additive[] = {Key::melts, Key::limit};
    static constexpr Key vessel[] = {Key::brimful, Key::inside, Key::bore};
    static constexpr Key wick[] = {Key::core};
    static constexpr Key extra[] = {Key::goes};
    switch (kind) {
    case BlockKind::wax:
        return wax;
    case BlockKind::oil:
        return oil;
    case BlockKind::substance:
        return substance;
    case BlockKind::additive:
        return additive;
    case BlockKind::vessel:
        return vessel;
    case BlockKind::wick:
        return wick;
    case BlockKind::extra:
        return extra;
    default:
        return {};
    }
}

std::string chief_figures(const Model& model, BlockId id) {
    std::string text;
    for (const Key key : chief_keys(model.blocks[id].kind)) {
        const Entry* entry = model.entry(id, key);
        if (entry == nullptr) continue;
        text += fmt::format("{}{} {}", text.empty() ? "" : "; ", word(key),
                            model.sources.slice(entry->at));
    }
    return text.empty() ? text : wrapped(text, name_column + 3);
}

} // namespace

std::string all_materials(const Model& model, std::span<const BlockId> all) {
    std::string text;
    for (const std::string_view kind : block_kind_words()) {
        std::string lines;
        for (const BlockId id : all) {
            if (word(model.blocks[id].kind) == kind) lines += name_line(model, id);
        }
        if (!lines.empty()) text += fmt::format("{}{}\n{}", text.empty() ? "" : "\n", kind, lines);
    }
    return text;
}

std::string some_materials(const Model& model, std::span<const BlockId> some) {
    std::string text;
    for (const BlockId id : some) {
        text += name_line(model, id) + chief_figures(model, id);
    }
    return text;
}

} // namespace waxwright
