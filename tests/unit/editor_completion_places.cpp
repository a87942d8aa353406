// Completion at many places: of broken lines, of every example, in each encoding.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "editor/completion_place.hpp"
#include "editor_desk.hpp"
#include "model/phrase_text.hpp"
#include "source/utf8.hpp"

namespace waxwright {

using test::EditorDesk;
using test::Marked;

namespace {

Json able(bool snippets) {
    return {{"textDocument",
             {{"hover", {{"contentFormat", {"markdown"}}}},
              {"completion", {{"completionItem", {{"snippetSupport", snippets}}}}}}}};
}

/// The examples by the paths they have on the desk.
EditorDesk::Disk examples() {
    EditorDesk::Disk disk;
    const std::filesystem::path folder = std::string(WAXWRIGHT_TREE) + "/examples";
    for (const auto& file : std::filesystem::directory_iterator(folder)) {
        if (file.path().extension() != ".candle") continue;
        std::stringstream read;
        read << std::ifstream(file.path()).rdbuf();
        disk["/desk/" + file.path().filename().string()] = read.str();
    }
    REQUIRE(disk.size() > 5);
    return disk;
}

Json offered_at(EditorDesk& desk, const std::string& path, const std::string& text,
                std::size_t at) {
    desk.open(path, text);
    const Source source("", text, false);
    const Json position = position_of(source, static_cast<std::uint32_t>(at), Encoding::utf16);
    return desk.ask("textDocument/completion", path, {{"position", position}})["items"];
}

/// Where a word of a value or a step begins; names that are new and texts are left out, and what
/// stands behind a unit's or a verb's first word, which come as one.
std::vector<std::size_t> words_in_values(const std::string& text) {
    std::vector<std::size_t> words;
    for (std::size_t at = 1; at < text.size(); ++at) {
        if (text[at - 1] != ' ' || !is_letter(text[at])) continue;
        const std::size_t begin = text.rfind('\n', at) + 1;
        const std::string before = text.substr(begin, at - begin);
        const bool head = is_letter(before[0]) && !before.starts_with("use ") &&
                          before.find(" like ") == std::string::npos &&
                          before.find('=') == std::string::npos;
        const bool text_or_comment = before.find_first_of("\"#") != std::string::npos;
        const std::string_view first = trimmed(before);
        const bool second = first == "fl" || first.ends_with(" fl") ||
                            std::ranges::any_of(all_verbs(), [&](const VerbInfo& verb) {
                                return verb.words.starts_with(std::string(first) + " ");
                            });
        const bool whole_line = first.empty(); // a property, a verb
        if (!head && !text_or_comment && !second && !whole_line) words.push_back(at);
    }
    return words;
}

} // namespace

TEST_CASE("what stands round a place, however the lines there are broken") {
    using Room = TypingPlace::Room;
    const auto at = [](std::string_view marked) {
        const std::size_t cursor = marked.find('|');
        std::string text(marked);
        text.erase(cursor, 1);
        return place_at(text, static_cast<std::uint32_t>(cursor));
    };
    CHECK(at("|").room == Room::file);
    CHECK(at("\xEF\xBB\xBF|").room == Room::file);
    const TypingPlace block =
        at("recipe a {\r\n  makes: 6 x\r\n  wa|\r\n  scent: y\r\n}\r\noil b {}");
    CHECK(block.room == Room::block);
    CHECK(block.kind == BlockKind::recipe);
    CHECK(block.typed == "wa");
    CHECK(block.has("makes"));
    CHECK(block.has("scent"));
    CHECK_FALSE(block.has("oil"));
    const TypingPlace inside =
        at("recipe a {\n  steps {\n    melt to 75 °C\n    |\n    pour at 60 °C");
    CHECK(inside.room == Room::steps);
    CHECK(inside.has("melt"));
    CHECK_FALSE(inside.has("pour"));
    CHECK(at("recipe a {\n  steps {\n    melt to 75 °C\n  pot: |").room == Room::block);
    CHECK(at("recipe a {\n  makes: 6 x\noil b {\n  |").kind == BlockKind::oil);
    CHECK(at("recipe a {\n  makes: 6 x\noil b |").room == Room::file);
    CHECK(at("recipe a {\n  wax: soy + # the flakes\n    |\n  load: 6%").typed.starts_with("wax:"));
    CHECK(at("recipe a {\n  wax: (80% +\n    |").typed.starts_with("wax:"));
    CHECK(at("recipe a {\n  wax: soy +\n  load: |").typed == "load: ");
    CHECK(at("scale s { reads: 1 g, mo| }").typed == "mo");
    CHECK(at("vessel v { sold: 1 for $2, | }").typed.starts_with("sold:"));
    CHECK(at("wax w { about: \"a { \\\" # |\"").room == Room::text);
    CHECK(at("wax w { about: \"a {\" # |").room == Room::comment);
    CHECK(at("}}} |").room == Room::file);
}

TEST_CASE("both encodings: a range is in the client's units") {
    const std::string text = "use vessels\nrecipe a { title: \"\xF0\x9F\x95\xAF\", makes: ti|\n}\n";
    for (const std::string encoding : {"utf-8", "utf-16"}) {
        Json capabilities = able(false);
        capabilities["general"]["positionEncodings"] = {encoding};
        EditorDesk desk({}, capabilities);
        const Encoding units = encoding == "utf-8" ? Encoding::utf8 : Encoding::utf16;
        const Marked mark(text);
        const Source source("", mark.text, false);
        const auto cursor = static_cast<std::uint32_t>(text.find('|'));
        desk.open("/desk/a.candle", mark.text);
        const Json list = desk.ask("textDocument/completion", "/desk/a.candle",
                                   {{"position", position_of(source, cursor, units)}});
        const Json& items = list["items"];
        const auto tin = std::ranges::find_if(
            items, [](const Json& each) { return each["label"] == "tin-8oz"; });
        REQUIRE(tin != items.end());
        CHECK((*tin)["textEdit"]["range"] == range_of(source, {0, cursor - 2, cursor}, units));
    }
}

TEST_CASE("what an example has in a value is offered there") {
    const EditorDesk::Disk disk = examples();
    EditorDesk desk(disk, able(true));
    std::size_t number = 0;
    for (const auto& file : disk) {
        const std::string& path = file.first;
        const std::string& text = file.second;
        for (const std::size_t at : words_in_values(text)) {
            if (++number % 23 != 0) continue;
            const std::string word(first_word(std::string_view(text).substr(at)));
            std::string gone = text;
            gone.erase(at, word.size());
            const Json items = offered_at(desk, path, gone, at);
            const bool there = std::ranges::any_of(items, [&](const Json& item) {
                const std::string label = item["label"];
                return label.starts_with(word) || label.starts_with("rest " + word);
            });
            INFO(path << ": " << text.substr(text.rfind('\n', at) + 1, 60) << " @ " << word);
            CHECK(there);
        }
        desk.open(path, text);
    }
    CHECK(number > 500);
}

TEST_CASE("wherever an example is cut off, something or nothing is offered") {
    const EditorDesk::Disk disk = examples();
    EditorDesk desk(disk, able(true));
    for (const auto& [path, text] : disk) {
        for (std::size_t at = 0; at <= text.size(); at += 97) {
            std::string cut = text.substr(0, at);
            cut.resize(first_bad_utf8(cut)); // not within a character
            for (const std::string& open : {cut, text}) {
                const Json items = offered_at(desk, path, open, cut.size());
                REQUIRE(items.is_array());
                for (const Json& item : items) {
                    const Json& range = item["textEdit"]["range"];
                    CHECK(range["start"]["line"] == range["end"]["line"]);
                }
            }
        }
        desk.open(path, text);
    }
}

} // namespace waxwright
