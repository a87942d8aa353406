#include "editor/completion_items.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "model/phrase_text.hpp"

namespace waxwright {

namespace {

constexpr std::string_view hole = "…";

std::uint32_t number(std::size_t offset) {
    return static_cast<std::uint32_t>(offset);
}

/// Where the number ends that a text begins with: `1/4`, `2.5`.
std::size_t number_end(std::string_view text) {
    std::size_t end = std::min(text.find_first_not_of("0123456789./"), text.size());
    while (end > 0 && !is_digit(text[end - 1]))
        --end;
    return end;
}

} // namespace

std::string as_snippet(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '$' || c == '\\') out += '\\';
        out += c;
    }
    return out;
}

std::string with_places(std::string_view text, bool snippets) {
    // Up to the first place to fill in, and on one line: such clients take what is put in as it is.
    if (!snippets) {
        const std::size_t end = std::min(text.find(hole), text.find('\n'));
        const bool in_quotes = end < text.size() && text.substr(end).starts_with("…\"");
        return fmt::format("{}{}", text.substr(0, end), in_quotes ? "\"" : "");
    }
    std::string out;
    for (int place = 1;; ++place) {
        const std::size_t at = text.find(hole);
        out += as_snippet(text.substr(0, at));
        if (at == std::string_view::npos) return out;
        out += fmt::format("${}", place);
        text.remove_prefix(at + hole.size());
    }
}

std::string example_with_places(std::string_view text, bool snippets) {
    std::string out;
    for (int place = 1; !text.empty();) {
        const std::size_t length = number_end(text);
        if (length > 0 && !snippets) return out;
        if (length > 0) {
            out += fmt::format("${{{}:{}}}", place++, text.substr(0, length));
            text.remove_prefix(length);
        } else {
            out += snippets ? as_snippet(text.substr(0, 1)) : std::string(text.substr(0, 1));
            text.remove_prefix(1);
        }
    }
    return out;
}

Completing::Completing(const Asked& of, TypingPlace at)
    : asked(of), place(std::move(at)), word_{of.file, of.offset, of.offset} {
    const std::string_view line = line_typed();
    word_ = from(of.offset - number(line.size() - word_begin(line)));
}

std::uint32_t Completing::line_begin() const {
    const std::string_view before = text().substr(0, asked.offset);
    const std::size_t end = before.find_last_of("\r\n");
    const std::size_t begin =
        end == std::string_view::npos ? asked.source().mark_length() : end + 1;
    return number(std::min(before.find_first_not_of(" \t", begin), before.size()));
}

std::string_view Completing::line_typed() const {
    const std::uint32_t begin = line_begin();
    return text().substr(begin, asked.offset - begin);
}

std::string_view Completing::line_rest() const {
    const std::string_view rest = text().substr(asked.offset);
    return rest.substr(0, rest.find_first_of("\r\n"));
}

/// Within a word the whole word is replaced; where none was begun, what follows stays.
Span Completing::from(std::uint32_t begin) const {
    std::uint32_t end = asked.offset;
    if (begin < end && is_name_letter(text()[end - 1])) {
        end += number(first_word(line_rest()).size());
    }
    return {asked.file, begin, end};
}

void Completing::add(Group group, Proposal item) {
    items_.push_back({group, std::move(item)});
}

Json Completing::json() const {
    Json list = Json::array();
    for (const Placed& placed : items_) {
        Json each = json(placed.item);
        each["sortText"] = fmt::format("{}{:04}", static_cast<int>(placed.group), list.size());
        list.push_back(std::move(each));
    }
    return {{"isIncomplete", ask_again}, {"items", std::move(list)}};
}

Json Completing::json(const Proposal& item) const {
    const std::string& text = item.text.empty() ? item.label : item.text;
    Json json{
        {"label", item.label},
        {"kind", static_cast<int>(item.kind)},
        {"textEdit", {{"range", asked.view.range(item.at.value_or(word_))}, {"newText", text}}}};
    if (item.snippet && snippets()) json["insertTextFormat"] = 2;         // Snippet
    if (text.find('\n') != std::string::npos) json["insertTextMode"] = 1; // as it is
    if (!item.detail.empty()) json["detail"] = item.detail;
    if (!item.filter.empty()) json["filterText"] = item.filter;
    if (!item.words.empty()) {
        json["documentation"] = {{"kind", asked.view.client.markdown ? "markdown" : "plaintext"},
                                 {"value", item.words}};
    }
    for (const Edit& edit : item.besides) {
        json["additionalTextEdits"].push_back(
            {{"range", asked.view.range(edit.at)}, {"newText", edit.text}});
    }
    return json;
}

} // namespace waxwright
