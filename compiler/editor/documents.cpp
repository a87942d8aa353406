#include "editor/documents.hpp"

#include <utility>

namespace waxwright {

namespace {

std::string path_of(const Json& params) {
    return path_of_uri(params.at("textDocument").at("uri").get<std::string>());
}

std::optional<std::int64_t> version_of(const Json& document) {
    const auto version = document.find("version");
    if (version == document.end() || !version->is_number_integer()) return std::nullopt;
    return version->get<std::int64_t>();
}

Source text_of(const std::string& path, std::string text) {
    return {path, std::move(text), false};
}

/// Notes what was put in place of a span; `text` is the whole of it then.
void note_typed(Document& document, std::string_view text, Span at, Span put) {
    const std::string_view before = text.substr(0, put.begin);
    const std::size_t line = before.find_last_of("\r\n") + 1; // 0 where there is none
    if (!text.substr(line).starts_with("use ")) {
        document.typed = put;
    } else if (document.typed && document.typed->begin >= at.end) { // it stands elsewhere now
        document.typed->begin += put.end - at.end;
        document.typed->end += put.end - at.end;
    }
}

} // namespace

void Documents::open(const Json& params) {
    const Json& document = params.at("textDocument");
    const std::string path = path_of(params);
    documents_.insert_or_assign(
        path, Document{document.at("uri").get<std::string>(), version_of(document),
                       text_of(path, document.at("text").get<std::string>()), std::nullopt});
}

/// The changes come one after another, each in the places of the text that the one before left.
void Documents::change(const Json& params, Encoding encoding) {
    const auto found = documents_.find(path_of(params));
    if (found == documents_.end()) return;
    Document& document = found->second;
    for (const Json& change : params.at("contentChanges")) {
        std::string text = change.at("text").get<std::string>();
        if (const auto range = change.find("range"); range != change.end()) {
            const Source& source = document.source;
            const Span at = span_of(0, source, *range, encoding);
            const Span put{0, at.begin, at.begin + static_cast<std::uint32_t>(text.size())};
            text.insert(0, source.text().substr(0, at.begin));
            text += source.text().substr(at.end);
            note_typed(document, text, at, put);
        } else {
            document.typed.reset();
        }
        document.source = text_of(found->first, std::move(text));
    }
    document.version = version_of(params.at("textDocument"));
}

void Documents::save(const Json& params) {
    const auto found = documents_.find(path_of(params));
    if (found != documents_.end()) found->second.typed.reset();
}

void Documents::close(const Json& params) {
    documents_.erase(path_of(params));
}

const Document* Documents::find(const std::string& path) const {
    const auto found = documents_.find(path);
    return found == documents_.end() ? nullptr : &found->second;
}

} // namespace waxwright
