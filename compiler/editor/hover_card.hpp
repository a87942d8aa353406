// The words of a hover, in the form that the client shows.
#pragma once

#include <string>
#include <string_view>

namespace waxwright {

class Card {
public:
    explicit Card(bool markdown) : markdown_(markdown) {}

    /// A paragraph of ours: code stands in backticks, in plain text too, as in every message.
    void say(std::string_view words);
    /// The same as an item of a list.
    void item(std::string_view words);
    /// Lines that stay as they are.
    void lines_as_they_are(std::string_view lines);

    /// For a place within words of ours: a piece of the language, on one line, in backticks.
    static std::string code(std::string_view text);
    /// Likewise what the maker wrote for people: in Markdown its signs are escaped.
    std::string user(std::string_view text) const;

    bool empty() const { return text_.empty(); }
    bool markdown() const { return markdown_; }
    const std::string& text() const { return text_; }

private:
    void begin_part(bool in_list);

    bool markdown_;
    bool in_list_ = false;
    std::string text_;
};

} // namespace waxwright
