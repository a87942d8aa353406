// The language server's lifecycle, its texts, and the findings it sends.
#include <algorithm>

#include <doctest/doctest.h>

#include "editor/framing.hpp"
#include "editor_desk.hpp"

namespace waxwright {

using test::EditorDesk;

namespace {

const std::string tins = R"(use waxes, oils, vessels, wicks
recipe small {
  makes: 4 tin-8oz
  wax:   soy
  load:  6% of wax
  scent: lavender
  wick:  cotton-braid-large
  steps {
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 60 °C
  }
}
)";

Json at(int line, int character) {
    return {{"line", line}, {"character", character}};
}

} // namespace

TEST_CASE("bytes are parted into messages, whatever the pieces they come in") {
    const std::string stream = framed("{\"a\":1}") + "X-Other: 1\r\n\r\n" +
                               "content-length:  2 \r\nContent-Type: x\r\n\r\n{}" + framed("é");
    for (std::size_t piece = 1; piece < stream.size(); ++piece) {
        Framing framing;
        std::vector<std::string> got;
        for (std::size_t from = 0; from < stream.size(); from += piece) {
            framing.feed(std::string_view(stream).substr(from, piece));
            while (auto message = framing.next())
                got.push_back(*message);
        }
        CHECK(got == std::vector<std::string>{"{\"a\":1}", "{}", "é"});
    }
}

TEST_CASE("a message that is too long is left out, and the next one is read") {
    Framing framing;
    const std::size_t length = Framing::longest_message + 1;
    framing.feed("Content-Length: " + std::to_string(length) + "\r\n\r\n");
    framing.feed(std::string(length, 'x') + framed("{}"));
    CHECK(framing.next() == "{}");
    CHECK_FALSE(framing.next());
}

// LSP 3.17's own example: `a`, U+10400, `b` has `b` at 3 in UTF-16; 2 and 5 follow from the forms.
TEST_CASE("a position counts in the units that were agreed on") {
    const Source source("",
                        "a\xF0\x90\x90\x80"
                        "b",
                        false);
    CHECK(position_of(source, 5, Encoding::utf16) == at(0, 3));
    CHECK(position_of(source, 5, Encoding::utf32) == at(0, 2));
    CHECK(position_of(source, 5, Encoding::utf8) == at(0, 5));
    CHECK(offset_of(source, at(0, 3), Encoding::utf16) == 5);
    CHECK(offset_of(source, at(0, 2), Encoding::utf16) == 1); // within the pair
    CHECK(offset_of(source, at(0, 99), Encoding::utf16) == 6);
    CHECK(offset_of(source, at(9, 0), Encoding::utf16) == 6);
}

TEST_CASE("lines end as LSP says: LF, CR LF or CR") {
    const Source source("", "a\r\nb\rc\nd\n", false);
    CHECK(position_of(source, 3, Encoding::utf16) == at(1, 0));
    CHECK(position_of(source, 5, Encoding::utf16) == at(2, 0));
    CHECK(position_of(source, 7, Encoding::utf16) == at(3, 0));
    CHECK(position_of(source, 9, Encoding::utf16) == at(4, 0));
    CHECK(offset_of(source, at(0, 5), Encoding::utf16) == 1);
}

TEST_CASE("addresses and paths") {
    CHECK(path_of_uri("file:///home/a%20b/%C3%A9.candle") == "/home/a b/é.candle");
    CHECK(uri_of_path("/home/a b/é.candle") == "file:///home/a%20b/%C3%A9.candle");
    CHECK(path_of_uri("untitled:Untitled-1") == "untitled:Untitled-1");
    CHECK(path_of_uri("file://host/x%2") == "/x%2");
}

TEST_CASE("the server's life: nothing before initialize, nothing after shutdown") {
    Server server({.reader = [](const auto&) { return ReadFile(); }, .recipe_files = {}});
    std::vector<std::string> out;
    const auto code = [&](std::string_view message) {
        out.clear();
        server.take(message, out);
        REQUIRE(out.size() == 1);
        const Json answer = Json::parse(out[0]);
        return answer.contains("error") ? answer["error"]["code"].get<int>() : 0;
    };
    CHECK(code(R"({"jsonrpc":"2.0","id":1,"method":"textDocument/hover","params":{}})") == -32002);
    CHECK(code("{") == -32700);
    CHECK(code("[]") == -32600);
    CHECK(code(R"({"jsonrpc":"2.0","id":2,"method":"initialize","params":{}})") == 0);
    CHECK(code(R"({"jsonrpc":"2.0","id":3,"method":"initialize","params":{}})") == -32600);
    CHECK(code(R"({"jsonrpc":"2.0","id":4,"method":"no/such"})") == -32601);
    CHECK(code(R"({"jsonrpc":"2.0","id":5,"method":"textDocument/hover","params":{}})") == -32602);
    CHECK(code(R"({"jsonrpc":"2.0","id":6,"method":"shutdown"})") == 0);
    CHECK(code(R"({"jsonrpc":"2.0","id":7,"method":"textDocument/hover","params":{}})") == -32600);
    out.clear();
    server.take(R"({"jsonrpc":"2.0","method":"exit"})", out);
    CHECK(server.ended());
    CHECK(server.status() == 0);
    Server hasty({.reader = {}, .recipe_files = {}});
    hasty.take(R"({"jsonrpc":"2.0","method":"exit"})", out);
    CHECK(hasty.status() == 1);
}

