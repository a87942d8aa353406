#include "source/path.hpp"

#include <algorithm>
#include <vector>

namespace waxwright {

namespace {

using Parts = std::vector<std::string_view>;

/// Without empty ones and `.`.
Parts parts_of(std::string_view path) {
    Parts parts;
    for (std::size_t at = 0; at <= path.size();) {
        const std::size_t end = std::min(path.find('/', at), path.size());
        const std::string_view part = path.substr(at, end - at);
        if (!part.empty() && part != ".") parts.push_back(part);
        at = end + 1;
    }
    return parts;
}

std::string joined(const Parts& parts) {
    std::string path;
    for (const std::string_view part : parts) {
        if (!path.empty()) path += '/';
        path += part;
    }
    return path;
}

} // namespace

std::string path_from(std::string_view user, std::string_view path) {
    std::string whole;
    const std::size_t slash = user.rfind('/');
    if (!path.starts_with('/') && slash != std::string_view::npos)
        whole = user.substr(0, slash + 1);
    whole += path;
    const bool absolute = whole.starts_with('/');
    Parts kept;
    for (const std::string_view part : parts_of(whole)) {
        const bool up = part == "..";
        if (!up || (kept.empty() ? !absolute : kept.back() == "..")) {
            kept.push_back(part);
        } else if (!kept.empty()) {
            kept.pop_back();
        }
    }
    return (absolute ? "/" : "") + joined(kept);
}

std::string relative_path(std::string_view path, std::string_view folder) {
    const Parts to = parts_of(path);
    const Parts from = parts_of(folder);
    const auto [left, right] = std::mismatch(to.begin(), to.end(), from.begin(), from.end());
    Parts way(static_cast<std::size_t>(from.end() - right), "..");
    way.insert(way.end(), left, to.end());
    return way.empty() ? "." : joined(way);
}

} // namespace waxwright
