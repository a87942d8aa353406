#include "editor/look.hpp"

#include <map>
#include <utility>

namespace waxwright {

Look look_at(const Documents& documents, const std::vector<std::string>& others,
             const ReadFile& read, const InPieces& in_pieces, Checked checked) {
    Sources sources;
    for (const auto& [path, document] : documents.all())
        sources.add(path, std::string(document.source.text()));
    for (const std::string& path : others) {
        if (documents.find(path) != nullptr) continue;
        if (auto text = read(path)) sources.add(path, std::move(*text));
    }
    Notebook notebook;
    Workshop workshop = open_workshop(std::move(sources), read, &notebook);
    if (checked == Checked::yes) {
        work(workshop, in_pieces);
    } else {
        workshop.findings.sort_and_join(workshop.model.sources);
    }
    Look look{std::move(workshop), std::move(notebook), {}};
    for (FileId file = 0; file < look.model().sources.size(); ++file) {
        const Source& source = look.source(file);
        if (!source.is_library()) look.files.emplace(source.name(), file);
    }
    return look;
}

std::string View::uri(FileId file) const {
    const std::string& path = look.source(file).name();
    const Document* open = documents.find(path);
    return open != nullptr ? open->uri : uri_of_path(path);
}

Json View::range(Span at) const {
    return range_of(look.source(at.file), at, client.encoding);
}

Json View::location(Span at) const {
    return {{"uri", uri(at.file)}, {"range", range(at)}};
}

Json View::workspace_edit(const std::vector<Edit>& edits) const {
    const bool with_versions = client.document_changes;
    std::map<FileId, Json> by_file;
    for (const Edit& edit : edits) {
        Json& list = by_file.try_emplace(edit.at.file, Json::array()).first->second;
        list.push_back({{"range", range(edit.at)}, {"newText", edit.text}});
    }
    Json changes = with_versions ? Json::array() : Json::object();
    for (auto& [file, list] : by_file) {
        if (!with_versions) {
            changes[uri(file)] = std::move(list);
            continue;
        }
        const Document* open = documents.find(look.source(file).name());
        Json version;
        if (open != nullptr && open->version) version = *open->version;
        changes.push_back({{"textDocument", {{"uri", uri(file)}, {"version", version}}},
                           {"edits", std::move(list)}});
    }
    return {{with_versions ? "documentChanges" : "changes", std::move(changes)}};
}

} // namespace waxwright
