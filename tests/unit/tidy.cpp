// The canonical form of a file, and the diff to it.
#include <string>

#include <doctest/doctest.h>

#include "syntax/parse.hpp"
#include "tidy/diff.hpp"
#include "tidy/tidy.hpp"
#include "tidy/tokens.hpp"

using namespace waxwright;

namespace {

/// The canonical form; "mistakes" where there is none.
std::string form(const std::string& text) {
    Sources sources;
    const FileId file = sources.add("tide.candle", text);
    Findings findings;
    const auto done = tidied(file, sources[file], findings);
    CHECK(done.has_value() == findings.all().empty());
    return done ? done->text : "mistakes";
}

Tidied whole_form(const std::string& text) {
    Sources sources;
    const FileId file = sources.add("tide.candle", text);
    Findings findings;
    return tidied(file, sources[file], findings).value();
}

/// The value of `let a`, tidied.
std::string value(const std::string& text) {
    const std::string line = form("let a = " + text);
    return line.starts_with("let a = ") ? line.substr(8, line.size() - 9) : line;
}

std::string diff(const std::string& text) {
    return unified_diff("a.candle", text, whole_form(text));
}

} // namespace

TEST_CASE("tokens are those of the text, with the leaves of the tree whole") {
    const std::string text = "# c \nlet a=2 1/2 fl  oz+-3\r\n\r\n";
    Sources sources;
    const FileId file = sources.add("tide.candle", text);
    Findings findings;
    const Tree tree = parse(file, sources[file], findings);
    TokenReader reader(tree);
    std::string seen;
    for (Token token = reader.next(); token.kind != TokenKind::end; token = reader.next()) {
        seen += text.substr(token.begin, token.end - token.begin) + "|";
        CHECK(token.line == (token.kind == TokenKind::comment ? 1 : 2));
        CHECK(token.line_ends == (token.begin == text.find("let") ? 1 : 0));
    }
    CHECK(findings.all().empty());
    CHECK(seen == "# c|let|a|=|2 1/2|fl  oz|+-|3|");
    CHECK(reader.next().kind == TokenKind::end);
}

TEST_CASE("blanks stand as people write them") {
    CHECK(value("70C") == "70 °C");
    CHECK(value("70   C - 2C°") == "70 °C - 2 C°");
    CHECK(value("7 %  of   wax") == "7% of wax");
    CHECK(value("( 1 g+-0.1 )  *  2") == "(1 g +- 0.1) * 2");
    CHECK(value("$ 7.25/h") == "$7.25/h");
    CHECK(value("£7   per\tlb") == "£7 per lb");
    CHECK(value("3 parts  b  +  1 part c  by   volume") == "3 parts b + 1 part c by volume");
    CHECK(value("\"a  b\"") == "\"a  b\"");
    CHECK(value("70 °C closed  cup") == "70 °C closed cup");
}

TEST_CASE("numbers stay as they are written, and of units a few spellings do not") {
    CHECK(value("1   1/2 lbs") == "1 1/2 lbs");
    CHECK(value("14.50 mL") == "14.50 ml");
    CHECK(value("1 g/mL") == "1 g/ml");
    CHECK(value("1 fl oz per L") == "1 fl oz per l");
    CHECK(value("1 J/g/C") == "1 J/g/C"); // a difference, and no reading
    CHECK(value("1 mLx") == "1 mLx");
    CHECK(value("158F") == "158 °F");
}

TEST_CASE("a statement has a line of its own") {
    CHECK(form("vessel a{of:tin,fill:1 l}") == "vessel a {\n  of:   tin\n  fill: 1 l\n}\n");
    CHECK(form("vessel a { }") == "vessel a {\n}\n");
    CHECK(form("recipe a { steps { lid } }") == "recipe a {\n  steps {\n    lid\n  }\n}\n");
    CHECK(form("let a = 1 +\n2") == "let a = 1 +\n  2\n");
    CHECK(form("use a,\nb") == "use a,\n  b\n");
    CHECK(form("wax a {\nlong: b +\nc\n}") == "wax a {\n  long: b +\n        c\n}\n");
}

