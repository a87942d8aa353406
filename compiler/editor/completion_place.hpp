// What stands round a place of a text, by its words alone: the line there may be half typed, and
// the tree then has nothing of it.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "model/schema.hpp"

namespace waxwright {

struct TypingPlace {
    enum class Room : std::uint8_t { file, block, steps, comment, text };
    Room room = Room::file;
    BlockKind kind = BlockKind::unknown; // of the block round it
    std::uint32_t head = 0;              // where that block begins
    std::uint32_t begin = 0;             // where the statement begins; the cursor if there is none
    std::string typed{};                 // the statement up to the cursor, without its comments
    std::uint32_t text_begin = 0;        // in a text: behind its opening quote
    std::vector<std::string> lines{};    // the room's other statements; of steps those before it

    /// True if a statement of the room begins with that word.
    bool has(std::string_view word) const;
};

/// `cursor` is an offset of `text`.
TypingPlace place_at(std::string_view text, std::uint32_t cursor);

/// The letters, digits and hyphens that a statement begins with.
std::string_view first_word(std::string_view statement);
/// True for what may be part of a name as it is typed, capitals included.
bool is_name_letter(char c);
/// Where the word begins that a text ends with, its length if there is none: `80% so` has `so`,
/// `75C` has `C`.
std::size_t word_begin(std::string_view text);

} // namespace waxwright
