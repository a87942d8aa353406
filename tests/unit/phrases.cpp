// The phrase book's own text work; its rows and lines are tried by tests/phrases.py.
#include <doctest/doctest.h>

#include "model/phrase_slips.hpp"

namespace waxwright {

TEST_CASE("neat lines: one blank, units behind numbers, decimal commas") {
    CHECK(neat_line("bore:  3   inches") == "bore: 3 in");
    CHECK(neat_line("brimful: 1,5 litres") == "brimful: 1.5 l");
    CHECK(neat_line("brimful: 1,500 ml") == "brimful: 1,500 ml"); // thousands, it may be
    CHECK(neat_line("spare: 0,125 l") == "spare: 0.125 l");
    CHECK(neat_line("fill: 9 fluid  ounces") == "fill: 9 fl oz");
    CHECK(neat_line("stir 2 mins") == "stir 2 min");
    CHECK(neat_line("leave 4 h  # or  so") == "leave 4 h  # or  so");
    CHECK(neat_line("title: \"2  ounces\"") == "title: \"2  ounces\"");
    CHECK(neat_line("makes: 6 inch-tins") == "makes: 6 inch-tins"); // a name
    CHECK(neat_line("starts: 2026-12-05 09:00") == "starts: 2026-12-05 09:00");
    CHECK(neat_line("add 2 gr") == "add 2 gr"); // grams or grains
    CHECK(neat_line("").empty());
}

TEST_CASE("dates as people write them") {
    using Texts = std::vector<std::string>;
    CHECK(dates_meant("12 December 2026 9:00").dates == Texts{"2026-12-12 09:00"});
    CHECK(dates_meant("Dec 5th, 2026").dates == Texts{"2026-12-05"});
    CHECK(dates_meant("5.12.2026 9:30 pm").dates == Texts{"2026-12-05 21:30"});
    CHECK(dates_meant("5.12.2026 12 am").dates == Texts{"2026-12-05 00:00"});
    CHECK(dates_meant("5/12/2026").dates == Texts{"2026-12-05", "2026-05-12"});
    CHECK(dates_meant("25/12/2026").dates == Texts{"2026-12-25"});
    CHECK(dates_meant("12/25/2026").dates == Texts{"2026-12-25"});
    CHECK(dates_meant("31.2.2026").dates.empty());
    CHECK(dates_meant("5.12.26").dates.empty()); // which century is left to the maker
    CHECK(dates_meant("tomorrow at 9:00").dates.empty());
    CHECK(dates_meant("99999999999").dates.empty());
    CHECK(dates_meant("2026-12-5 9:00").certain);
    CHECK_FALSE(dates_meant("2026/12/5").certain);
    CHECK_FALSE(dates_meant("2026-13-5").certain);
}

TEST_CASE("the block around a line") {
    constexpr std::string_view text = "vessel jar {\n  brimful: 9 fl oz\n  width: 3 in\n}\n\n"
                                      "oil rose {\n  max: 3%\n}\n";
    const BlockAround jar = block_around(text, text.find("width"));
    CHECK(jar.kind == BlockKind::vessel);
    CHECK(jar.has("brimful"));
    CHECK_FALSE(jar.has("fill"));
    CHECK_FALSE(jar.has("max"));
    CHECK(block_around(text, text.find("max")).kind == BlockKind::oil);
    CHECK(block_around("width: 3 in", 2).kind == BlockKind::unknown);
    CHECK(declared_in(text).at("rose") == BlockKind::oil);
}

} // namespace waxwright
