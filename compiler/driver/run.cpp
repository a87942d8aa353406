#include <cstdlib>
#include <filesystem>

#include <unistd.h>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"

namespace waxwright {

int run(int count, const char* const* words) {
    const ReadOptions read = read_options(count, words);
    if (read.answer) {
        if (read.answer->to_error) {
            write_error(read.answer->text);
            return read.answer->status;
        }
        return write_out(read.answer->text).empty() ? read.answer->status : 2;
    }
    switch (read.options.command) {
    case Command::check:
        return run_check(read.options);
    case Command::sheet:
        return run_sheet(read.options);
    case Command::buy:
        return run_buy(read.options);
    case Command::materials:
        return run_materials(read.options);
    case Command::why:
        return run_why(read.options);
    }
    return 2;
}

ReadFile read_from_disk() {
    // Only plain files: a used pipe would be waited for, and `-` is the call's own input.
    return [](const std::string& path) {
        std::error_code ignored;
        if (!std::filesystem::is_regular_file(path, ignored)) return std::optional<std::string>();
        return path == "-" ? std::optional<std::string>() : read_file(path).text;
    };
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
