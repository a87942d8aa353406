#include "source/source.hpp"

#include <string>

#include <doctest/doctest.h>

#include "source/path.hpp"
#include "source/utf8.hpp"

using namespace waxwright;

namespace {

Source source(std::string text) {
    return Source("t.candle", std::move(text), false);
}

/// Place of the first `what` in the text.
Place place_of(const Source& source, std::string_view what) {
    return source.place(static_cast<std::uint32_t>(source.text().find(what)));
}

} // namespace

TEST_CASE("columns behind a character outside the basic plane") {
    // Language Server Protocol 3.17, its example of position encodings: text `a` U+10400 `b`, the b
    // is UTF-16 unit 3, code point 2 and byte 5, all from 0. Here they count from 1.
    const Source s = source("a\U00010400b");
    const Place b = place_of(s, "b");
    CHECK(b.utf16 == 4);
    CHECK(b.column == 3);
    CHECK(b.byte == 6);
    CHECK(b.line == 1);
}

TEST_CASE("columns behind quotes, an accent and an emoji") {
    const Source s = source("wick \u201C\u00E9\U0001F56F\u201D 8%");
    const Place eight = place_of(s, "8");
    CHECK(eight.byte == 19);
    CHECK(eight.utf16 == 12);
    CHECK(eight.column == 11);
}

TEST_CASE("tabs stop every eight columns") {
    // GNU Coding Standards, "Formatting Error Messages": tab stops every 8 columns.
    CHECK(place_of(source("\tx"), "x").display == 9);
    CHECK(place_of(source("\tx"), "x").column == 2);
    CHECK(place_of(source("1234567\tx"), "x").display == 9);
    CHECK(place_of(source("12345678\tx"), "x").display == 17);
    CHECK(place_of(source("\u4E2D\tx"), "x").display == 9);
}

TEST_CASE("display width of wide characters and marks") {
    CHECK(place_of(source("蜡x"), "x").display == 3);
    CHECK(place_of(source("\U0001F56Fx"), "x").display == 2); // a candle: text by default, narrow
    CHECK(place_of(source("\U0001F525x"), "x").display == 3); // a fire: emoji by default, wide
    CHECK(place_of(source("e\u0301x"), "x").display == 2);
    CHECK(place_of(source("e\u0301x"), "x").column == 3);
    CHECK(display_width('a') == 1);
    CHECK(display_width(0xE9) == 1);
    CHECK(display_width(0xB0) == 1);
    CHECK(display_width(0x200B) == 0);
    CHECK(display_width(0xFE0F) == 0);
    CHECK(display_width(0x1100) == 2);
    CHECK(display_width(0xFF21) == 2);
    CHECK(display_width(0x10FFFF) == 1);
}

TEST_CASE("every kind of line end ends a line") {
    const Source s = source("a\nbb\r\ncc\rd\n\re");
    CHECK(s.line(1) == "a");
    CHECK(s.line(2) == "bb");
    CHECK(s.line(3) == "cc");
    CHECK(s.line(4) == "d");
    CHECK(s.line(5) == "");
    CHECK(s.line(6) == "e");
    CHECK(s.line(0) == "");
    CHECK(s.line(7) == "");
    CHECK(place_of(s, "cc").line == 3);
    CHECK(place_of(s, "e").line == 6);
    CHECK(place_of(s, "e").column == 1);
}

TEST_CASE("a place in a line end is the end of the line") {
    const Source s = source("ab\r\ncd\n");
    for (const std::uint32_t offset : {2u, 3u}) {
        CHECK(s.place(offset).line == 1);
        CHECK(s.place(offset).column == 3);
        CHECK(s.place(offset).byte == 3);
    }
    CHECK(s.place(6).line == 2);
    CHECK(s.place(6).column == 3);
    CHECK(s.place(7).line == 3); // behind the last line end
    CHECK(s.place(7).column == 1);
    CHECK(s.place(999).line == 3);
}

TEST_CASE("an empty file has one line") {
    const Source s = source("");
    CHECK(s.place(0).line == 1);
    CHECK(s.place(0).column == 1);
    CHECK(s.place(5).line == 1);
    CHECK(s.line(1) == "");
    CHECK(s.mark_length() == 0);
}

