#include "emit/material_source.hpp"

#include <algorithm>
#include <optional>

namespace waxwright {

namespace {

/// The words before the colon, if each is a property of such a block.
std::vector<Key> keys_of(std::string_view words, BlockKind kind) {
    std::vector<Key> keys;
    for (std::size_t at = 0; at <= words.size();) {
        const std::size_t end = std::min(words.find(", ", at), words.size());
        const std::optional<Key> key = find_key(words.substr(at, end - at));
        if (!key || find_property(kind, *key) == nullptr) return {};
        keys.push_back(*key);
        at = end + 2;
    }
    return keys;
}

SourceClause clause_of(std::string_view text, BlockKind kind) {
    const std::size_t colon = text.find(": ");
    if (colon == std::string_view::npos) return {{}, text};
    const std::string_view grounds = text.substr(colon + 2);
    if (text.substr(0, colon) == "note") return {{}, grounds};
    std::vector<Key> keys = keys_of(text.substr(0, colon), kind);
    const bool remark = keys.empty();
    return {std::move(keys), remark ? text : grounds};
}

bool has(std::string_view text, std::string_view words) {
    return text.find(words) != std::string_view::npos;
}

} // namespace

std::vector<SourceClause> source_clauses(std::string_view source, BlockKind kind) {
    std::vector<SourceClause> clauses;
    for (std::size_t at = 0; at < source.size();) {
        const std::size_t end = std::min(source.find("; ", at), source.size());
        clauses.push_back(clause_of(source.substr(at, end - at), kind));
        at = end + 2;
    }
    return clauses;
}

bool stands_on(std::string_view grounds, Ground ground) {
    switch (ground) {
    case Ground::disagree:
        return has(grounds, "sources disagree");
    case Ground::low:
        return has(grounds, "low confidence");
    case Ground::from_memory:
        return has(grounds, "from memory");
    case Ground::derived:
        return has(grounds, "derived from");
    case Ground::practice:
        return has(grounds, "common practice");
    }
    return false;
}

} // namespace waxwright
