// How gravely an editor is told what is found.
#include <doctest/doctest.h>

#include "editor_desk.hpp"

namespace waxwright {

using test::EditorDesk;
using test::Marked;

namespace {

constexpr int error = 1, information = 3, hint = 4; // LSP's DiagnosticSeverity
const std::string path = "/desk/a.candle";

/// The severities of a rule's findings: "1 3 ".
std::string graveness(const Json& found, std::string_view rule) {
    std::string all;
    for (const Json& each : found) {
        if (each["code"] == rule) all += each["severity"].dump() + " ";
    }
    return all;
}
std::string only(int severity) {
    return std::to_string(severity) + " ";
}

/// Types at the mark of an open text.
void type_at(EditorDesk& desk, std::string_view marked, const std::string& text) {
    const Marked mark(marked);
    desk.open(path, mark.text);
    desk.type(path, mark.position, mark.position, text);
}

} // namespace

TEST_CASE("a note for whoever stands at the stove is seen; one for who writes is a hint") {
    EditorDesk desk;
    desk.open(path,
              "use waxes, oils, vessels, wicks\nrecipe tins {\n  makes: 4 tin-8oz\n  wax: soy\n"
              "  load: 6% of wax\n  scent: lavender\n  wick: cotton-braid-large\n  steps {\n"
              "    melt to 75 °C\n    off heat\n    add scent at 70 °C, stir 2 min\n"
              "    pour at 60 °C\n  }\n}\n");
    const Json found = desk.diagnostics(path);
    CHECK(graveness(found, "scent-over-flash") == only(information));
    CHECK(graveness(found, "no-trim") == only(hint));
    CHECK(graveness(found, "untested") == only(hint)); // told milder of a recipe that isn't sold
}

TEST_CASE("what is only not there yet is mild in the block that is being written") {
    EditorDesk desk;
    type_at(desk, "wax dune {\n  |\n}\n\nwax reed {\n  melts: 50 °C\n}\n", "density:");
    const auto rules = [&](const Json& found) {
        return graveness(found, "missing-property") + "| " + graveness(found, "syntax");
    };
    // an open value in the first block, and what else it needs; what the second one needs
    CHECK(rules(desk.diagnostics(path)) == "3 1 | 3 ");
    SUBCASE("saved, all of it counts") {
        desk.notify("textDocument/didSave", {{"textDocument", {{"uri", EditorDesk::uri(path)}}}});
        CHECK(rules(desk.diagnostics(path)) == "1 1 | 1 ");
    }
    SUBCASE("written on in another block, the first one counts") {
        const Json at{{"line", 5}, {"character", 14}};
        desk.type(path, at, at, "\n  sets:");
        CHECK(rules(desk.diagnostics(path)) == "1 3 | 1 3 ");
    }
}

TEST_CASE("a whole block put in at once is mild, and so while its name is written") {
    EditorDesk desk;
    type_at(desk, "use waxes\n|\n", "recipe my-recipe {\n  makes: \n  wax: \n}");
    CHECK(graveness(desk.diagnostics(path), "syntax") == "3 3 ");
    desk.type(path, {{"line", 1}, {"character", 7}}, {{"line", 1}, {"character", 16}}, "tide");
    CHECK(graveness(desk.diagnostics(path), "syntax") == "3 3 ");
}

TEST_CASE("a line of use that comes with a choice does not say where the maker writes") {
    EditorDesk desk;
    type_at(desk, "\nrecipe tide {\n  |\n}\n", "wax: soy");
    CHECK(graveness(desk.diagnostics(path), "missing-property") == only(information));
    const Json top{{"line", 0}, {"character", 0}};
    desk.type(path, top, top, "use waxes\n");
    CHECK(graveness(desk.diagnostics(path), "missing-property") == only(information));
}

TEST_CASE("a block that is not closed yet is mild while it is written") {
    EditorDesk desk;
    type_at(desk, "recipe tide {\n  |", "title: \"Tide\"");
    CHECK(graveness(desk.diagnostics(path), "syntax") == only(information));
}

TEST_CASE("a load before its scent, and a recipe before its wick, are mild while it is written") {
    EditorDesk desk;
    type_at(desk, "use waxes, vessels\nrecipe tide {\n  makes: 4 tin-8oz\n  wax: soy\n|}\n",
            "  load: 6% of wax\n");
    const auto rules = [&] {
        const Json found = desk.diagnostics(path);
        return graveness(found, "scent-without-load") + "| " + graveness(found, "wick-missing");
    };
    CHECK(rules() == "3 | 3 ");
    desk.notify("textDocument/didSave", {{"textDocument", {{"uri", EditorDesk::uri(path)}}}});
    CHECK(rules() == "1 | 2 ");
}

TEST_CASE("what is wrong stays an error wherever it is typed") {
    EditorDesk desk;
    type_at(desk, "vessel jar {\n  fill: |\n}\n", "3 ml");
    CHECK(graveness(desk.diagnostics(path), "out-of-range") == only(error));
}

} // namespace waxwright
