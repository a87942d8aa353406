// Semantic tokens.
#include <algorithm>

#include <doctest/doctest.h>

#include "editor_desk.hpp"
#include "editor_files.hpp"
#include "units/quantity.hpp"

namespace waxwright {

using test::EditorDesk;

namespace {

struct Decoded {
    std::string text;
    std::string type;
    std::uint32_t modifiers;
    std::uint32_t begin; // bytes
};

/// As a client reads them. Fails where one is not within its line, or not behind the one before.
std::vector<Decoded> decoded(const std::string& text, const Json& tokens,
                             Encoding encoding = Encoding::utf16) {
    const Source source("", text, false);
    const Json types = semantic_token_types();
    const auto data = tokens["data"].get<std::vector<std::uint32_t>>();
    REQUIRE(data.size() % 5 == 0);
    std::vector<Decoded> found;
    std::uint32_t line = 0, character = 0, end = 0;
    for (std::size_t i = 0; i < data.size(); i += 5) {
        if (data[i] > 0) character = 0;
        line += data[i];
        character += data[i + 1];
        REQUIRE(line < source.line_count());
        const auto offset = [&](std::uint32_t at) {
            const Json position{{"line", line}, {"character", at}};
            const std::uint32_t place = offset_of(source, position, encoding);
            CHECK(position_of(source, place, encoding) == position); // within its line
            return place;
        };
        const std::uint32_t begin = offset(character);
        CHECK(begin >= end);
        end = offset(character + data[i + 2]);
        CHECK(end > begin);
        REQUIRE(data[i + 3] < types.size());
        found.push_back({text.substr(begin, end - begin), types[data[i + 3]], data[i + 4], begin});
    }
    return found;
}

/// "keyword:use namespace:waxes/2", modifiers behind the stroke.
std::string shown(const std::vector<Decoded>& tokens) {
    std::string all;
    for (const Decoded& each : tokens) {
        all += (all.empty() ? "" : " ") + each.type + ":" + each.text;
        if (each.modifiers != 0) all += "/" + std::to_string(each.modifiers);
    }
    return all;
}

std::string tokens_of(const std::string& text) {
    EditorDesk desk;
    desk.open("/desk/a.candle", text);
    return shown(decoded(text, desk.ask("textDocument/semanticTokens/full", "/desk/a.candle")));
}

} // namespace

TEST_CASE("statements") {
    CHECK(tokens_of("language 1 # é\nuse waxes, \"b.candle\"\ncurrency GBP\n") ==
          "keyword:language number:1 comment:# é keyword:use namespace:waxes/2 "
          "string:\"b.candle\" keyword:currency enumMember:GBP");
    CHECK(tokens_of("let house = 6 % of wax\nlet t = (house + 2) * 1/2 +- 1\n") ==
          "keyword:let variable:house/1 operator:= number:6 enumMember:% keyword:of keyword:wax "
          "keyword:let variable:t/1 operator:= variable:house operator:+ number:2 operator:* "
          "number:1/2 operator:+- number:1");
}

TEST_CASE("blocks, names of the library and of one's own, choices, units") {
    CHECK(tokens_of("use waxes\nwax dune like soy {\n  sold: by-us\n}\npot can {\n"
                    "  heated: water-bath\n  bath: 2 l hot\n}\n") ==
          "keyword:use namespace:waxes/2 type:wax class:dune/1 keyword:like class:soy/2 "
          "property:sold type:pot class:can/1 property:heated enumMember:water-bath property:bath "
          "number:2 enumMember:l enumMember:hot");
    CHECK(tokens_of("vessel tub {\n}\nrecipe r {\n  makes: 6 tub\n  price: $4.50\n}\n") ==
          "type:vessel class:tub/1 type:recipe class:r/1 property:makes number:6 class:tub "
          "property:price enumMember:$ number:4.50");
    CHECK(tokens_of("substance s {\n  m-factor: 10 acute, 1 chronic\n"
                    "  specific-limit: 5% eye-irrit-2\n}\n") ==
          "type:substance class:s/1 property:m-factor number:10 enumMember:acute number:1 "
          "enumMember:chronic property:specific-limit number:5 enumMember:% "
          "enumMember:eye-irrit-2");
}

TEST_CASE("steps") {
    CHECK(tokens_of("recipe r {\n  steps {\n    set wick\n    off heat\n"
                    "    add scent at 70 °C, stir 2 min because \"so\"\n  }\n"
                    "  allow headspace because \"so\"\n}\nbatch b {\n  pour 6 r\n}\n") ==
          "type:recipe class:r/1 keyword:steps function:set function:wick function:off "
          "function:heat function:add property:scent keyword:at number:70 enumMember:°C "
          "function:stir number:2 enumMember:min keyword:because string:\"so\" keyword:allow "
          "enumMember:headspace keyword:because string:\"so\" type:batch class:b/1 keyword:pour "
          "number:6 class:r");
}

TEST_CASE("nothing is said of a line that can't be read, nor of a name that is unknown") {
    CHECK(tokens_of("let a = = 1 # x\nlet b = nothing-such\n") ==
          "keyword:let variable:b/1 operator:=");
    CHECK(tokens_of("wax two words {\n  about: \"x\"\n}\nabout: 1\n}\n") ==
          "property:about string:\"x\"");
}

TEST_CASE("a part of a text has the tokens that touch it, from its begin") {
    EditorDesk desk;
    const std::string text = "let a = 1\nlet b = 2\nlet c = 3\n";
    desk.open("/desk/a.candle", text);
    const Json tokens = desk.ask(
        "textDocument/semanticTokens/range", "/desk/a.candle",
        {{"range",
          {{"start", {{"line", 1}, {"character", 4}}}, {"end", {{"line", 2}, {"character", 0}}}}}});
    CHECK(shown(decoded(text, tokens)) == "variable:b/1 operator:= number:2");
}

TEST_CASE("every recipe file: tokens in order, each what its words are") {
    for (const char* folder : {"examples", "tests/corpus"}) {
        for (const auto& [path, text] : test::recipe_files(folder)) {
            for (const std::size_t end : {text.size(), text.size() / 2, text.size() * 4 / 5}) {
                const std::string what = path + " to " + std::to_string(end);
                INFO(what);
                const std::string half = test::cut_off(text, end);
                EditorDesk desk;
                desk.open(path, half);
                for (const Decoded& each :
                     decoded(half, desk.ask("textDocument/semanticTokens/full", path))) {
                    INFO(each.type << " " << each.text);
                    const bool dated = each.text.size() >= 10 && each.text[4] == '-';
                    if (each.type == "number") CHECK((dated || read_number(each.text).has_value()));
                    if (each.type == "string")
                        CHECK((each.text.front() == '"' || each.text.find(' ') == each.text.npos));
                    if (each.type == "comment") CHECK(each.text.front() == '#');
                    if (each.type == "keyword")
                        CHECK(each.text.find_first_of("0123456789#\"=") == each.text.npos);
                    if (each.type == "operator") CHECK(each.text.size() <= 2);
                }
            }
        }
    }
}

TEST_CASE("lengths are in the client's units") {
    for (const Encoding encoding : {Encoding::utf8, Encoding::utf16, Encoding::utf32}) {
        EditorDesk desk(EditorDesk::Disk(),
                        {{"general", {{"positionEncodings", {word(encoding)}}}}});
        const std::string text = "wax a {\n  about: \"\xF0\x9F\x95\xAF\" # \xF0\x9F\x95\xAF x\n}\n";
        desk.open("/desk/a.candle", text);
        const Json tokens = desk.ask("textDocument/semanticTokens/full", "/desk/a.candle");
        CHECK(shown(decoded(text, tokens, encoding)) ==
              "type:wax class:a/1 property:about string:\"\xF0\x9F\x95\xAF\" "
              "comment:# \xF0\x9F\x95\xAF x");
    }
}

} // namespace waxwright
