#include "driver/changed.hpp"

#include <algorithm>
#include <filesystem>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/git.hpp"
#include "driver/named_files.hpp"
#include "model/load.hpp"

namespace waxwright {

namespace {

namespace fs = std::filesystem;

/// Without links, as far as it is there.
fs::path real_path(const fs::path& path) {
    std::error_code problem;
    const fs::path whole = fs::absolute(path, problem);
    const fs::path real = fs::weakly_canonical(whole, problem);
    return problem ? whole.lexically_normal() : real;
}

bool lies_in(const fs::path& path, const fs::path& folder) {
    return std::mismatch(folder.begin(), folder.end(), path.begin(), path.end()).first ==
           folder.end();
}

/// Everything that git says has changed, by its full path; links and folders of other repositories
/// as well as files.
class Changes {
public:
    void add(const fs::path& path) {
        std::string text = path.lexically_normal().generic_string();
        if (text.size() > 1 && text.back() == '/') text.pop_back();
        any_recipe_ = any_recipe_ || text.ends_with(".candle");
        paths_.insert(std::move(text));
    }
    bool any_recipe() const { return any_recipe_; }

    /// Whether it, what it is a link to, or a folder that it lies in has changed.
    bool touch(const std::string& path) const {
        std::error_code ignored;
        return has_part_of(fs::absolute(path, ignored).lexically_normal()) ||
               has_part_of(real_path(path));
    }

private:
    bool has_part_of(fs::path path) const {
        for (; path.has_relative_path(); path = path.parent_path()) {
            if (paths_.contains(path.generic_string())) return true;
        }
        return false;
    }

