// Other names for what a maker has named.
#include <algorithm>

#include <doctest/doctest.h>

#include "editor_desk.hpp"
#include "editor_files.hpp"

namespace waxwright {

using test::desk_with;
using test::EditorDesk;
using test::place_of;
using test::rename_with;
using test::shed;

namespace {

/// The disk with the edits of a rename done.
EditorDesk::Disk renamed(EditorDesk::Disk disk, const Json& edit) {
    for (const auto& [uri, edits] : edit["changes"].items()) {
        std::string& text = disk.at(path_of_uri(uri));
        text = EditorDesk::with_edits(text, edits);
    }
    return disk;
}

} // namespace

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

TEST_CASE("a name with blanks or capitals is written as names are") {
    EditorDesk desk = desk_with(shed);
    const std::string tide = "/desk/tide.candle";
    const Json edit = desk.ask("textDocument/rename", tide,
                               rename_with(place_of(shed, tide, "house"), " House Load "));
    CHECK(renamed(shed, edit).at(tide).find("house-load") != std::string::npos);
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
            const std::string what = path + " " + name; // clang 14 lets no lambda have a binding
            INFO(what);
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
            const std::string what = path + " " + name; // clang 14 lets no lambda have a binding
            INFO(what);
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

} // namespace waxwright
