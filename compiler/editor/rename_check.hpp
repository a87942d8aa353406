// Whether all of a look would mean the same with a name changed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "editor/naming.hpp"

namespace waxwright {

/// Another name for what is declared at a place, and all the places that it is written in.
struct NameChange {
    Span declared;
    std::string old_name; // as it is declared
    std::string new_name;
    std::vector<Edit> edits; // by file and place
};

/// Where a mistake of writing keeps lines from being read, and the name stands in one: it would
/// stay there as it is. In words for the maker; nothing if there is no such line.
std::optional<std::string> hidden_mention(const Look& look, const NameChange& change);

/// Reads all texts again with the edits done, and holds the two readings against each other: no
/// name may stand for something else, and there may be no new finding. In words for the maker;
/// nothing if all is well.
std::optional<std::string> changed_meaning(const Look& look, const NameChange& change);

/// "bench.candle:12"
std::string place_in_words(const Sources& sources, Span at);

} // namespace waxwright