TEST_CASE("findings come as they are typed, and an empty list when the last is cured") {
    EditorDesk desk;
    desk.open("/desk/a.candle", tins);
    const auto errors = [&] {
        std::vector<std::string> rules;
        for (const Json& each : desk.diagnostics("/desk/a.candle")) {
            if (each["severity"] == 1) rules.push_back(each["code"]);
        }
        return rules;
    };
    CHECK(errors().empty());
    desk.type("/desk/a.candle", at(4, 9), at(4, 10), "16"); // 6% -> 16%
    CHECK(errors() == std::vector<std::string>{"load-over-limit"});
    const Json found = desk.diagnostics("/desk/a.candle");
    const auto over = std::ranges::find_if(
        found, [](const Json& each) { return each["code"] == "load-over-limit"; });
    CHECK((*over)["range"]["start"] == at(4, 9));
    CHECK((*over)["source"] == "waxwright");
    desk.type("/desk/a.candle", at(4, 9), at(4, 11), "6");
    CHECK(errors().empty());
}

TEST_CASE("an unsaved text counts for whoever uses it") {
    EditorDesk desk(EditorDesk::Disk{{"/desk/bench.candle", "let house = 6% of wax\n"}});
    std::string recipe = "use \"bench.candle\"\n" + tins;
    recipe.replace(recipe.find("6% of wax"), 9, "house");
    desk.open("/desk/a.candle", recipe);
    const auto has = [&](const std::string& rule) {
        const Json found = desk.diagnostics("/desk/a.candle");
        return std::ranges::any_of(found, [&](const Json& each) { return each["code"] == rule; });
    };
    CHECK_FALSE(has("load-over-limit"));
    CHECK_FALSE(has("use-missing"));
    desk.open("/desk/bench.candle", "let house = 16% of wax\n");
    CHECK(has("load-over-limit"));
}

TEST_CASE("where a used file has errors, the line that uses it says so") {
    EditorDesk desk(EditorDesk::Disk{{"/desk/bench.candle", "scale kit { reads: 1 ml }\n"}});
    desk.open("/desk/a.candle", "use \"bench.candle\"\n" + tins);
    const Json found = desk.diagnostics("/desk/a.candle");
    const auto use = std::ranges::find_if(
        found, [](const Json& each) { return each["range"]["start"]["line"] == 0; });
    REQUIRE(use != found.end());
    CHECK((*use)["severity"] == 1);
    CHECK((*use)["message"].get<std::string>().find("there is an error in `bench.candle`") == 0);
    desk.open("/desk/bench.candle", "scale kit { reads: 1 g }\n");
    for (const Json& each : desk.diagnostics("/desk/a.candle"))
        CHECK(each["range"]["start"]["line"] != 0);
}

TEST_CASE("a fix is offered as an action, and does what the finding says") {
    EditorDesk desk;
    std::string text = tins;
    text.replace(text.find("lavender"), 8, "lavendar");
    desk.open("/desk/a.candle", text);
    const Json cursor = at(5, 12);
    Json actions = desk.ask("textDocument/codeAction", "/desk/a.candle",
                            {{"range", {{"start", cursor}, {"end", cursor}}},
                             {"context", {{"diagnostics", Json::array()}}}});
    REQUIRE(actions.size() == 1);
    CHECK(actions[0]["kind"] == "quickfix");
    const Json edits = actions[0]["edit"]["changes"]["file:///desk/a.candle"];
    CHECK(EditorDesk::with_edits(text, edits) == tins);
    const Json beside = at(5, 3); // another word of the line
    actions = desk.ask("textDocument/codeAction", "/desk/a.candle",
                       {{"range", {{"start", beside}, {"end", beside}}},
                        {"context", {{"diagnostics", Json::array()}}}});
    CHECK(actions.size() == 1);
    const Json above = at(4, 3); // another line
    actions = desk.ask("textDocument/codeAction", "/desk/a.candle",
                       {{"range", {{"start", above}, {"end", above}}},
                        {"context", {{"diagnostics", Json::array()}}}});
    CHECK(actions.empty());
    actions = desk.ask("textDocument/codeAction", "/desk/a.candle",
                       {{"range", {{"start", cursor}, {"end", cursor}}},
                        {"context", {{"diagnostics", Json::array()}, {"only", {"refactor"}}}}});
    CHECK(actions.empty());
}

TEST_CASE("formatting is what tidy writes, in one change that is no longer than it must be") {
    EditorDesk desk;
    std::string text = tins;
    text.replace(text.find("  wax:   soy"), 12, "wax: soy");
    desk.open("/desk/a.candle", text);
    const Json edits = desk.ask("textDocument/formatting", "/desk/a.candle",
                                {{"options", {{"tabSize", 2}, {"insertSpaces", true}}}});
    REQUIRE(edits.size() == 1);
    CHECK(EditorDesk::with_edits(text, edits) == tins);
    CHECK(edits[0]["range"]["start"] == at(3, 0));
    desk.open("/desk/a.candle", tins);
    CHECK(desk.ask("textDocument/formatting", "/desk/a.candle").empty());
    desk.open("/desk/a.candle", "recipe {{{\n  wax soy\n");
    CHECK(desk.ask("textDocument/formatting", "/desk/a.candle").empty());
}

} // namespace waxwright
