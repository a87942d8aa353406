// The names of a look: which one stands at a place, and where one is written.
#pragma once

#include <optional>
#include <vector>

#include "editor/look.hpp"

namespace waxwright {

/// A name as it is written somewhere. What it stands for is known by where that was declared: no
/// two things are declared at one place.
struct Naming {
    Span at;
    Span declared;
};

/// The name that an offset lies in or touches: a use that stands for something, or a declaration.
std::optional<Naming> naming_at(const Look& look, FileId file, std::uint32_t offset);

/// True where the tree has the name of a block or of a `let`. What could not be read may have
/// declared a name with all of its line.
bool is_declaration(const Look& look, Span at);

/// Where the thing that was declared there is used, by file and place; none in the library.
std::vector<Span> uses_of(const Look& look, Span declared);

} // namespace waxwright
