// Recipe files to ask an editor's questions of, and how the questions are put.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <doctest/doctest.h>

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

/// Two files: a bench, and a recipe that uses it.
inline const EditorDesk::Disk shed{
    {"/desk/bench.candle", "use waxes\n"
                           "let house = 6% of wax\n"
                           "wax soy like soy {\n  source: \"ours\"\n}\n"
                           "wax shed-soy like soy {\n  source: \"ours\"\n}\n"},
    {"/desk/tide.candle", "use oils, vessels, wicks, \"bench.candle\"\n"
                          "recipe tide {\n"
                          "  makes: 6 tin-8oz\n"
                          "  wax:   60% shed-soy + 40% soy\n"
                          "  load:  house\n"
                          "  scent: lavender\n"
                          "  wick:  cotton-braid-large\n"
                          "  steps {\n    melt to 75 °C\n    off heat\n"
                          "    add scent at 70 °C, stir 2 min\n    pour at 60 °C\n  }\n}\n"
                          "batch fair {\n  pour 6 tide\n}\n"
                          "stock shelf {\n  have 2 kg shed-soy\n}\n"}};

/// "bench.candle:2:4" for each, from 0 as LSP counts.
inline std::vector<std::string> places(const Json& locations) {
    std::vector<std::string> found;
    for (const Json& each : locations) {
        const auto uri = each["uri"].get<std::string>();
        const Json& start = each["range"]["start"];
        found.push_back(uri.substr(uri.rfind('/') + 1) + ":" + start["line"].dump() + ":" +
                        start["character"].dump());
    }
    std::ranges::sort(found);
    return found;
}

/// Where the `nth` of a word stands in a file of the disk; in its middle, so that it is within.
inline Json place_of(const EditorDesk::Disk& disk, const std::string& path, const std::string& word,
                     int nth = 1) {
    const std::string& text = disk.at(path);
    std::size_t at = text.find(word);
    for (; nth > 1; --nth)
        at = text.find(word, at + 1);
    REQUIRE(at != std::string::npos);
    return position_of(Source("", text, false), static_cast<std::uint32_t>(at + 1),
                       Encoding::utf16);
}

/// With all files of the disk open.
inline EditorDesk desk_with(const EditorDesk::Disk& disk) {
    EditorDesk desk(disk);
    for (const auto& [path, text] : disk)
        desk.open(path, text);
    return desk;
}

inline Json rename_with(const Json& position, const std::string& name) {
    return {{"position", position}, {"newName", name}};
}

} // namespace waxwright::test
