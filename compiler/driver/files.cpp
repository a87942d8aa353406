#include "driver/files.hpp"

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>

#include "syntax/parse.hpp"

namespace waxwright {

namespace {

namespace fs = std::filesystem;

struct Close {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using File = std::unique_ptr<std::FILE, Close>;

std::string last_problem() {
    return std::strerror(errno); // NOLINT(concurrency-mt-unsafe): there is one thread
}

FileText read_all(std::FILE* file) {
    std::string text;
    char buffer[1 << 16];
    for (;;) {
        const std::size_t count = std::fread(buffer, 1, sizeof buffer, file);
        text.append(buffer, count);
        if (text.size() > largest_file) {
            return {std::nullopt, fmt::format("is over {} MiB", largest_file >> 20)};
        }
        if (count < sizeof buffer) {
            if (std::ferror(file) != 0) return {std::nullopt, last_problem()};
            return {std::move(text), {}};
        }
    }
}

/// What the process masks off new files' permissions; reading it means setting it.
mode_t current_umask() {
    const mode_t mask = umask(0);
    umask(mask);
    return mask;
}

std::string write_and_close(File file, std::string_view text, Durable durable) {
    if (std::fwrite(text.data(), 1, text.size(), file.get()) != text.size()) return last_problem();
    if (std::fflush(file.get()) != 0) return last_problem();
    if (durable == Durable::yes && fsync(fileno(file.get())) != 0) return last_problem();
    return std::fclose(file.release()) == 0 ? std::string() : last_problem();
}

/// A link stays a link: what it leads to is written, whether that is there or not. Empty where
/// links lead in a circle.
fs::path behind_links(fs::path path) {
    constexpr int most_links = 40; // as Linux has it
    for (int i = 0; i < most_links; ++i) {
        std::error_code problem;
        if (!fs::is_symlink(path, problem)) return path;
        const fs::path to = fs::read_symlink(path, problem);
        path = to.is_absolute() ? to : path.parent_path() / to;
    }
    return {};
}

/// The file that is being written. A signal handler can reach nothing but a global.
constexpr std::size_t longest_path = 4096;
char unfinished[longest_path];         // NOLINT(cppcoreguidelines-avoid-non-const-global-variables)
volatile std::sig_atomic_t is_written; // NOLINT(cppcoreguidelines-avoid-non-const-global-variables)

extern "C" void take_away(int signal) {
    if (is_written != 0) unlink(unfinished);
    std::signal(signal, SIG_DFL);
    raise(signal);
}

/// As long as it lives, a signal that ends the process takes the file away.
class Leftover {
public:
    explicit Leftover(const std::string& path) {
        if (path.size() >= longest_path) return;
        std::memcpy(unfinished, path.c_str(), path.size() + 1);
        is_written = 1;
        for (const int signal : ending)
            std::signal(signal, take_away);
    }
    ~Leftover() {
        is_written = 0;
        for (const int signal : ending)
            std::signal(signal, SIG_DFL);
    }
    Leftover(const Leftover&) = delete;
    Leftover& operator=(const Leftover&) = delete;

private:
    static constexpr int ending[] = {SIGINT, SIGTERM, SIGHUP, SIGXFSZ};
};

} // namespace

FileText read_file(const std::string& path) {
    if (path == "-") return read_all(stdin);
    if (is_folder(path)) return {std::nullopt, "Is a directory"};
    const File file(std::fopen(path.c_str(), "rb"));
    if (!file) return {std::nullopt, last_problem()};
    return read_all(file.get());
}

bool is_folder(const std::string& path) {
    std::error_code ignored;
    return fs::is_directory(path, ignored);
}

std::vector<std::string> candle_files(const std::string& folder) {
    std::vector<std::string> files;
    std::error_code problem;
    fs::recursive_directory_iterator entry(folder, fs::directory_options::skip_permission_denied,
                                           problem);
    for (; !problem && entry != fs::recursive_directory_iterator(); entry.increment(problem)) {
        std::error_code ignored;
        if (entry->path().extension() == ".candle" && entry->is_regular_file(ignored)) {
            files.push_back(entry->path().lexically_normal().generic_string());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::string write_file(const std::string& path, std::string_view text, Durable durable) {
    const fs::path target(path);
    std::error_code problem;
    if (target.has_parent_path()) {
        fs::create_directories(target.parent_path(), problem);
        if (problem) return problem.message();
    }
    if (fs::is_directory(target, problem)) return "Is a directory";
    if (fs::exists(target, problem) && !fs::is_regular_file(target, problem)) {
        // A device or a pipe can't be replaced, only written to.
        File file(std::fopen(path.c_str(), "wb"));
        if (!file) return last_problem();
        if (std::fwrite(text.data(), 1, text.size(), file.get()) != text.size()) {
            return last_problem();
        }
        return std::fclose(file.release()) == 0 ? std::string() : last_problem();
    }
    const fs::path real = behind_links(target);
    if (real.empty()) return "its link leads in a circle";
    // Beside the target, under a short name: the target's own may be as long as names can be.
    std::string beside = (real.parent_path() / ".waxwright-XXXXXX").string();
    const int descriptor = mkstemp(beside.data());
    if (descriptor < 0) return last_problem();
    const Leftover leftover(beside);
    File file(fdopen(descriptor, "wb"));
    std::string failed = file ? write_and_close(std::move(file), text, durable) : last_problem();
    if (failed.empty()) {
        const fs::perms mode = fs::exists(real, problem)
                                   ? fs::status(real, problem).permissions()
                                   : fs::perms(0666 & ~static_cast<int>(current_umask()));
        fs::permissions(beside, mode, problem);
        fs::rename(beside, real, problem);
        if (problem) failed = problem.message();
    }
    if (!failed.empty()) fs::remove(beside, problem);
    return failed;
}

std::string write_out(std::string_view text) {
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size()) return last_problem();
    return std::fflush(stdout) == 0 ? std::string() : last_problem();
}

void write_error(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stderr);
}

} // namespace waxwright
