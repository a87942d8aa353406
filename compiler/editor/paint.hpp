// What each leaf of a tree is shown as, by what it is in the language.
#pragma once

#include <cstdint>
#include <vector>

#include "editor/look.hpp"

namespace waxwright {

/// In the order of the words that the client is told; `none` has no word.
enum class PaintType : std::uint8_t {
    keyword,     // a word of the language: `use`, `at`, `because`
    type,        // a kind of block
    class_,      // the name of a block
    variable,    // the name of a `let`
    property,    // a key
    function,    // a step's verb
    enum_member, // one of a list of words: a choice, a unit, a currency, a rule
    namespace_,  // a module of the library
    number,      // a number, a date
    string,
    comment,
    operator_,
    none,
};

struct Paint {
    PaintType type = PaintType::none;
    bool declares = false; // the name is declared here
    bool library = false;  // it is a name of the standard library
};

/// By NodeId of the file's tree; `none` for all that is no leaf, and for a name that is unknown.
std::vector<Paint> painted(const Look& look, FileId file);

} // namespace waxwright
