// Leftovers in an editor: grams behind a share, what is offered, where a box is used, its other
// name.
#include <doctest/doctest.h>

#include "editor_desk.hpp"

namespace waxwright {

using test::EditorDesk;
using test::Marked;

namespace {

const std::string remelt = R"(use waxes, oils, vessels, wicks
scale fine { reads: 1 g }
leftover spring-ends { wax: soy, load: 10% of wax, scent: cedarwood-virginia }
vessel bay-jar { fill: 200 ml, bore: 74 mm, of: glass, made-for: candles }
recipe bay {
  makes: 5 bay-jar
  wax:   soy
  load:  5% of wax
  scent: cedarwood-virginia
  leftovers: 20% spring-ends
  wick:  cotton-braid-medium
  scale: fine
  steps {
    melt to 72 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 60 °C
  }
}
stock box { have 300 g spring-ends }
)";

std::string marked(std::string_view before, std::string_view mark) {
    std::string text = remelt;
    const std::size_t at = text.find(before);
    REQUIRE(at != std::string::npos);
    return text.replace(at, before.size(), mark);
}

bool offers(std::string_view text, std::string_view label) {
    EditorDesk desk;
    const Json list = desk.ask_at_mark("textDocument/completion", text);
    for (const Json& item : list["items"]) {
        if (item["label"] == label) return true;
    }
    return false;
}

} // namespace

TEST_CASE("grams stand behind a share of leftovers") {
    EditorDesk desk;
    desk.open("/desk/a.candle", remelt);
    const Json range = {{"start", {{"line", 0}, {"character", 0}}},
                        {"end", {{"line", 30}, {"character", 0}}}};
    std::string there;
    for (const Json& each :
         desk.ask("textDocument/inlayHint", "/desk/a.candle", {{"range", range}})) {
        if (each["position"]["line"] == 9) there = each["label"];
    }
    CHECK(there == "= 177 g"); // 20 % of 883 g; its pot's table adds up with 176 g
}

TEST_CASE("a box is offered where a share of leftovers is written, and where a stock has it") {
    CHECK(offers(marked("20% spring-ends", "20% |"), "spring-ends"));
    CHECK(offers(marked("have 300 g spring-ends", "have 300 g |"), "spring-ends"));
    CHECK(offers(marked("  leftovers: 20% spring-ends\n", "  |\n"), "leftovers"));
    CHECK_FALSE(offers(marked("wax:   soy", "wax:   80% |"), "spring-ends"));
}

TEST_CASE("a box is found wherever it is used, and gets another name there") {
    EditorDesk desk;
    const std::string at = marked("leftover spring-ends", "leftover spr|ing-ends");
    const Json found = desk.ask_at_mark("textDocument/references", at,
                                        {{"context", {{"includeDeclaration", true}}}});
    CHECK(found.size() == 3);
    const Json edits = desk.ask("textDocument/rename", "/desk/a.candle",
                                {{"position", Marked(at).position}, {"newName", "cedar-ends"}});
    const std::string after =
        EditorDesk::with_edits(remelt, edits["changes"][EditorDesk::uri("/desk/a.candle")]);
    CHECK(after.find("spring-ends") == std::string::npos);
    CHECK(after.find("leftovers: 20% cedar-ends") != std::string::npos);
    CHECK(after.find("have 300 g cedar-ends") != std::string::npos);
}

TEST_CASE("resting on a box or on the word tells what it is") {
    EditorDesk desk;
    const Json box =
        desk.ask_at_mark("textDocument/hover", marked("20% spring-ends", "20% spr|ing-ends"));
    CHECK(box["contents"].dump().find("10% of wax") != std::string::npos);
    const Json key =
        desk.ask_at_mark("textDocument/hover", marked("leftovers: 20%", "left|overs: 20%"));
    CHECK(key["contents"].dump().find("whole candle") != std::string::npos);
}

} // namespace waxwright
