// What a completion is made of: where it stands, and the list of its items.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "editor/completion_place.hpp"
#include "editor/look.hpp"

namespace waxwright {

/// LSP's CompletionItemKind, those that are used here.
enum class ProposalKind : std::uint8_t {
    verb = 3, // Function
    name = 6, // Variable
    kind = 7, // Class
    module = 9,
    property = 10,
    unit = 11,
    value = 12,
    keyword = 14,
    phrase = 15, // Snippet
    file = 17,
    choice = 20, // EnumMember
    let = 21,    // Constant
    rule = 23,   // Event
};

struct Proposal {
    std::string label;
    ProposalKind kind;
    std::string detail{};
    std::string words{};         // a line or two about it
    std::string text{};          // what is put in, where it isn't the label
    bool snippet = false;        // `text` has places, if the client takes them
    std::optional<Span> at{};    // what it replaces, where it isn't the word at the cursor
    std::vector<Edit> besides{}; // elsewhere in the same file
    std::string filter{};        // what the client holds what was typed against, if not the label
};

/// Which come first; within a group as they were added. What the line may have meant, or may come
/// to, is behind all that goes on from its letters.
enum class Group : std::uint8_t { first, then, more, last, meant, begun };

class Completing {
public:
    Completing(const Asked& of, TypingPlace at);

    const Asked& asked;
    const TypingPlace place;

    std::string_view text() const { return asked.source().text(); }
    bool snippets() const { return asked.view.client.snippets; }
    /// What is on the cursor's line before it, without the blanks in front.
    std::string_view line_typed() const;
    std::uint32_t line_begin() const;
    /// The rest of the cursor's line.
    std::string_view line_rest() const;
    /// From an offset before the cursor, on its line, to the cursor or the end of the word it is
    /// in.
    Span from(std::uint32_t begin) const;

    void add(Group group, Proposal item);
    bool empty() const { return items_.empty(); }
    /// The client is to ask again at the next letter.
    bool ask_again = false;

    Json json() const;

private:
    Json json(const Proposal& item) const;
    struct Placed {
        Group group;
        Proposal item;
    };
    std::vector<Placed> items_;
    Span word_;
};

/// As a snippet has it: `$`, `}` and `\` are its own.
std::string as_snippet(std::string_view text);
/// A text with `…` for what only the maker knows. As a snippet these are its places; without
/// snippets it ends at the first.
std::string with_places(std::string_view text, bool snippets);
/// The same with the numbers of an example as its places: `melt to ${1:75} °C`; without snippets
/// `melt to `.
std::string example_with_places(std::string_view text, bool snippets);

} // namespace waxwright
