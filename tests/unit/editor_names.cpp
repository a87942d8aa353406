// Where names are declared and used, and other names for them.
#include <algorithm>

#include <doctest/doctest.h>

#include "editor_desk.hpp"
#include "editor_files.hpp"

namespace waxwright {

using test::EditorDesk;
using test::Marked;

namespace {

const EditorDesk::Disk shed{
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
std::vector<std::string> places(const Json& locations) {
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
Json place_of(const EditorDesk::Disk& disk, const std::string& path, const std::string& word,
              int nth = 1) {
    const std::string& text = disk.at(path);
    std::size_t at = text.find(word);
    for (; nth > 1; --nth)
        at = text.find(word, at + 1);
    REQUIRE(at != std::string::npos);
    return position_of(Source("", text, false), static_cast<std::uint32_t>(at + 1),
                       Encoding::utf16);
}

EditorDesk desk_with(const EditorDesk::Disk& disk) {
    EditorDesk desk(disk);
    for (const auto& [path, text] : disk)
        desk.open(path, text);
    return desk;
}

/// The disk with the edits of a rename done.
EditorDesk::Disk renamed(EditorDesk::Disk disk, const Json& edit) {
    for (const auto& [uri, edits] : edit["changes"].items()) {
        std::string& text = disk.at(path_of_uri(uri));
        text = EditorDesk::with_edits(text, edits);
    }
    return disk;
}

Json rename_with(const Json& position, const std::string& name) {
    return {{"position", position}, {"newName", name}};
}

} // namespace

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

TEST_CASE("what can be renamed, and what is said of the rest") {
    EditorDesk desk = desk_with(shed);
    const std::string tide = "/desk/tide.candle";
    const Json can =
        desk.ask("textDocument/prepareRename", tide, {{"position", place_of(shed, tide, "house")}});
    CHECK(can["placeholder"] == "house");
    CHECK(can["range"]["start"] == Json{{"line", 4}, {"character", 9}});
    const auto refused = [&](const std::string& word) {
        return desk.refusal("textDocument/prepareRename", tide,
                            {{"position", place_of(shed, tide, word)}});
    };
    CHECK(refused("lavender").find("standard library") != std::string::npos);
    CHECK(refused("makes").find("word of the language") != std::string::npos);
    CHECK(refused("heat").find("no name that stands") != std::string::npos);
    CHECK(refused("{").find("no name here") != std::string::npos);
}

TEST_CASE("a name that is no good, or taken, or would be caught by another, is refused") {
    EditorDesk desk = desk_with(shed);
    const std::string tide = "/desk/tide.candle", bench = "/desk/bench.candle";
    const auto refused = [&](const std::string& path, const std::string& word,
                             const std::string& name) {
        return desk.refusal("textDocument/rename", path,
                            rename_with(place_of(shed, path, word), name));
    };
    const auto says = [](const std::string& words, std::string_view part) {
        INFO(words);
        CHECK(words.find(part) != std::string::npos);
    };
    says(refused(tide, "house", "House Load"), "`house-load`");
    says(refused(tide, "house", "melt"), "`my-melt`");
    says(refused(tide, "house", ""), "can't be a name");
    says(refused(tide, "house", "7up"), "can't be a name");
    says(refused(tide, "house", "tail-"), "can't be a name");
    says(refused(tide, "house", "caf\xC3\xA9"), "can't be a name");
    says(refused(tide, "tide {", "shelf"), "there is a `shelf` already");
    says(refused(tide, "tide {", "house"), "there is a `house` already");     // of a used file
    says(refused(bench, "house", "tide"), "there is a `tide` already");       // of one that uses it
    says(refused(bench, "house", "beeswax"), "there is a `beeswax` already"); // of the library
    says(refused(bench, "shed-soy", "soy"), "there is a `soy` already");
}

TEST_CASE("a block like one of its own name changes without what it is like") {
    EditorDesk desk = desk_with(shed);
    const std::string bench = "/desk/bench.candle";
    Json edit = desk.ask("textDocument/rename", bench,
                         rename_with(place_of(shed, bench, "soy like"), "our-soy"));
    const EditorDesk::Disk after = renamed(shed, edit);
    CHECK(after.at(bench).find("wax our-soy like soy {") != std::string::npos);
    CHECK(after.at(bench).find("wax shed-soy like our-soy {") != std::string::npos);
    CHECK(after.at("/desk/tide.candle").find("60% shed-soy + 40% our-soy\n") != std::string::npos);
    EditorDesk other = desk_with(after);
    edit = other.ask("textDocument/rename", bench,
                     rename_with(place_of(after, bench, "our-soy"), "soy"));
    CHECK(renamed(after, edit) == shed);
}

TEST_CASE("what such a block is like changes in both files, where that is the maker's own") {
    EditorDesk::Disk disk{
        {"/desk/a.candle", "wax dune {\n  source: \"ours\"\n}\n"},
        {"/desk/b.candle", "use \"a.candle\"\nwax dune like dune {\n  source: \"ours\"\n}\n"}};
    EditorDesk desk = desk_with(disk);
    const Json edit = desk.ask("textDocument/rename", "/desk/b.candle",
                               rename_with(place_of(disk, "/desk/b.candle", "dune", 2), "old"));
    const EditorDesk::Disk after = renamed(disk, edit);
    CHECK(after.at("/desk/a.candle").starts_with("wax old {"));
    CHECK(after.at("/desk/b.candle").find("wax dune like old {") != std::string::npos);
    EditorDesk other = desk_with(after);
    const Json back = other.ask("textDocument/rename", "/desk/a.candle",
                                rename_with(place_of(after, "/desk/a.candle", "old"), "dune"));
    CHECK(renamed(after, back) == disk);
    // With the base used beside it, its uses would be caught by the block that is like it.
    EditorDesk::Disk both = after;
    both.at("/desk/b.candle") += "recipe r {\n  wax: 50% dune + 50% old\n}\n";
    EditorDesk third = desk_with(both);
    CHECK(third.refusal("textDocument/rename", "/desk/a.candle",
                        rename_with(place_of(both, "/desk/a.candle", "old"), "dune")) != "");
}

TEST_CASE("a line that can't be read and has the name in it is named, and nothing is changed") {
    const auto refused = [](const std::string& line) {
        EditorDesk::Disk disk = shed;
        disk.at("/desk/tide.candle") += line;
        EditorDesk desk = desk_with(disk);
        return desk.refusal("textDocument/rename", "/desk/bench.candle",
                            rename_with(place_of(disk, "/desk/bench.candle", "shed-soy"), "our"));
    };
    CHECK(refused("let x = 1\n").empty());
    CHECK(refused("let x = = shed-soy\n").find("tide.candle:21") != std::string::npos);
    CHECK(refused("let x = = shed-soy-two\n").empty()); // another word
    CHECK(refused("recipe r {\n  wax: 3 shed-soy\n}\n").find("tide.candle:22") !=
          std::string::npos); // its unit is missing, and the reading ends there
    CHECK(refused("wacks r {\n  wax: shed-soy\n}\n").find("tide.candle:22") != std::string::npos);
    CHECK(refused("substance s {\n  hazards: shed-soy\n}\n").empty()); // a label is no name
    EditorDesk::Disk apart = shed;
    apart["/desk/apart.candle"] = "let x = = shed-soy\n"; // it uses nothing, so it is another one
    EditorDesk with_other = desk_with(apart);
    CHECK(with_other
              .refusal("textDocument/rename", "/desk/bench.candle",
                       rename_with(place_of(apart, "/desk/bench.candle", "shed-soy"), "our"))
              .empty());
    EditorDesk::Disk disk{{"/desk/a.candle", "let a = 1\n"},
                          {"/desk/b.candle", "use \"a.candle\nlet b = a + 1\n"}};
    EditorDesk desk = desk_with(disk); // it was meant to use the file
    CHECK(desk.refusal("textDocument/rename", "/desk/a.candle",
                       rename_with(place_of(disk, "/desk/a.candle", " a "), "c")) != "");
}

TEST_CASE("a name that is no name can become one") {
    EditorDesk::Disk disk{{"/desk/a.candle",
                           "use waxes, wicks\nvessel jam_jar {\n  fill: 100 g\n}\n"
                           "recipe r {\n  makes: 2 jam_jar\n}\n"}};
    EditorDesk desk = desk_with(disk);
    const Json edit = desk.ask("textDocument/rename", "/desk/a.candle",
                               rename_with(place_of(disk, "/desk/a.candle", "jam_jar"), "jam-jar"));
    const std::string text = renamed(disk, edit).at("/desk/a.candle");
    CHECK(text.find("vessel jam-jar {") != std::string::npos);
    CHECK(text.find("2 jam-jar\n") != std::string::npos);
}

namespace {

/// What is found in each file: severity, rule, line.
std::vector<std::string> findings(const EditorDesk::Disk& disk) {
    EditorDesk desk = desk_with(disk);
    std::vector<std::string> found;
    for (const auto& [path, text] : disk) {
        for (const Json& each : desk.diagnostics(path)) {
            if (each["code"] == "unknown-name") continue; // told where a known one is near
            found.push_back(path + each["code"].dump() + each["severity"].dump() +
                            each["range"]["start"]["line"].dump());
        }
    }
    std::ranges::sort(found);
    return found;
}

/// The names that a text declares with their places.
std::vector<std::pair<std::string, Json>> declared(EditorDesk& desk, const std::string& path) {
    std::vector<std::pair<std::string, Json>> names;
    for (const Json& symbol : desk.ask("textDocument/documentSymbol", path))
        names.emplace_back(symbol["name"], symbol["selectionRange"]["start"]);
    return names;
}

} // namespace

TEST_CASE("every name of the examples changes alone, and changes back") {
    const EditorDesk::Disk disk = test::recipe_files("examples");
    const std::vector<std::string> before = findings(disk);
    EditorDesk desk = desk_with(disk);
    std::size_t count = 0;
    for (const auto& [path, text] : disk) {
        for (const auto& [name, at] : declared(desk, path)) {
            INFO(path << " " << name);
            const std::string other = "quite-another";
            const Json edit = desk.ask("textDocument/rename", path, rename_with(at, other));
            const EditorDesk::Disk after = renamed(disk, edit);
            CHECK(after != disk);
            if (count++ % 5 == 0) CHECK(findings(after) == before); // it takes a while
            EditorDesk back = desk_with(after);
            CHECK(renamed(after, back.ask("textDocument/rename", path, rename_with(at, name))) ==
                  disk);
        }
    }
    CHECK(count > 40);
}

TEST_CASE("in a file with mistakes a name changes and changes back, or is refused") {
    std::size_t done = 0, refused = 0;
    const EditorDesk::Disk corpus = test::recipe_files("tests/corpus");
    const std::string shared = "/desk/shed.candle";
    for (const auto& [path, text] : corpus) {
        const EditorDesk::Disk disk{{path, text}, {shared, corpus.at(shared)}};
        EditorDesk desk = desk_with(disk);
        for (const auto& [name, at] : declared(desk, path)) {
            INFO(path << " " << name);
            const Json params = rename_with(at, "quite-another");
            if (!desk.refusal("textDocument/rename", path, params).empty()) {
                ++refused;
                continue;
            }
            ++done;
            const EditorDesk::Disk after =
                renamed(disk, desk.ask("textDocument/rename", path, params));
            if (Names::as_name(name) != name || is_reserved(name)) continue; // it was none before
            const auto found = findings(after), before = findings(disk);
            if (found.size() < before.size()) { // another name mends that; it can't go back to it
                CHECK(std::ranges::includes(before, found));
                const auto twice = [](const std::string& each) {
                    return each.find("defined-twice") != std::string::npos;
                };
                CHECK(std::ranges::any_of(before, twice));
                continue;
            }
            CHECK(found == before);
            EditorDesk back = desk_with(after);
            CHECK(renamed(after, back.ask("textDocument/rename", path, rename_with(at, name))) ==
                  disk);
        }
    }
    CHECK(done > 100);
    CHECK(refused > 0);
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
