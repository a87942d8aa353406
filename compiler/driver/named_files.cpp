#include "driver/named_files.hpp"

#include <filesystem>
#include <set>

#include <fmt/format.h>

#include "driver/files.hpp"
#include "source/path.hpp"

namespace waxwright {

std::vector<std::string> named_files(const std::vector<std::string>& named, bool& good) {
    std::vector<std::string> files;
    std::set<std::string> seen;
    const auto take = [&](const std::string& file) {
        std::error_code problem;
        const auto real = std::filesystem::weakly_canonical(file, problem);
        const std::string key =
            problem || file == "-" ? path_from("", file) : real.generic_string();
        if (seen.insert(key).second) files.push_back(file);
    };
    for (const std::string& file : named) {
        if (!is_folder(file)) {
            take(file);
            continue;
        }
        const std::vector<std::string> inside = candle_files(file);
        if (inside.empty()) {
            good = false;
            write_error(fmt::format("waxwright: {}: has no .candle files\n", file));
        }
        for (const std::string& each : inside) {
            take(each);
        }
    }
    return files;
}

} // namespace waxwright
