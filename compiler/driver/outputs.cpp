#include "driver/outputs.hpp"

#include <filesystem>
#include <optional>

#include <sys/stat.h>

#include <fmt/format.h>

namespace waxwright {

namespace {

namespace fs = std::filesystem;

/// Which file a path leads to: the file system's own number for one that is there, else its name
/// without links.
struct Identity {
    std::optional<std::pair<dev_t, ino_t>> file{};
    std::string name{};
    bool plain = false; // not a device or a pipe

    bool is(const Identity& other) const {
        if (file && other.file) return plain && *file == *other.file;
        return !file && !other.file && name == other.name;
    }
};

Identity identity(const std::string& path) {
    Identity found;
    struct stat status {};
    if (stat(path.c_str(), &status) == 0) {
        found.file = {status.st_dev, status.st_ino};
        found.plain = S_ISREG(status.st_mode);
    }
    std::error_code problem;
    const fs::path real = fs::weakly_canonical(fs::absolute(path, problem), problem);
    found.name = (problem ? fs::path(path) : real).string();
    return found;
}

} // namespace

std::string output_clash(const std::vector<std::string>& outputs, const Sources& sources) {
    std::vector<Identity> written;
    for (const std::string& path : outputs) {
        const Identity own = identity(path);
        for (FileId id = 0; id < sources.size(); ++id) {
            if (sources[id].is_library() || !identity(sources[id].name()).is(own)) continue;
            return fmt::format(
                "{}: is {}, which this run reads, and it would be overwritten; name another file",
                path, sources[id].name());
        }
        for (std::size_t i = 0; i < written.size(); ++i) {
            if (!written[i].is(own)) continue;
            return fmt::format("{}: is {} too: two outputs can't go into one file", path,
                               outputs[i]);
        }
        if (own.plain && fs::path(own.name).extension() == ".candle") {
            return fmt::format(
                "{}: is a recipe file, and recipes are not overwritten; name another file", path);
        }
        written.push_back(own);
    }
    return {};
}

} // namespace waxwright
