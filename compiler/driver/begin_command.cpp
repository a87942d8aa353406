#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "driver/begin_files.hpp"
#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "emit/visible.hpp"

namespace waxwright {

namespace {

namespace fs = std::filesystem;

/// The path of a file of the set, beginning with the folder's as it was typed.
std::string path_in(const std::string& folder, std::string_view name) {
    return fmt::format("{}{}{}", folder, folder.ends_with('/') ? "" : "/", name);
}

bool is_plain(unsigned char c) {
    constexpr std::string_view marks = "_./,+:@%-";
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           marks.find(static_cast<char>(c)) != std::string_view::npos;
}

/// A path as it can be typed into a shell, where it means the same: as it is, or in quotes. What
/// would steer the terminal is written by its numbers: $'\033'.
std::string shell_word(std::string path) {
    if (path.starts_with('-')) path.insert(0, "./"); // no option
    std::string plain, quoted, numbered;
    bool needs_quotes = false;
    for (const char c : path) {
        const auto byte = static_cast<unsigned char>(c);
        needs_quotes = needs_quotes || !is_plain(byte);
        quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
        numbered += is_plain(byte) ? std::string(1, c) : fmt::format("\\{:03o}", byte);
    }
    append_visible(plain, path);
    if (plain != path) return fmt::format("$'{}'", numbered);
    return needs_quotes ? fmt::format("'{}'", quoted) : path;
}

/// What a file is for, as its own first line says it.
std::string_view purpose(std::string_view text) {
    const std::string_view line = text.substr(0, text.find('\n'));
    return line.substr(line.find_first_not_of("# "));
}

std::string what_next(const Options& options, std::span<const BeginFile> set) {
    std::string text = "Written, for you to change with any editor for plain text:\n\n";
    for (const BeginFile& file : set) {
        const std::string path = path_in(options.folder, fmt::format("{}.candle", file.name));
        text += fmt::format("  {}\n      {}\n", shell_word(path), purpose(file.text));
    }
    const std::string program = shell_word(options.program);
    const std::string recipe = shell_word(path_in(options.folder, "recipe.candle"));
    return text + fmt::format("\nType this next, and again after each change:\n\n"
                              "  {} check {}\n  {} sheet {}\n",
                              program, recipe, program, recipe);
}

/// Tells which of the files are there already; true if any is.
bool any_is_there(const std::string& folder, const std::vector<NewFile>& files) {
    bool any = false;
    for (const NewFile& file : files) {
        const std::string path = path_in(folder, file.name);
        std::error_code ignored;
        if (!fs::exists(fs::symlink_status(path, ignored))) continue;
        write_error(fmt::format("waxwright: {}: is there already\n", path));
        any = true;
    }
    return any;
}

} // namespace

int run_begin(const Options& options) {
    const auto set = options.units == "us" ? begin_files_us() : begin_files();
    std::vector<NewFile> files;
    for (const BeginFile& file : set)
        files.push_back({fmt::format("{}.candle", file.name), file.text});
    if (any_is_there(options.folder, files)) {
        write_error("waxwright: nothing is written; name another folder\n");
        return 2;
    }
    if (const std::string problem = write_new_files(options.folder, files); !problem.empty()) {
        write_error(fmt::format("waxwright: {}; nothing is written\n", problem));
        return 2;
    }
    const std::string problem = write_out(what_next(options, set));
    if (problem.empty()) return 0;
    write_error(fmt::format("waxwright: standard output: {}\n", problem));
    return 2;
}

} // namespace waxwright
