#include "driver/files.hpp"

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

#include <fcntl.h>
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
    struct stat status {};
    const bool sized = fstat(fileno(file), &status) == 0 && S_ISREG(status.st_mode);
    if (sized && status.st_size > 0) {
        text.reserve(std::min(static_cast<std::size_t>(status.st_size), largest_file) + 1);
    }
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

/// As long as it lives, signals that would end the process wait: a file that is begun is finished
/// or taken away first. Blocked rather than handled, so that what the caller had them ignore stays
/// ignored, and nothing is left even where one comes while the file is being made.
class SignalsWait {
public:
    SignalsWait() {
        sigset_t ending;
        sigemptyset(&ending);
        for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGQUIT})
            sigaddset(&ending, signal);
        pthread_sigmask(SIG_BLOCK, &ending, &before_);
    }
    ~SignalsWait() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
    SignalsWait(const SignalsWait&) = delete;
    SignalsWait& operator=(const SignalsWait&) = delete;

private:
    sigset_t before_{};
};

/// What a call has made so far; taken away again in the end, unless it is kept.
class Made {
public:
    Made() = default;
    ~Made() {
        std::error_code ignored;
        for (auto path = paths_.rbegin(); path != paths_.rend(); ++path)
            fs::remove(*path, ignored); // of folders only the empty ones
    }
    Made(const Made&) = delete;
    Made& operator=(const Made&) = delete;
    void add(const fs::path& path) { paths_.push_back(path); }
    void keep() { paths_.clear(); }

private:
    std::vector<fs::path> paths_;
};

std::string problem_with(const fs::path& path, std::string_view problem) {
    return fmt::format("{}: {}", path.string(), problem);
}

/// Makes what is missing of a path of folders; the problem, or "".
std::string make_folders(const fs::path& folder, Made& made) {
    fs::path so_far;
    for (const fs::path& part : folder) {
        so_far /= part;
        if (mkdir(so_far.c_str(), 0777) == 0) {
            made.add(so_far);
        } else if (const int why = errno; !is_folder(so_far.string())) {
            const bool there = why == EEXIST || why == ENOTDIR;
            errno = why;
            return problem_with(so_far, there ? "is no folder" : last_problem());
        }
    }
    return {};
}

/// Makes one file, which mustn't be there yet; the problem, or "".
std::string make_file(const fs::path& path, std::string_view text, Made& made) {
    const int descriptor = open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor < 0) return problem_with(path, last_problem());
    made.add(path);
    File file(fdopen(descriptor, "wb"));
    const std::string failed =
        file ? write_and_close(std::move(file), text, Durable::yes) : last_problem();
    return failed.empty() ? failed : problem_with(path, failed);
}

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

bool is_plain_file(const std::string& path) {
    std::error_code ignored;
    return !fs::exists(path, ignored) || fs::is_regular_file(path, ignored);
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
    const SignalsWait wait;
    const int descriptor = mkstemp(beside.data());
    if (descriptor < 0) return last_problem();
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

std::string write_new_files(const std::string& folder, const std::vector<NewFile>& files) {
    const SignalsWait wait; // the first to be made and the last to go
    Made made;
    std::string problem = make_folders(folder, made);
    for (const NewFile& file : files) {
        if (problem.empty()) problem = make_file(fs::path(folder) / file.name, file.text, made);
    }
    if (!problem.empty()) return problem;
    sync_folder(folder);
    made.keep();
    return {};
}

void sync_folder(const std::string& path) {
    const int folder = open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder < 0) return;
    fsync(folder);
    close(folder);
}

std::string write_out(std::string_view text) {
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size()) return last_problem();
    return std::fflush(stdout) == 0 ? std::string() : last_problem();
}

std::string write_text(const std::string& out, std::string_view text) {
    const std::string problem = out.empty() ? write_out(text) : write_file(out, text);
    if (problem.empty()) return {};
    return (out.empty() ? "standard output" : out) + ": " + problem;
}

void write_error(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stderr);
}

} // namespace waxwright
