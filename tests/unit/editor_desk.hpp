// An editor of a few lines: it opens texts, asks the server, and keeps what it is sent.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "editor/server.hpp"

namespace waxwright::test {

/// Takes the `|` out of a text and says where it stood.
struct Marked {
    explicit Marked(std::string_view marked);
    std::string text;
    Json position; // in UTF-16 units
};

class EditorDesk {
public:
    /// Files by path, as they are on the disk; all lie below /desk/.
    using Disk = std::map<std::string, std::string>;
    explicit EditorDesk(Disk disk = {}, Json capabilities = {});

    void open(const std::string& path, const std::string& text);
    /// Replaces what stands from one position to another.
    void type(const std::string& path, const Json& from, const Json& to, const std::string& text);
    /// The result of a request about an open text; fails the test where it is an error.
    Json ask_with(const std::string& method, Json params);
    Json ask(const std::string& method, const std::string& path, Json more = Json::object());
    /// Opens the text at /desk/a.candle, and asks at its mark.
    Json ask_at_mark(const std::string& method, std::string_view marked,
                     Json more = Json::object());
    /// The message of the error that a request is answered with; "" where it is answered well.
    std::string refusal(const std::string& method, const std::string& path, Json more);
    /// The diagnostics as last sent, after settling; null where none ever were.
    Json diagnostics(const std::string& path);
    void notify(const std::string& method, Json params);

    static std::string uri(const std::string& path) { return "file://" + path; }
    /// A text with LSP's edits done, as a client does them.
    static std::string with_edits(std::string_view text, const Json& edits);

private:
    Json request(const std::string& method, Json params);

    Disk disk_;
    Server server_;
    std::map<std::string, Json> sent_; // by address
    std::map<std::string, int> versions_;
    int next_id_ = 1;
};

} // namespace waxwright::test
