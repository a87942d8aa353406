#include <algorithm>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <new>
#include <string_view>
#include <utility>

#include <unistd.h>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/complete.hpp"
#include "driver/files.hpp"
#include "driver/man_page.hpp"
#include "source/path.hpp"

namespace waxwright {

namespace {

namespace fs = std::filesystem;

/// Without links; as it is where it isn't there.
fs::path real_folder(const std::string& folder) {
    std::error_code problem;
    fs::path real = fs::canonical(folder, problem);
    return problem ? fs::path(folder) : real;
}

bool is_within(const fs::path& file, const std::vector<fs::path>& folders) {
    return std::any_of(folders.begin(), folders.end(), [&](const fs::path& folder) {
        const auto [end, other] =
            std::mismatch(folder.begin(), folder.end(), file.begin(), file.end());
        static_cast<void>(other);
        return end == folder.end();
    });
}

// No commands, since nobody types them: what the shells' scripts ask for, and what the build does.
constexpr std::string_view complete_call = "--complete";
constexpr std::string_view man_page_call = "--man-page";

int run_command(int count, const char* const* words) {
    if (count > 1 && words[1] == complete_call) {
        return write_out(completions({words + 2, words + count})).empty() ? 0 : 2;
    }
    if (count == 3 && words[1] == man_page_call) {
        return write_out(man_page(words[2])).empty() ? 0 : 2;
    }
    const ReadOptions read = read_options(count, words);
    if (read.answer) {
        if (read.answer->to_error) {
            write_error(read.answer->text);
            return read.answer->status;
        }
        return write_out(read.answer->text).empty() ? read.answer->status : 2;
    }
    switch (read.options.command) {
#define COMMAND(identifier, word, run, about)                                                      \
    case Command::identifier:                                                                      \
        return run(read.options);
#include "driver/commands.def"
#undef COMMAND
    }
    return 2;
}

} // namespace

std::string folder_of(const std::string& file) {
    const fs::path folder = fs::path(file).parent_path();
    return file == "-" || folder.empty() ? "." : folder.string();
}

/// The one place where an exception ends: what can go wrong with a recipe is a finding, and what is
/// left is a machine without memory or threads, or a fault of ours.
int run(int count, const char* const* words) {
    try {
        return run_command(count, words);
    } catch (const std::bad_alloc&) {
        write_error("waxwright: there is not enough memory for this; nothing more is written\n");
    } catch (const std::exception& problem) {
        write_error(fmt::format("waxwright: something went wrong: {}; nothing more is written\n",
                                problem.what()));
    }
    return 2;
}

namespace {

/// Only recipe files: a used pipe would be waited for, `-` is the call's own input, and of a file
/// of another kind every finding would show a line.
ReadFile read_within(std::vector<fs::path> folders) {
    return [folders = std::move(folders)](const std::string& path) {
        std::error_code problem;
        const fs::path real = fs::canonical(path, problem);
        const bool plain = !problem && fs::is_regular_file(real, problem) &&
                           real.extension() == ".candle" && path != "-";
        if (!plain || !is_within(real, folders)) return std::optional<std::string>();
        return read_file(path).text;
    };
}

/// The way to `path` from the folder of `file`; empty where it doesn't lie in it.
std::string way_from(const std::string& file, const std::string& path) {
    const std::string folder = path_from(file, ".");
    if (folder.empty()) return path.starts_with('/') || path.starts_with("..") ? "" : path;
    return path.starts_with(folder + "/") ? path.substr(folder.size() + 1) : std::string();
}

ReadFile read_beside(ReadFile read, const std::string& file, const std::string& beside) {
    return [read = std::move(read), file, beside](const std::string& path) {
        if (file != "-") {
            if (auto text = read(path)) return text;
        }
        const std::string way = way_from(file, path);
        return way.empty() ? std::optional<std::string>() : read(beside + "/" + way);
    };
}

} // namespace

ReadFile read_within_folders(const std::vector<std::string>& folders) {
    std::vector<fs::path> real;
    real.reserve(folders.size());
    for (const std::string& folder : folders)
        real.push_back(real_folder(folder));
    return read_within(std::move(real));
}

ReadFile read_from_disk(const Options& options) {
    std::vector<fs::path> folders;
    for (const std::string& folder : options.use_from)
        folders.push_back(real_folder(folder));
    if (!options.beside.empty()) folders.push_back(real_folder(options.beside));
    if (!options.file.empty()) folders.push_back(real_folder(folder_of(options.file)));
    for (const std::string& file : options.files)
        folders.push_back(real_folder(is_folder(file) ? file : folder_of(file)));
    ReadFile read = read_within(std::move(folders));
    if (options.beside.empty()) return read;
    return read_beside(std::move(read), options.file, options.beside);
}

bool add_root(Sources& sources, const std::string& path) {
    FileText file = read_file(path);
    if (!file.text) {
        write_error(fmt::format("waxwright: {}: {}\n", path, file.problem));
        return false;
    }
    sources.add(path, std::move(*file.text));
    return true;
}

bool may_colour(int descriptor) {
    const char* const refused = std::getenv("NO_COLOR"); // NOLINT(concurrency-mt-unsafe)
    return isatty(descriptor) != 0 && (refused == nullptr || *refused == '\0');
}

} // namespace waxwright
