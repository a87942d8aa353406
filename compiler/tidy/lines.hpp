// The lines of a file's canonical form, before anything is set under anything else.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "syntax/tree.hpp"

namespace waxwright {

enum class LineKind : std::uint8_t {
    statement,
    property,
    let,
    closing,      // a `}`
    comment,      // alone on its line, between statements
    continuation, // a statement goes on; it may be only a comment
};

struct TidyLine {
    LineKind kind;
    std::uint32_t depth;  // of blocks round it
    std::uint32_t origin; // line of the source, see Tidied
    bool blank_above;
    std::uint32_t blank_origin = 0; // of the blank line above
    std::string head{};             // `load:`, `let house-load`: what stands before the column
    std::string body{};
    std::string_view comment{}; // of the source; empty if there is none
};

/// Breaks a tree without mistakes into lines: a statement each, or several where it goes over
/// several in the source.
std::vector<TidyLine> tidy_lines(const Tree& tree);

} // namespace waxwright
