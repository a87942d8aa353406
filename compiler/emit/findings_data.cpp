#include "emit/findings_data.hpp"

#include <cstdint>
#include <iterator>
#include <unordered_set>

#include <fmt/format.h>

#include "source/utf8.hpp"

namespace waxwright {

namespace {

template <typename Member>
std::vector<std::string_view> names(const Model& model, const std::vector<Subject>& subjects,
                                    Member member) {
    std::vector<std::string_view> found;
    std::unordered_set<std::uint32_t> seen;
    for (const Subject& subject : subjects) {
        const std::uint32_t id = subject.*member;
        if (id != nobody && seen.insert(id).second) found.push_back(model.name(id));
    }
    return found;
}

} // namespace

Region region_of(const Sources& sources, Span at) {
    const Source& source = sources[at.file];
    const Place begin = source.place(at.begin);
    return {begin, source.place(at.end)};
}

std::vector<std::string_view> recipes_of(const Model& model, const std::vector<Subject>& subjects) {
    return names(model, subjects, &Subject::recipe);
}

std::vector<std::string_view> batches_of(const Model& model, const std::vector<Subject>& subjects) {
    return names(model, subjects, &Subject::batch);
}

std::string without_turning_marks(std::string json) {
    std::string escaped;
    std::size_t kept = 0;
    for (std::size_t at = 0; at < json.size();) {
        const Character c = decode_utf8(json, at);
        if (turns_direction(c.code_point)) {
            escaped.append(json, kept, at - kept);
            fmt::format_to(std::back_inserter(escaped), "\\u{:04X}", c.code_point);
            kept = at + c.length;
        }
        at += c.length;
    }
    if (kept == 0) return json;
    return escaped.append(json, kept);
}

} // namespace waxwright
