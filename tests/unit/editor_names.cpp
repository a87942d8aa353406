// Where names are declared and used.
#include <algorithm>

#include <doctest/doctest.h>

#include "editor_desk.hpp"
#include "editor_files.hpp"

namespace waxwright {

using test::desk_with;
using test::EditorDesk;
using test::place_of;
using test::places;
using test::rename_with;
using test::shed;

TEST_CASE("a name leads to its declaration, across files, but not into the library") {
    EditorDesk desk = desk_with(shed);
    const std::string tide = "/desk/tide.candle";
    const auto goes_to = [&](const std::string& word, int nth = 1) {
        const Json found = desk.ask("textDocument/definition", tide,
                                    {{"position", place_of(shed, tide, word, nth)}});
        return found.is_null() ? "" : places(Json::array({found})).at(0);
    };
    CHECK(goes_to("shed-soy") == "bench.candle:5:4");
    CHECK(goes_to("shed-soy", 2) == "bench.candle:5:4");
    CHECK(goes_to("house") == "bench.candle:1:4");
    CHECK(goes_to("bench.candle") == "bench.candle:0:0");
    CHECK(goes_to("tide {") == "tide.candle:1:7"); // itself
    CHECK(goes_to("tide\n") == "tide.candle:1:7"); // in a batch
    CHECK(goes_to("lavender").empty());
    CHECK(goes_to("oils").empty());
    CHECK(goes_to("makes").empty());
}

TEST_CASE("a cursor right before a name or right behind it is at it") {
    EditorDesk desk;
    for (const char* text : {"let a = 1\nlet b = a|\n", "let a = 1\nlet b = |a", "let a| = 1\n"}) {
        const Json found = desk.ask_at_mark("textDocument/definition", text);
        CHECK(places(Json::array({found})).at(0) == "a.candle:0:4");
    }
    CHECK(desk.ask_at_mark("textDocument/definition", "let a = 1\nlet b =| a\n").is_null());
    CHECK(desk.ask_at_mark("textDocument/definition", "|").is_null());
}

TEST_CASE("`wax soy like soy`: one name, two things") {
    EditorDesk desk = desk_with(shed);
    const std::string bench = "/desk/bench.candle";
    const auto ask = [&](const std::string& word, int nth) {
        return desk.ask("textDocument/definition", bench,
                        {{"position", place_of(shed, bench, word, nth)}});
    };
    CHECK(places(Json::array({ask("soy", 1)})).at(0) == "bench.candle:2:4");
    CHECK(ask("soy", 2).is_null());                                          // the library's
    CHECK(places(Json::array({ask("soy", 4)})).at(0) == "bench.candle:2:4"); // ours again
}

TEST_CASE("every use is found, from a use and from the declaration, in files that are not open") {
    EditorDesk desk(shed);
    desk.open("/desk/bench.candle", shed.at("/desk/bench.candle"));
    Json params{{"position", place_of(shed, "/desk/bench.candle", "shed-soy")},
                {"context", {{"includeDeclaration", true}}}};
    const std::vector<std::string> uses{"tide.candle:18:12", "tide.candle:3:13"};
    std::vector<std::string> all{"bench.candle:5:4"};
    all.insert(all.end(), uses.begin(), uses.end());
    CHECK(places(desk.ask("textDocument/references", "/desk/bench.candle", params)) == all);
    params["context"]["includeDeclaration"] = false;
    CHECK(places(desk.ask("textDocument/references", "/desk/bench.candle", params)) == uses);
    params["position"] = place_of(shed, "/desk/tide.candle", "lavender");
    params["context"]["includeDeclaration"] = true;
    CHECK(places(desk.ask("textDocument/references", "/desk/tide.candle", params)) ==
          std::vector<std::string>{"tide.candle:5:9"});
}

TEST_CASE("within a file the declaration is marked as written, uses as read") {
    EditorDesk desk;
    const Json found = desk.ask_at_mark("textDocument/documentHighlight",
                                        "let warm = 60 °C\nlet hot-one = wa|rm + 5 C°\n");
    REQUIRE(found.size() == 2);
    CHECK(found[0]["kind"] == 3);
    CHECK(found[0]["range"]["start"]["line"] == 0);
    CHECK(found[1]["kind"] == 2);
    CHECK(found[1]["range"]["start"]["character"] == 14);
    CHECK(desk.ask_at_mark("textDocument/documentHighlight", "let wa|rm").empty());
}

TEST_CASE("names of half a text: nothing is thrown") {
    for (const auto& [path, text] : test::recipe_files("examples")) {
        for (std::size_t end = 0; end <= text.size(); end += 97) {
            EditorDesk desk;
            const std::string half = test::cut_off(text, end);
            desk.open(path, half);
            const Source source("", half, false);
            for (const std::size_t at : {end, end / 2, end - std::min<std::size_t>(end, 9)}) {
                const Json position =
                    position_of(source, static_cast<std::uint32_t>(at), Encoding::utf16);
                const Json params{{"position", position}};
                desk.ask("textDocument/definition", path, params);
                desk.ask("textDocument/references", path, params);
                desk.ask("textDocument/documentHighlight", path, params);
                desk.refusal("textDocument/prepareRename", path, params);
                desk.refusal("textDocument/rename", path, rename_with(position, "quite-another"));
            }
        }
    }
}

} // namespace waxwright
