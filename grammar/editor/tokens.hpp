// What the compiler itself takes each token of a file for. Tests hold the formats against it.
#pragma once

#include <cstdint>
#include <vector>

#include "grammar/editor/classes.hpp"
#include "syntax/tree.hpp"

namespace waxwright::editor {

struct ClassedToken {
    Class which;
    std::uint32_t begin; // in bytes, as the tree has it
    std::uint32_t end;
};

/// Every token of a tree without mistakes but the marks `{ } ( ) , : =`. A text is one token, its
/// escapes with it.
std::vector<ClassedToken> classed_tokens(const Tree& tree);

} // namespace waxwright::editor
