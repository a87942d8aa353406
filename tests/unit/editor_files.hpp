// The recipe files of the tree, as an editor's desk has them.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "editor_desk.hpp"

namespace waxwright::test {

/// Those of a folder and its folders, by what their path on the desk is. A `use` of a file beside
/// goes on holding.
inline EditorDesk::Disk recipe_files(const std::string& folder) {
    const std::filesystem::path root = std::filesystem::path(WAXWRIGHT_TREE) / folder;
    EditorDesk::Disk disk;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
        if (entry.path().extension() != ".candle") continue;
        std::ifstream in(entry.path(), std::ios::binary);
        const std::string name = std::filesystem::relative(entry.path(), root).generic_string();
        disk["/desk/" + name] = std::string(std::istreambuf_iterator<char>(in), {});
    }
    return disk;
}

/// What stands before a byte, without half a character at its end.
inline std::string cut_off(const std::string& text, std::size_t end) {
    while (end < text.size() && end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80)
        --end;
    return text.substr(0, end);
}

} // namespace waxwright::test
