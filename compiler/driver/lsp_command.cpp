#include <cerrno>
#include <string>
#include <vector>

#include <poll.h>
#include <unistd.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/parallel.hpp"
#include "editor/framing.hpp"
#include "editor/server.hpp"

namespace waxwright {

namespace {

/// What is there to be read, up to a buffer; empty at the end of the input.
std::string read_some() {
    std::string bytes(1U << 16U, '\0');
    for (;;) {
        const ssize_t count = read(STDIN_FILENO, bytes.data(), bytes.size());
        if (count < 0 && errno == EINTR) continue;
        bytes.resize(count > 0 ? static_cast<std::size_t>(count) : 0);
        return bytes;
    }
}

/// True if a read would not wait.
bool more_is_waiting() {
    pollfd input{STDIN_FILENO, POLLIN, 0};
    return poll(&input, 1, 0) > 0;
}

/// False where nobody reads any more.
bool send(std::vector<std::string>& messages) {
    std::string bytes;
    for (const std::string& message : messages)
        bytes += framed(message);
    messages.clear();
    return bytes.empty() || write_out(bytes).empty();
}

} // namespace

/// Findings are worked out when no message is waiting: somebody who types faster than that is told
/// of the newest text only.
int run_lsp(const Options&) {
    Server server(
        {.reader = read_within_folders, .recipe_files = candle_files, .in_pieces = on_all_cores});
    Framing framing;
    std::vector<std::string> out;
    while (!server.ended()) {
        const std::string bytes = read_some();
        if (bytes.empty()) break; // the client is gone
        framing.feed(bytes);
        while (!server.ended()) {
            const std::optional<std::string> message = framing.next();
            if (!message) break;
            server.take(*message, out);
            if (!send(out)) return 1;
        }
        if (server.ended() || more_is_waiting()) continue;
        server.settle(out);
        if (!send(out)) return 1;
    }
    return server.status();
}

} // namespace waxwright
