#include "editor_desk.hpp"

#include <algorithm>

#include <doctest/doctest.h>

namespace waxwright::test {

namespace {

World world_of(const std::map<std::string, std::string>& disk) {
    const auto read = [&disk](const std::string& path) -> std::optional<std::string> {
        const auto found = disk.find(path);
        return found == disk.end() ? std::nullopt : std::optional(found->second);
    };
    const auto files = [&disk](const std::string& folder) {
        std::vector<std::string> names;
        for (const auto& [path, text] : disk) {
            if (path.starts_with(folder + "/")) names.push_back(path);
        }
        return names;
    };
    return {.reader = [read](const std::vector<std::string>&) { return ReadFile(read); },
            .recipe_files = files};
}

} // namespace

Marked::Marked(std::string_view marked) : text(marked) {
    const std::size_t at = text.find('|');
    REQUIRE(at != std::string::npos);
    text.erase(at, 1);
    const Source source("", text, false);
    position = position_of(source, static_cast<std::uint32_t>(at), Encoding::utf16);
}

EditorDesk::EditorDesk(Disk disk, Json capabilities)
    : disk_(std::move(disk)), server_(world_of(disk_)) {
    if (capabilities.is_null()) {
        capabilities = {{"textDocument",
                         {{"hover", {{"contentFormat", {"markdown"}}}},
                          {"publishDiagnostics", {{"relatedInformation", true}}},
                          {"documentSymbol", {{"hierarchicalDocumentSymbolSupport", true}}}}}};
    }
    Json params{{"capabilities", capabilities}};
    params["workspaceFolders"] = Json::array({{{"uri", "file:///desk"}, {"name", "desk"}}});
    request("initialize", params);
    notify("initialized", Json::object());
}

void EditorDesk::notify(const std::string& method, Json params) {
    std::vector<std::string> out;
    const Json message{{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}};
    server_.take(message.dump(), out);
}

Json EditorDesk::request(const std::string& method, Json params) {
    std::vector<std::string> out;
    const int id = next_id_++;
    const Json message{
        {"jsonrpc", "2.0"}, {"id", id}, {"method", method}, {"params", std::move(params)}};
    server_.take(message.dump(), out);
    REQUIRE(out.size() == 1);
    Json answer = Json::parse(out[0]);
    CHECK(answer["id"] == id);
    return answer;
}

void EditorDesk::open(const std::string& path, const std::string& text) {
    versions_[path] = 1;
    notify("textDocument/didOpen",
           {{"textDocument",
             {{"uri", uri(path)}, {"languageId", "candle"}, {"version", 1}, {"text", text}}}});
}

void EditorDesk::type(const std::string& path, const Json& from, const Json& to,
                      const std::string& text) {
    const Json change{{"range", {{"start", from}, {"end", to}}}, {"text", text}};
    notify("textDocument/didChange",
           {{"textDocument", {{"uri", uri(path)}, {"version", ++versions_[path]}}},
            {"contentChanges", Json::array({change})}});
}

Json EditorDesk::ask_with(const std::string& method, Json params) {
    Json answer = request(method, std::move(params));
    INFO(answer.dump());
    REQUIRE(answer.contains("result"));
    return answer["result"];
}

Json EditorDesk::ask(const std::string& method, const std::string& path, Json more) {
    more["textDocument"] = {{"uri", uri(path)}};
    return ask_with(method, std::move(more));
}

Json EditorDesk::ask_at_mark(const std::string& method, std::string_view marked, Json more) {
    const Marked mark(marked);
    open("/desk/a.candle", mark.text);
    more["position"] = mark.position;
    return ask(method, "/desk/a.candle", std::move(more));
}

std::string EditorDesk::refusal(const std::string& method, const std::string& path, Json more) {
    more["textDocument"] = {{"uri", uri(path)}};
    const Json answer = request(method, std::move(more));
    return answer.contains("error") ? answer["error"]["message"].get<std::string>() : "";
}

Json EditorDesk::diagnostics(const std::string& path) {
    std::vector<std::string> out;
    server_.settle(out);
    for (const std::string& text : out) {
        const Json message = Json::parse(text);
        CHECK(message["method"] == "textDocument/publishDiagnostics");
        sent_[message["params"]["uri"].get<std::string>()] = message["params"]["diagnostics"];
    }
    const auto found = sent_.find(uri(path));
    return found == sent_.end() ? Json() : found->second;
}

std::string EditorDesk::with_edits(std::string_view text, const Json& edits) {
    const Source source("", std::string(text), false);
    std::vector<std::pair<Span, std::string>> all;
    for (const Json& edit : edits) {
        all.emplace_back(span_of(0, source, edit["range"], Encoding::utf16),
                         edit["newText"].get<std::string>());
    }
    std::ranges::stable_sort(all, {}, [](const auto& each) { return each.first.begin; });
    std::string done(text);
    for (auto each = all.rbegin(); each != all.rend(); ++each)
        done.replace(each->first.begin, each->first.end - each->first.begin, each->second);
    return done;
}

} // namespace waxwright::test