TEST_CASE("blank lines are kept, one of several, and a block has one below it") {
    CHECK(form("\n\nuse a\n\n\n\nuse b\n\n\n") == "use a\n\nuse b\n");
    CHECK(form("wax a {\n\n  b: 1\n\n\n  c: 1\n\n}\nuse b") ==
          "wax a {\n  b: 1\n\n  c: 1\n}\n\nuse b\n");
    CHECK(form("") == "");
    CHECK(form(" \n\t\n") == "");
    CHECK(form("\xEF\xBB\xBF") == "");
}

TEST_CASE("comments are kept where they are") {
    CHECK(form("#a\n  # b \nuse c#d") == "#a\n# b\nuse c  #d\n");
    CHECK(form("use a # 1\nuse bcd # 2\n\nuse e # 3") ==
          "use a    # 1\nuse bcd  # 2\n\nuse e  # 3\n");
    CHECK(form("wax a { # b\n# c\n} # d") == "wax a {  # b\n  # c\n}  # d\n");
    CHECK(form("let a = b + # 1\n# 2\nc # 3") == "let a = b +  # 1\n  # 2\n  c  # 3\n");
}

TEST_CASE("what can't be read has no canonical form") {
    CHECK(form("use") == "mistakes");
    CHECK(form("wax a {") == "mistakes");
    CHECK(form("wax a {} x") == "mistakes");
    CHECK(form("# \x01") == "mistakes");
    CHECK(form("# \xFF") == "mistakes");
    const std::string deep(deepest_nesting, '('), end(deepest_nesting, ')');
    CHECK(form("let a = (" + deep + "1" + end + ")") == "mistakes");
    CHECK(form("let a = " + deep + "1" + end) == "let a = " + deep + "1" + end + "\n");
}

TEST_CASE("each line knows the line of the source that it comes from") {
    const Tidied done = whole_form("\nwax a { b: 1, c: 2 }\nuse d,\n\n  e\n");
    CHECK(done.text == "wax a {\n  b: 1\n  c: 2\n}\n\nuse d,\n\n  e\n");
    CHECK(done.origins == std::vector<std::uint32_t>{2, 2, 2, 2, 0, 3, 4, 5});
    CHECK(whole_form("\nuse a\r\ruse b").origins == std::vector<std::uint32_t>{2, 0, 2});
}

TEST_CASE("a diff is empty where nothing changes") {
    CHECK(diff("use a\n") == "");
    CHECK(diff("") == "");
}

TEST_CASE("a diff has three lines of context, and hunks that are apart") {
    std::string lines;
    for (int i = 0; i < 7; ++i)
        lines += "use a\n";
    CHECK(diff("use  b\n" + lines + "use  c\n") ==
          "--- a.candle\n+++ a.candle\n"
          "@@ -1,4 +1,4 @@\n-use  b\n+use b\n use a\n use a\n use a\n"
          "@@ -6,4 +6,4 @@\n use a\n use a\n use a\n-use  c\n+use c\n");
    CHECK(diff("\n\n") == "--- a.candle\n+++ a.candle\n@@ -1,2 +0,0 @@\n-\n-\n");
}

TEST_CASE("a diff says where the last line has no end") {
    CHECK(diff("use a") == "--- a.candle\n+++ a.candle\n@@ -1 +1 @@\n-use a\n"
                           "\\ No newline at end of file\n+use a\n");
    CHECK(diff("use  a\r\n").find("-use  a\r\n+use a\n") != std::string::npos);
}

TEST_CASE("a diff quotes a name that would end its line") {
    const Tidied done = whole_form("use  a\n");
    CHECK(unified_diff("a b", "use  a\n", done).starts_with("--- a b\t\n+++ a b\t\n@@"));
    CHECK(unified_diff("a\n\"\\", "use  a\n", done).starts_with("--- \"a\\012\\\"\\\\\"\n"));
}
