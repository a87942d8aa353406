// `tidy`, of a text that is being typed.
#include <algorithm>

#include "editor/features.hpp"
#include "tidy/tidy.hpp"

namespace waxwright {

namespace {

/// What is different, from the first line that is to the last: a cursor outside of it stays where
/// it is.
Edit change_between(FileId file, std::string_view before, std::string_view after) {
    std::size_t begin = 0;
    const std::size_t shorter = std::min(before.size(), after.size());
    while (begin < shorter && before[begin] == after[begin])
        ++begin;
    while (begin > 0 && before[begin - 1] != '\n')
        --begin;
    std::size_t same = 0;
    while (same < shorter - begin &&
           before[before.size() - same - 1] == after[after.size() - same - 1])
        ++same;
    while (same > 0 && before[before.size() - same - 1] != '\n')
        --same;
    return {
        {file, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(before.size() - same)},
        std::string(after.substr(begin, after.size() - same - begin))};
}

} // namespace

/// Of a text with mistakes of writing nothing is changed, as `tidy` leaves it alone; its findings
/// are there anyway.
Reply formatting(const Asked& asked, const Json&) {
    Findings unused;
    const auto form = tidied(asked.file, asked.source(), unused);
    Json edits = Json::array();
    if (!form || form->text == asked.source().text()) return edits;
    const Edit edit = change_between(asked.file, asked.source().text(), form->text);
    edits.push_back({{"range", asked.view.range(edit.at)}, {"newText", edit.text}});
    return edits;
}

} // namespace waxwright
