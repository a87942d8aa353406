// Outlines, the search in a workspace, and what can be folded.
#include <doctest/doctest.h>

#include "editor_desk.hpp"
#include "editor_files.hpp"

namespace waxwright {

using test::EditorDesk;

namespace {

const std::string shed = R"(# Two lines
# of comment.
use waxes,
    oils
let house = 6% of
wax  # a lone comment
recipe reed-bed {
  title: "Reed Bed"
  scent: 3 parts lavender +
         1 part rosemary
  steps {
    melt to 75 °C   # slowly
    add scent at 70 °C, stir 2 min
  }
}
)";

std::vector<std::string> names_of(const Json& symbols) {
    std::vector<std::string> names;
    for (const Json& each : symbols)
        names.push_back(each["name"]);
    return names;
}

bool before_or_at(const Json& a, const Json& b) {
    return std::pair(a["line"].get<int>(), a["character"].get<int>()) <=
           std::pair(b["line"].get<int>(), b["character"].get<int>());
}
bool within(const Json& inner, const Json& outer) {
    return before_or_at(outer["start"], inner["start"]) && before_or_at(inner["end"], outer["end"]);
}

/// Ranges nest, and every symbol has a name.
void check_nested(const Json& symbols, const Json* around) {
    for (const Json& each : symbols) {
        INFO(each.dump());
        CHECK_FALSE(each["name"].get<std::string>().empty());
        CHECK(within(each["selectionRange"], each["range"]));
        if (around != nullptr) CHECK(within(each["range"], *around));
        if (each.contains("children")) check_nested(each["children"], &each["range"]);
    }
}

void check_folds(const Json& folds, int lines) {
    for (const Json& fold : folds) {
        INFO(fold.dump());
        CHECK(fold["startLine"].get<int>() < fold["endLine"].get<int>());
        CHECK(fold["endLine"].get<int>() < lines);
    }
}

} // namespace

TEST_CASE("the outline: lets and blocks, with their lines and steps in them") {
    EditorDesk desk;
    std::string text = shed;
    text.replace(text.find("of\nwax"), 6, "of wax");
    desk.open("/desk/a.candle", text);
    const Json symbols = desk.ask("textDocument/documentSymbol", "/desk/a.candle");
    CHECK(names_of(symbols) == std::vector<std::string>{"house", "reed-bed"});
    CHECK(symbols[0]["detail"] == "6% of wax");
    CHECK(symbols[0]["kind"] == 14);
    const Json recipe = symbols[1];
    CHECK(recipe["detail"] == "recipe, Reed Bed");
    CHECK(recipe["kind"] == 12);
    CHECK(recipe["range"]["end"] == Json{{"line", 13}, {"character", 1}});
    CHECK(names_of(recipe["children"]) == std::vector<std::string>{"title", "scent", "steps"});
    CHECK(recipe["children"][1]["detail"] == "3 parts lavender + 1 part rosemary");
    CHECK(names_of(recipe["children"][2]["children"]) ==
          std::vector<std::string>{"melt to 75 °C", "add scent at 70 °C, stir 2 min"});
    check_nested(symbols, nullptr);
}

TEST_CASE("a client that takes no tree gets blocks and lets in a row") {
    EditorDesk desk(EditorDesk::Disk(), Json::object());
    desk.open("/desk/a.candle", "wax a {\n  about: \"x\"\n}\nlet b = 1\n");
    const Json symbols = desk.ask("textDocument/documentSymbol", "/desk/a.candle");
    CHECK(names_of(symbols) == std::vector<std::string>{"a", "b"});
    CHECK(symbols[1]["location"]["range"]["start"] == Json{{"line", 3}, {"character", 4}});
}

TEST_CASE("blocks of no kind, and without a good head, are in the outline") {
    EditorDesk desk;
    desk.open("/desk/a.candle", "wacks soy {\n}\nrecipe two words {\n  wax: soy\n}\nwax {\n");
    const Json symbols = desk.ask("textDocument/documentSymbol", "/desk/a.candle");
    CHECK(names_of(symbols) == std::vector<std::string>{"soy", "recipe two words", "wax"});
    check_nested(symbols, nullptr);
}

TEST_CASE("a search finds names and titles, the best fits first") {
    EditorDesk desk(EditorDesk::Disk{{"/desk/a.candle", "wax barred-one {\n}\n"},
                                     {"/desk/b.candle",
                                      "let old-reed = 1\nrecipe net {\n  title: \"Reed Two\"\n}\n"
                                      "recipe reed-bed {\n}\n"}});
    const auto found = [&](const std::string& query) {
        return names_of(desk.ask_with("workspace/symbol", {{"query", query}}));
    };
    CHECK(found("reed") == std::vector<std::string>{"net", "reed-bed", "old-reed"});
    CHECK(found("Reed B") == std::vector<std::string>{"reed-bed"});
    CHECK(found("brdo") == std::vector<std::string>{"barred-one"});
    CHECK(found("soy").empty()); // none of the library
    CHECK(found("").size() == 4);
    std::string many;
    for (int i = 0; i < 600; ++i)
        many += "let n" + std::to_string(i) + " = 1\n";
    desk.open("/desk/c.candle", many);
    CHECK(found("n").size() == 500);
}

TEST_CASE("what folds: comments, uses, blocks, steps and long values, by whole lines") {
    EditorDesk desk;
    std::string text = shed;
    text.replace(text.find("of\nwax"), 6, "of wax");
    desk.open("/desk/a.candle", text);
    std::vector<std::string> folds;
    for (const Json& fold : desk.ask("textDocument/foldingRange", "/desk/a.candle"))
        folds.push_back(fold["startLine"].dump() + "-" + fold["endLine"].dump() + " " +
                        fold.value("kind", ""));
    CHECK(folds ==
          std::vector<std::string>{"0-1 comment", "2-3 imports", "5-12 ", "7-8 ", "9-11 "});
}

TEST_CASE("a block that is not closed folds to its last line; runs of `use` are one") {
    EditorDesk desk;
    desk.open("/desk/a.candle", "use waxes\nuse oils\n\nuse wicks\nwax a {\n  about: \"x\"\n\n\n"
                                "wax b {\n  about: \"x\" }\n");
    const Json folds = desk.ask("textDocument/foldingRange", "/desk/a.candle");
    REQUIRE(folds.size() == 3);
    CHECK(folds[0] == Json{{"startLine", 0}, {"endLine", 1}, {"kind", "imports"}});
    CHECK(folds[1] == Json{{"startLine", 4}, {"endLine", 5}});
    CHECK(folds[2] == Json{{"startLine", 8}, {"endLine", 9}});
}

TEST_CASE("outlines and folds of every recipe file, and of half of it") {
    for (const char* folder : {"examples", "tests/corpus"}) {
        for (const auto& [path, text] : test::recipe_files(folder)) {
            for (const std::size_t end : {text.size(), text.size() / 2, text.size() * 4 / 5}) {
                const std::string what = path + " to " + std::to_string(end);
                INFO(what);
                EditorDesk desk;
                const std::string half = test::cut_off(text, end);
                desk.open(path, half);
                check_nested(desk.ask("textDocument/documentSymbol", path), nullptr);
                check_folds(desk.ask("textDocument/foldingRange", path),
                            static_cast<int>(Source("", half, false).line_count()));
            }
        }
    }
}

} // namespace waxwright
