#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "editor/rename_check.hpp"

namespace waxwright {

namespace {

using Place = std::tuple<FileId, std::uint32_t, std::uint32_t>;

Place place_of(Span at) {
    return {at.file, at.begin, at.end};
}

/// The text of each file that has edits, with them done.
std::map<FileId, std::string> texts_after(const Look& look, const std::vector<Edit>& edits) {
    std::map<FileId, std::string> texts;
    std::map<FileId, std::uint32_t> done; // how far each has come
    for (const Edit& edit : edits) {
        std::uint32_t& from = done[edit.at.file];
        const std::string_view before = look.source(edit.at.file).text();
        texts[edit.at.file] +=
            fmt::format("{}{}", before.substr(from, edit.at.begin - from), edit.text);
        from = edit.at.end;
    }
    for (auto& [file, text] : texts)
        text += look.source(file).text().substr(done[file]);
    return texts;
}

/// The same files with those texts, read again.
std::pair<Workshop, Notebook> read_again(const Look& look,
                                         const std::map<FileId, std::string>& texts) {
    const auto text_of = [&](FileId file) {
        const auto found = texts.find(file);
        return found != texts.end() ? found->second : std::string(look.source(file).text());
    };
    Sources sources;
    for (const FileId root : look.model().roots)
        sources.add(look.source(root).name(), text_of(root));
    const ReadFile read = [&](const std::string& path) -> std::optional<std::string> {
        const auto file = look.files.find(path);
        return file == look.files.end() ? std::nullopt : std::optional(text_of(file->second));
    };
    Notebook notebook;
    Workshop workshop = open_workshop(std::move(sources), read, &notebook);
    workshop.findings.sort_and_join(workshop.model.sources);
    return {std::move(workshop), std::move(notebook)};
}

/// Where a place is once the edits are done.
class Moved {
public:
    explicit Moved(const std::vector<Edit>& edits) {
        for (const Edit& edit : edits) {
            std::vector<Step>& steps = by_file_[edit.at.file];
            const std::int64_t before = steps.empty() ? 0 : steps.back().longer;
            const auto old_size = static_cast<std::int64_t>(edit.at.end - edit.at.begin);
            steps.push_back(
                {edit.at.end, before + static_cast<std::int64_t>(edit.text.size()) - old_size});
        }
    }

    Place operator()(Span at) const {
        return {at.file, moved(at.file, at.begin), moved(at.file, at.end)};
    }

private:
    struct Step {
        std::uint32_t from;
        std::int64_t longer; // by this much, bytes, the text is longer up to there
    };

    std::uint32_t moved(FileId file, std::uint32_t offset) const {
        const auto found = by_file_.find(file);
        if (found == by_file_.end()) return offset;
        const std::vector<Step>& steps = found->second;
        const auto after = std::ranges::upper_bound(steps, offset, {}, &Step::from);
        if (after == steps.begin()) return offset;
        return static_cast<std::uint32_t>(offset + std::prev(after)->longer);
    }

    std::map<FileId, std::vector<Step>> by_file_;
};

/// The first finding that was not there before; an error before all others. Where the old name was
/// none, more is read than before, and what that shows is not the new name's doing; but a name that
/// is taken is.
const Finding* new_finding(const Look& look, const Findings& after, const Moved& moved,
                           bool more_is_read) {
    std::multiset<std::pair<Rule, Place>> known;
    for (const Finding& finding : look.workshop.findings.all())
        known.emplace(finding.rule, moved(finding.at));
    const Finding* first = nullptr;
    for (const Finding& finding : after.all()) {
        if (finding.rule == Rule::unknown_name) continue;
        if (more_is_read && finding.rule != Rule::defined_twice) continue;
        const auto found = known.find({finding.rule, place_of(finding.at)});
        if (found != known.end()) {
            known.erase(found);
        } else if (finding.severity == Severity::error) {
            return &finding;
        } else if (first == nullptr) {
            first = &finding;
        }
    }
    return first;
}

/// The first name that would stand for something else, or for nothing. One that stood for nothing
/// may come to stand for something.
const NameUse* changed_use(const Look& look, const Notebook& after, const Moved& moved) {
    std::map<Place, Place> meanings;
    for (const NameUse& use : after.uses)
        meanings.emplace(place_of(use.at), place_of(use.to.at));
    for (const NameUse& use : look.notebook.uses) {
        const auto found = meanings.find(moved(use.at));
        if (found == meanings.end() || found->second != moved(use.to.at)) return &use;
    }
    return nullptr;
}

} // namespace

std::optional<std::string> changed_meaning(const Look& look, const NameChange& change) {
    const auto [workshop, notebook] = read_again(look, texts_after(look, change.edits));
    const Moved moved(change.edits);
    const bool was_no_name = Names::as_name(change.old_name) != change.old_name ||
                             !Names::is_kebab(change.old_name) || is_reserved(change.old_name);
    if (const Finding* found = new_finding(look, workshop.findings, moved, was_no_name)) {
        return fmt::format("`{}` can't be its name: at {}, {}", change.new_name,
                           place_in_words(workshop.model.sources, found->at), found->message);
    }
    if (const NameUse* use = changed_use(look, notebook, moved)) {
        return fmt::format("`{}` can't be its name: `{}` at {} would stand for another thing",
                           change.new_name, look.model().sources.slice(use->at),
                           place_in_words(look.model().sources, use->at));
    }
    return std::nullopt;
}

} // namespace waxwright
