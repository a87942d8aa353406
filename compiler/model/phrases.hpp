// The phrase book: lines as people of the trade write them, and what the language has for each.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "findings/finding.hpp"
#include "model/schema.hpp"
#include "source/source.hpp"

namespace waxwright {

/// A row of phrases_steps.def or phrases_lines.def.
struct Phrase {
    BlockKind in;           // only in such a block; `unknown`: anywhere
    std::string_view said;  // with its holes
    std::string_view meant; // with the same holes; empty where only a question can be asked
    bool certain;
    std::string_view question; // empty where none is needed
};
std::span<const Phrase> all_phrases();

/// What a line says in the language's words, by the first row that it matches from end to end.
struct PhraseAnswer {
    const Phrase* phrase;
    std::string line;     // empty where only a question can be asked
    std::string question; // empty where none is needed
};
/// `in` is the kind of block the line stands in, as far as it is known.
std::optional<PhraseAnswer> answer_of(std::string_view line, BlockKind in = BlockKind::unknown);
/// The number that a text begins with, in digits or in words (`two`, `half an`), as digits: none
/// where its length is 0.
struct NumberBegun {
    std::string_view number{};
    std::size_t length = 0;
};
NumberBegun number_that_begins(std::string_view text);
/// The same of the thermometer's degrees: `deg F` is `°F`.
struct DegreesBegun {
    std::string_view sign{};
    std::size_t length = 0;
};
DegreesBegun degrees_that_begin(std::string_view text);

/// What a line may come to that is still being written, by each row that it begins and that has a
/// line to offer: of `take it of`, `off heat`. `…` stands for holes that aren't there yet.
std::vector<PhraseAnswer> answers_begun(std::string_view line, BlockKind in = BlockKind::unknown);

/// Gives the findings of lines that could not be read, and that the phrase book knows, its answer
/// for a hint and, where it has a line, a fix that writes it.
void answer_phrases(const Sources& sources, Findings& findings);

} // namespace waxwright
