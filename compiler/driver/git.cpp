#include "driver/git.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace waxwright {

namespace {

struct Close {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
/// Files that have no name take what git prints: two pipes could each wait for the other.
using Scratch = std::unique_ptr<std::FILE, Close>;

std::string words_for(int problem) {
    return std::strerror(problem); // NOLINT(concurrency-mt-unsafe): there is one thread
}

std::string all_of(std::FILE* file) {
    std::string text;
    char buffer[1 << 14];
    std::rewind(file);
    while (const std::size_t count = std::fread(buffer, 1, sizeof buffer, file))
        text.append(buffer, count);
    return text;
}

/// The first line of what git complains of, without "fatal: ".
std::string complaint(const std::string& errors) {
    constexpr std::string_view mark = "fatal: ";
    const std::size_t fatal = errors.find(mark);
    const std::size_t begin = fatal == std::string::npos ? 0 : fatal + mark.size();
    return errors.substr(begin, errors.find('\n', begin) - begin);
}

/// What a child of ours has as its three streams.
class Streams {
public:
    Streams(int out, int err) {
        posix_spawn_file_actions_init(&actions_);
        posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
        posix_spawn_file_actions_adddup2(&actions_, out, STDOUT_FILENO);
        posix_spawn_file_actions_adddup2(&actions_, err, STDERR_FILENO);
    }
    ~Streams() { posix_spawn_file_actions_destroy(&actions_); }
    Streams(const Streams&) = delete;
    Streams& operator=(const Streams&) = delete;
    const posix_spawn_file_actions_t* get() const { return &actions_; }

private:
    posix_spawn_file_actions_t actions_{};
};

} // namespace

GitAnswer ask_git(const std::vector<std::string>& words) {
    // Nothing of the repository is written, and no program of its own is run to watch files.
    std::vector<std::string> call{"git", "--no-optional-locks", "-c", "core.fsmonitor=false"};
    call.insert(call.end(), words.begin(), words.end());
    std::vector<char*> pointers;
    pointers.reserve(call.size() + 1);
    for (std::string& word : call)
        pointers.push_back(word.data());
    pointers.push_back(nullptr);

    const Scratch out(std::tmpfile());
    const Scratch err(std::tmpfile());
    if (!out || !err) return {GitAnswer::not_run, {}, words_for(errno)};
    const Streams streams(fileno(out.get()), fileno(err.get()));
    pid_t child = 0;
    const int failed =
        posix_spawnp(&child, "git", streams.get(), nullptr, pointers.data(), environ);
    if (failed != 0) return {GitAnswer::not_run, {}, words_for(failed)};
    int state = 0;
    while (waitpid(child, &state, 0) < 0) {
        if (errno != EINTR) return {GitAnswer::not_run, {}, words_for(errno)};
    }
    const int status = WIFEXITED(state) ? WEXITSTATUS(state) : GitAnswer::not_run;
    return {status, all_of(out.get()), complaint(all_of(err.get()))};
}

std::vector<std::string> parts_of(const std::string& out) {
    std::vector<std::string> parts;
    for (std::size_t at = 0; at < out.size();) {
        const std::size_t end = out.find('\0', at);
        parts.push_back(out.substr(at, end - at));
        if (end == std::string::npos) break;
        at = end + 1;
    }
    return parts;
}

} // namespace waxwright
