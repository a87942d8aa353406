#include "editor/client.hpp"

namespace waxwright {

namespace {

/// Null where there is no such thing.
Json at(const Json& json, const char* pointer) {
    const Json::json_pointer where(pointer);
    return json.is_object() && json.contains(where) ? json.at(where) : Json();
}

bool says(const Json& json, const char* pointer) {
    const Json value = at(json, pointer);
    return value.is_boolean() && value.get<bool>();
}

/// The first of the client's encodings: it puts first what it likes best.
Encoding encoding_of(const Json& offered) {
    if (!offered.is_array()) return Encoding::utf16;
    for (const Json& each : offered) {
        for (const Encoding known : {Encoding::utf8, Encoding::utf16, Encoding::utf32}) {
            if (each == word(known)) return known;
        }
    }
    return Encoding::utf16;
}

std::vector<std::string> folders_of(const Json& params) {
    std::vector<std::string> folders;
    const auto add = [&](const Json& uri) {
        if (!uri.is_string()) return;
        std::string path = path_of_uri(uri.get<std::string>());
        while (path.size() > 1 && path.back() == '/')
            path.pop_back();
        if (path.starts_with('/')) folders.push_back(std::move(path));
    };
    const Json listed = at(params, "/workspaceFolders");
    if (listed.is_array()) {
        for (const Json& folder : listed)
            add(at(folder, "/uri"));
    }
    if (folders.empty()) add(at(params, "/rootUri"));
    if (folders.empty()) add(at(params, "/rootPath"));
    return folders;
}

bool takes_markdown(const Json& formats) {
    if (!formats.is_array()) return false;
    for (const Json& format : formats) {
        if (format == "markdown") return true;
    }
    return false;
}

} // namespace

Client client_of(const Json& params) {
    Client client;
    client.folders = folders_of(params);
    const Json can = at(params, "/capabilities");
    client.encoding = encoding_of(at(can, "/general/positionEncodings"));
    client.document_changes = says(can, "/workspace/workspaceEdit/documentChanges");
    client.markdown = takes_markdown(at(can, "/textDocument/hover/contentFormat"));
    client.snippets = says(can, "/textDocument/completion/completionItem/snippetSupport");
    client.related = says(can, "/textDocument/publishDiagnostics/relatedInformation");
    client.nested_symbols =
        says(can, "/textDocument/documentSymbol/hierarchicalDocumentSymbolSupport");
    client.watches_files = says(can, "/workspace/didChangeWatchedFiles/dynamicRegistration");
    return client;
}

} // namespace waxwright
