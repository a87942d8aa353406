#include "editor/server.hpp"

#include <algorithm>
#include <array>
#include <exception>
#include <utility>

#include <fmt/format.h>

#include "source/path.hpp"

namespace waxwright {

namespace {

// Error codes of JSON-RPC 2.0 and of LSP 3.17.
constexpr int parse_error = -32700;
constexpr int invalid_request = -32600;
constexpr int method_not_found = -32601;
constexpr int invalid_params = -32602;
constexpr int internal_error = -32603;
constexpr int not_initialized = -32002;
constexpr int request_failed = -32803;

std::string written(const Json& message) {
    return message.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json result_of(const Json& id, Json result) {
    return {{"jsonrpc", "2.0"}, {"id", id}, {"result", std::move(result)}};
}

Json error_of(const Json& id, int code, std::string_view words) {
    return {{"jsonrpc", "2.0"}, {"id", id}, {"error", {{"code", code}, {"message", words}}}};
}

Json notification(std::string_view method, Json params) {
    return {{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}};
}

Json abilities(const Client& client) {
    return {{"positionEncoding", word(client.encoding)},
            {"textDocumentSync", {{"openClose", true}, {"change", 2}, {"save", Json::object()}}},
            {"hoverProvider", true},
            {"completionProvider", {{"triggerCharacters", {" ", ":", "+", ",", "\""}}}},
            {"definitionProvider", true},
            {"referencesProvider", true},
            {"documentHighlightProvider", true},
            {"renameProvider", {{"prepareProvider", true}}},
            {"codeActionProvider", {{"codeActionKinds", {"quickfix"}}}},
            {"documentSymbolProvider", true},
            {"workspaceSymbolProvider", true},
            {"foldingRangeProvider", true},
            {"documentFormattingProvider", true},
            {"inlayHintProvider", true},
            {"semanticTokensProvider",
             {{"legend",
               {{"tokenTypes", semantic_token_types()},
                {"tokenModifiers", semantic_token_modifiers()}}},
              {"full", true},
              {"range", true}}},
            {"workspace",
             {{"workspaceFolders", {{"supported", true}, {"changeNotifications", true}}}}}};
}

} // namespace

/// What is answered with a look, and with which.
struct Server::Request {
    enum class Of { open_texts, workspace };
    std::string_view method;
    Reply (*reply)(const Asked&, const Json&);
    Of of = Of::open_texts;
};

const Server::Request* Server::find_request(std::string_view method) {
    static constexpr std::array<Request, 14> requests{{
        {"textDocument/hover", hover},
        {"textDocument/completion", completion},
        {"textDocument/definition", definition},
        {"textDocument/references", references, Request::Of::workspace},
        {"textDocument/documentHighlight", document_highlight},
        {"textDocument/prepareRename", prepare_rename},
        {"textDocument/rename", rename, Request::Of::workspace},
        {"textDocument/codeAction", code_action},
        {"textDocument/documentSymbol", document_symbol},
        {"textDocument/foldingRange", folding_range},
        {"textDocument/formatting", formatting},
        {"textDocument/semanticTokens/full", semantic_tokens},
        {"textDocument/semanticTokens/range", semantic_tokens_range},
        {"textDocument/inlayHint", inlay_hint},
    }};
    const auto found = std::ranges::find(requests, method, &Request::method);
    return found == requests.end() ? nullptr : &*found;
}

void Server::take(std::string_view message, std::vector<std::string>& out) {
    const Json read = Json::parse(message, nullptr, false);
    if (read.is_discarded()) {
        out.push_back(written(error_of(nullptr, parse_error, "this is no JSON")));
        return;
    }
    const bool good = read.is_object() && read.contains("method") && read["method"].is_string();
    if (!good) { // an answer to what was asked of the client has no method, and needs nothing
        const bool answer = read.is_object() && (read.contains("result") || read.contains("error"));
        if (!answer) {
            out.push_back(written(error_of(nullptr, invalid_request, "this is no request")));
        }
        return;
    }
    const auto method = read["method"].get<std::string>();
    const Json params = read.value("params", Json::object());
    if (!read.contains("id")) {
        try {
            notified(method, params, out);
        } catch (const std::exception&) { // there is nobody to tell
        }
        return;
    }
    const Json& id = read["id"];
    try {
        out.push_back(written(answered(id, method, params)));
    } catch (const Json::exception& problem) {
        out.push_back(written(error_of(id, invalid_params, problem.what())));
    } catch (const std::exception& problem) {
        out.push_back(written(error_of(id, internal_error, problem.what())));
    }
}

void Server::notified(const std::string& method, const Json& params,
                      std::vector<std::string>& out) {
    if (method == "exit") {
        status_ = state_ == State::shut_down ? 0 : 1;
        return;
    }
    if (state_ != State::running) return;
    if (method == "initialized") {
        watch_files(out);
    } else if (method == "textDocument/didOpen") {
        documents_.open(params);
        forget_looks();
    } else if (method == "textDocument/didChange") {
        forget_looks(); // even where the change is no good: what came before it was done
        documents_.change(params, client_.encoding);
    } else if (method == "textDocument/didClose") {
        documents_.close(params);
        forget_looks();
    } else if (method == "textDocument/didSave") {
        forget_looks();
        documents_.save(params);
    } else if (method == "workspace/didChangeWatchedFiles") {
        forget_looks();
    } else if (method == "workspace/didChangeWorkspaceFolders") {
        const Json& event = params.at("event");
        std::vector<std::string>& folders = client_.folders;
        for (const Json& gone : event.at("removed"))
            std::erase(folders, path_of_uri(gone.at("uri").get<std::string>()));
        for (const Json& come : event.at("added"))
            folders.push_back(path_of_uri(come.at("uri").get<std::string>()));
        forget_looks();
    }
}

Json Server::answered(const Json& id, const std::string& method, const Json& params) {
    if (method == "initialize") {
        if (state_ != State::before) {
            return error_of(id, invalid_request, "the server is initialized already");
        }
        return result_of(id, initialize(params));
    }
    if (state_ == State::before) return error_of(id, not_initialized, "not initialized yet");
    if (state_ == State::shut_down) return error_of(id, invalid_request, "the server is shut down");
    if (method == "shutdown") {
        state_ = State::shut_down;
        return result_of(id, nullptr);
    }
    Reply reply;
    if (method == "workspace/symbol") {
        reply = workspace_symbol({whole_look(), documents_, client_}, params);
    } else if (const Request* request = find_request(method)) {
        const bool whole = request->of == Request::Of::workspace;
        const Look& look = whole ? whole_look() : open_look();
        const View view{look, documents_, client_};
        const auto uri = params.at("textDocument").at("uri").get<std::string>();
        const auto file = look.files.find(path_of_uri(uri));
        if (file == look.files.end())
            return result_of(id, nullptr); // not open, nor in the workspace
        Asked asked{view, file->second, 0};
        if (const auto position = params.find("position"); position != params.end()) {
            asked.offset = offset_of(asked.source(), *position, client_.encoding);
        }
        reply = request->reply(asked, params);
    } else {
        return error_of(id, method_not_found, fmt::format("there is no `{}` here", method));
    }
    if (const auto* refusal = std::get_if<Refusal>(&reply)) {
        return error_of(id, request_failed, refusal->words);
    }
    return result_of(id, std::move(std::get<Json>(reply)));
}

Json Server::initialize(const Json& params) {
    client_ = client_of(params);
    state_ = State::running;
    return {{"capabilities", abilities(client_)},
            {"serverInfo", {{"name", "waxwright"}, {"version", WAXWRIGHT_VERSION}}}};
}

/// Asks the client to tell when a recipe file changes on the disk.
void Server::watch_files(std::vector<std::string>& out) const {
    if (!client_.watches_files) return;
    const Json watcher{{"globPattern", "**/*.candle"}};
    const Json registration{{"id", "recipe-files"},
                            {"method", "workspace/didChangeWatchedFiles"},
                            {"registerOptions", {{"watchers", Json::array({watcher})}}}};
    out.push_back(written({{"jsonrpc", "2.0"},
                           {"id", "watch-recipe-files"},
                           {"method", "client/registerCapability"},
                           {"params", {{"registrations", Json::array({registration})}}}}));
}

void Server::forget_looks() {
    open_look_.reset();
    whole_look_.reset();
    unsettled_ = true;
}

/// What may be read: the workspace, and what stands beside an open text.
ReadFile Server::reader() const {
    std::vector<std::string> folders = client_.folders;
    for (const auto& [path, document] : documents_.all()) {
        if (path.starts_with('/')) folders.push_back(path_from(path, "."));
    }
    return world_.reader(folders);
}

const Look& Server::open_look() {
    if (!open_look_) {
        open_look_ = look_at(documents_, {}, reader(), world_.in_pieces, Checked::yes);
    }
    return *open_look_;
}

const Look& Server::whole_look() {
    if (!whole_look_) {
        std::vector<std::string> files;
        for (const std::string& folder : client_.folders) {
            for (std::string& file : world_.recipe_files(folder))
                files.push_back(std::move(file));
        }
        std::ranges::sort(files);
        files.erase(std::unique(files.begin(), files.end()), files.end());
        whole_look_ = look_at(documents_, files, reader(), world_.in_pieces, Checked::no);
    }
    return *whole_look_;
}

/// A file whose findings are as they were is not sent again, but for the version of an open text: a
/// client waits for that.
void Server::settle(std::vector<std::string>& out) {
    if (!unsettled_ || state_ != State::running) return;
    unsettled_ = false;
    const View view{open_look(), documents_, client_};
    std::map<FileId, Json> found = diagnostics(view);
    std::map<std::string, std::string> now;
    for (const auto& [path, file] : view.look.files) {
        const Document* open = documents_.find(path);
        const auto findings = found.find(file);
        if (findings == found.end() && open == nullptr) continue;
        const std::string uri = view.uri(file);
        Json params{{"uri", uri}, {"diagnostics", Json::array()}};
        if (findings != found.end()) params["diagnostics"] = std::move(findings->second);
        if (open != nullptr && open->version) params["version"] = *open->version;
        now.emplace(uri, written(notification("textDocument/publishDiagnostics", params)));
    }
    for (const auto& [uri, message] : sent_) { // cured, closed or used no longer
        if (now.contains(uri)) continue;
        out.push_back(written(notification("textDocument/publishDiagnostics",
                                           {{"uri", uri}, {"diagnostics", Json::array()}})));
    }
    for (const auto& [uri, message] : now) {
        const auto before = sent_.find(uri);
        if (before == sent_.end() || before->second != message) out.push_back(message);
    }
    sent_ = std::move(now);
}

} // namespace waxwright
