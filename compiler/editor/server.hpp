// The language server: LSP 3.17 without its transport. It opens no file and starts no thread.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "editor/features.hpp"

namespace waxwright {

class Server {
public:
    explicit Server(World world) : world_(std::move(world)) {}

    /// Takes one message, and puts what is to be sent for it behind `out`, each a message without
    /// its header. Whatever the message is, nothing is thrown and the server goes on.
    void take(std::string_view message, std::vector<std::string>& out);
    /// To be called when no message is waiting: sends the findings of what was changed.
    void settle(std::vector<std::string>& out);

    bool ended() const { return status_.has_value(); }
    /// The exit status once it has ended: 0 if it was asked to shut down first, else 1.
    int status() const { return status_.value_or(1); }

private:
    enum class State { before, running, shut_down };
    struct Request;

    void notified(const std::string& method, const Json& params, std::vector<std::string>& out);
    Json answered(const Json& id, const std::string& method, const Json& params);
    Json initialize(const Json& params);
    Json run(const Request& request, const Json& params);
    void watch_files(std::vector<std::string>& out) const;
    void forget_looks();
    ReadFile reader() const;
    const Look& open_look();
    const Look& whole_look();
    static const Request* find_request(std::string_view method);

    World world_;
    Client client_;
    Documents documents_;
    State state_ = State::before;
    std::optional<int> status_;
    std::optional<Look> open_look_;  // of the open texts, checked
    std::optional<Look> whole_look_; // of those and of all files of the workspace, unchecked
    bool unsettled_ = false;         // there may be findings that have not been sent
    std::map<std::string, std::string> sent_; // by address: the findings as last sent
};

} // namespace waxwright