    std::set<std::string> paths_;
    bool any_recipe_ = false;
};

std::string cannot_run(const GitAnswer& answer) {
    return fmt::format("--changed-since asks git, and that can't be run: {}", answer.problem);
}

/// The repository's folder, without links; empty, with the problem, where there is none.
std::string top_folder(std::string& problem) {
    GitAnswer answer = ask_git({"rev-parse", "--show-toplevel"});
    if (answer.status == GitAnswer::not_run) {
        problem = cannot_run(answer);
    } else if (answer.status != 0 || answer.out.size() < 2) {
        problem =
            fmt::format("--changed-since is for a folder that git looks after: {}", answer.problem);
    } else {
        answer.out.pop_back(); // the line's end; a folder's name may have others
        return std::move(answer.out);
    }
    return {};
}

/// The commit that a revision names; empty, with the problem, where it names none.
std::string commit_of(const std::string& revision, std::string& problem) {
    GitAnswer answer = ask_git({"rev-parse", "--verify", "--quiet", revision + "^{commit}"});
    if (answer.status == 0 && answer.out.size() > 1) {
        answer.out.pop_back();
        return std::move(answer.out);
    }
    problem = answer.status == GitAnswer::not_run
                  ? cannot_run(answer)
                  : fmt::format("--changed-since: git knows no revision `{}` here", revision);
    return {};
}

/// Adds the paths that a call of git lists, seen from the top; the problem, or "".
std::string list(const std::vector<std::string>& words, const fs::path& top, Changes& changes) {
    const GitAnswer answer = ask_git(words);
    if (answer.status == GitAnswer::not_run) return cannot_run(answer);
    if (answer.status != 0) return fmt::format("--changed-since: git: {}", answer.problem);
    for (const std::string& path : parts_of(answer.out))
        changes.add(top / path);
    return {};
}

std::string ask_for_changes(const std::string& commit, const fs::path& top, Changes& changes) {
    const std::vector<std::string> diff{"diff",          "--name-only",   "-z",
                                        "--no-renames",  "--no-ext-diff", "--no-textconv",
                                        "--no-relative", commit,          "--"};
    std::vector<std::string> staged = diff;
    staged.insert(staged.begin() + 1, "--cached");
    std::string problem = list(diff, top, changes);
    if (problem.empty()) problem = list(staged, top, changes);
    if (!problem.empty()) return problem;
    return list({"ls-files", "--others", "--exclude-standard", "--full-name", "-z", "--", ":/"},
                top, changes);
}

std::string seen_from_here(const fs::path& path) {
    std::error_code ignored;
    return path.lexically_relative(fs::current_path(ignored)).generic_string();
}

/// The recipe files that git has or has not been told to ignore, as seen from the current folder.
std::vector<std::string> files_of_repository(const fs::path& top, std::string& problem) {
    const GitAnswer answer = ask_git({"ls-files", "--cached", "--others", "--exclude-standard",
                                      "--full-name", "-z", "--", ":/"});
    if (answer.status != 0) problem = "--changed-since: git: " + answer.problem;
    std::error_code ignored;
    std::set<std::string> files; // git lists a file in conflict several times
    for (const std::string& path : parts_of(answer.out)) {
        const fs::path file = top / path;
        if (file.extension() == ".candle" && fs::is_regular_file(file, ignored))
            files.insert(seen_from_here(file));
    }
    return {files.begin(), files.end()};
}

/// Of each file whether it has changed or uses, through whatever others, one that has.
std::vector<bool> which_need_it(const LoadedFiles& loaded, const Sources& sources,
                                const Changes& changes) {
    std::vector<std::vector<FileId>> users(sources.size());
    std::vector<bool> needed(sources.size());
    std::vector<FileId> found;
    const auto take = [&](FileId file) {
        if (!needed[file]) found.push_back(file);
        needed[file] = true;
    };
    for (FileId file = 0; file < sources.size(); ++file) {
        for (const Use& use : loaded.files[file].uses)
            users[use.file].push_back(file);
        for (const Use& use : loaded.files[file].loops)
            users[use.file].push_back(file);
        if (!sources[file].is_library() && changes.touch(sources[file].name())) take(file);
    }
    while (!found.empty()) {
        const FileId file = found.back();
        found.pop_back();
        for (const FileId user : users[file])
            take(user);
    }
    return needed;
}

/// Divides what was read into what is checked and the others.
void choose(Sources sources, const Options& options, const Changes& changes, ChangedFiles& into) {
    const ReadFile read = read_from_disk(options);
    // What is deleted is empty here, and so is still known to be used.
    const ReadFile or_deleted = [&](const std::string& path) {
        std::optional<std::string> text = read(path);
        if (!text && changes.touch(path)) text.emplace();
        return text;
    };
    const auto roots = static_cast<FileId>(sources.size());
    Findings ignored; // those of the files that are checked come up again
    const LoadedFiles loaded = load_files(sources, or_deleted, ignored);
    const std::vector<bool> needed = which_need_it(loaded, sources, changes);
    for (FileId file = 0; file < roots; ++file) {
        if (needed[file]) into.roots.add(sources[file].name(), std::string(sources[file].text()));
        into.others += needed[file] ? 0U : 1U;
    }
}

} // namespace

ChangedFiles changed_files(Options& options) {
    ChangedFiles result;
    const fs::path top = top_folder(result.problem);
    if (!result.problem.empty()) return result;
    for (const std::string& file : options.files) {
        if (lies_in(real_path(file), top)) continue;
        result.problem = fmt::format("--changed-since: {} lies outside the repository in {}", file,
                                     top.generic_string());
        return result;
    }
    const std::string commit = commit_of(options.changed_since, result.problem);
    if (!result.problem.empty()) return result;
    Changes changes;
    result.problem = ask_for_changes(commit, top, changes);
    if (!result.problem.empty()) return result;
    result.any_changed = changes.any_recipe();
    std::vector<std::string> files;
    if (options.files.empty()) {
        files = files_of_repository(top, result.problem);
        options.files = {seen_from_here(top)};
    } else {
        files = named_files(options.files, result.all_read);
    }
    Sources sources;
    for (const std::string& file : files)
        result.all_read = add_root(sources, file) && result.all_read;
    choose(std::move(sources), options, changes, result);
    return result;
}

} // namespace waxwright
