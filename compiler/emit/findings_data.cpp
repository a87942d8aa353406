#include "emit/findings_data.hpp"

#include <unordered_set>

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

} // namespace waxwright
