// What a material's `source` says, property by property.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/schema.hpp"

namespace waxwright {

/// One clause of a source: `density, heat: from memory of …`.
struct SourceClause {
    std::vector<Key> keys; // the properties it is of; empty for a remark (`note: …`)
    std::string_view grounds;
};

/// A source taken apart at each "; ". A clause that does not begin with properties of such a block
/// (or with `about`), commas between them and a colon behind, is a remark as a whole.
std::vector<SourceClause> source_clauses(std::string_view source, BlockKind kind);

/// What makes the grounds of a figure doubtful. The words are those of the library's own sources.
enum class Ground : std::uint8_t {
    disagree,    // "sources disagree"
    low,         // "low confidence"
    from_memory, // "from memory"
    derived,     // "derived from"
    practice     // "common practice", and nothing published besides
};
bool stands_on(std::string_view grounds, Ground ground);

} // namespace waxwright