TEST_CASE("a byte order mark is no column") {
    const Source s = source("\xEF\xBB\xBFwax\nwick");
    CHECK(s.mark_length() == 3);
    CHECK(s.line(1) == "wax");
    CHECK(place_of(s, "wax").column == 1);
    CHECK(place_of(s, "wax").byte == 1);
    CHECK(s.place(0).column == 1);
    CHECK(s.place(1).column == 1);
    CHECK(place_of(s, "x").column == 3);
    CHECK(place_of(s, "wick").line == 2);
    // Anywhere else it is a character like others.
    CHECK(place_of(source("a\xEF\xBB\xBFx"), "x").column == 3);
}

TEST_CASE("a byte that is no UTF-8 is one column") {
    CHECK(place_of(source("\xFF\xFEx"), "x").column == 3);
    CHECK(place_of(source("\xFF\xFEx"), "x").display == 3);
    CHECK(place_of(source("\xE2\x82x"), "x").column == 3);         // cut short
    CHECK(place_of(source("\xC0\xAFx"), "x").column == 3);         // overlong
    CHECK(place_of(source("\xED\xA0\x80x"), "x").column == 4);     // a surrogate
    CHECK(place_of(source("\xF4\x90\x80\x80x"), "x").column == 5); // over U+10FFFF
    CHECK(place_of(source("\xFF\xFEx"), "x").utf16 == 3);
}

TEST_CASE("the middle of a character has its columns") {
    const Source s = source("a\U00010400b");
    for (std::uint32_t offset = 1; offset < 5; ++offset)
        CHECK(s.place(offset).column == 2);
}

TEST_CASE("the first byte that is not UTF-8") {
    CHECK(first_bad_utf8("") == 0);
    CHECK(first_bad_utf8("wax") == 3);
    CHECK(first_bad_utf8("75 °C, 蜡, \U0001F525") ==
          std::string_view("75 °C, 蜡, \U0001F525").size());
    CHECK(first_bad_utf8("ab\x80") == 2);
    CHECK(first_bad_utf8("ab\xC3") == 2);
    CHECK(first_bad_utf8("ab\xE0\x80\x80") == 2);
    CHECK(first_bad_utf8("ab\xF8\x88\x80\x80\x80") == 2);
    CHECK(first_bad_utf8("\xED\x9F\xBF") == 3); // U+D7FF, the last before the surrogates
    CHECK(first_bad_utf8("\xF4\x8F\xBF\xBF") == 4);
}

TEST_CASE("a span past the end is cut") {
    const Source s = source("wax");
    CHECK(s.slice({0, 1, 3}) == "ax");
    CHECK(s.slice({0, 2, 99}) == "x");
    CHECK(s.slice({0, 9, 99}) == "");
}

TEST_CASE("a source stays where it is while others are added") {
    Sources sources;
    const FileId first = sources.add("a", "one", false);
    const Source* at = &sources[first];
    for (int i = 0; i < 100; ++i)
        sources.add("b", "two", true);
    CHECK(&sources[first] == at);
    CHECK(sources.size() == 101);
    CHECK(sources.slice({first, 0, 2}) == "on");
    CHECK(sources[5].is_library());
    CHECK_FALSE(sources[first].is_library());
}

TEST_CASE("paths as text") {
    CHECK(path_from("", "a.candle") == "a.candle");
    CHECK(path_from("shop/one.candle", "bench.candle") == "shop/bench.candle");
    CHECK(path_from("shop/one.candle", "./x/../bench.candle") == "shop/bench.candle");
    CHECK(path_from("one.candle", "../bench.candle") == "../bench.candle");
    CHECK(path_from("../one.candle", "../bench.candle") == "../../bench.candle");
    CHECK(path_from("/a/b/one.candle", "../../../bench.candle") == "/bench.candle");
    CHECK(path_from("shop/one.candle", "/bench//b.candle") == "/bench/b.candle");
    CHECK(relative_path("/a/b/c.candle", "/a/b") == "c.candle");
    CHECK(relative_path("/a/c.candle", "/a/b") == "../c.candle");
    CHECK(relative_path("/x/c.candle", "/a/b/") == "../../x/c.candle");
}
