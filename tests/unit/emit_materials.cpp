#include "emit/materials.hpp"

#include <doctest/doctest.h>

#include "emit/material_parts.hpp"
#include "emit/material_source.hpp"
#include "emit/material_units.hpp"
#include "pipeline/pipeline.hpp"

using namespace waxwright;

namespace {

using Keys = std::vector<Key>;

/// A file of blocks, read.
class Shelf {
public:
    explicit Shelf(std::string_view blocks) : sources_(with(blocks)), shop_(read(sources_)) {
        REQUIRE_FALSE(shop_.findings.has_errors());
    }

    std::string again(Key key) const {
        const Entry* entry = shop_.model.entry(0, key);
        REQUIRE(entry != nullptr);
        return said_again(shop_.model, *entry);
    }
    bool doubtful(Key key) const { return is_doubtful(*shop_.model.entry(0, key)); }
    std::string page() const { return material_page(shop_.model, 0); }

private:
    static Sources with(std::string_view blocks) {
        Sources sources;
        sources.add("a.candle", "language 1\n" + std::string(blocks));
        return sources;
    }
    static Workshop read(Sources& sources) {
        return open_workshop(std::move(sources),
                             [](const std::string&) { return std::optional<std::string>(); });
    }

    Sources sources_;
    Workshop shop_;
};

constexpr std::string_view wax = R"(wax marsh {
  about:          "A wax"
  density:        0.92 g/ml +- 0.05 at 20 °C
  liquid-density: 0.879 g/ml at 60 °C, 0.87 g/ml +- 0.01 at 75 °C
  melts:          48 to 57 °C
  sets:           46 °C +- 2
  max-load:       10% +- 2 of wax
  ceiling:        93 °C
  flash-point:    254 °C +- 50 open cup
  cures:          7 to 14 days
  heat:           2 J/g/K +- 0.1
  source:         "density, heat: common practice, low confidence; melts: sources disagree, all seen; note: nothing more"
}
)";

} // namespace

TEST_CASE("a source is taken apart at its clauses") {
    const auto clauses = source_clauses(
        "density, heat: from memory of A, 1:2; melts: B, seen; note: C; D: E; F", BlockKind::wax);
    REQUIRE(clauses.size() == 5);
    CHECK(clauses[0].keys == Keys{Key::density, Key::heat});
    CHECK(clauses[0].grounds == "from memory of A, 1:2");
    CHECK(clauses[1].keys == Keys{Key::melts});
    CHECK(clauses[2].keys.empty());
    CHECK(clauses[2].grounds == "C");
    CHECK(clauses[3].grounds == "D: E");
    CHECK(clauses[4].grounds == "F");
    CHECK(source_clauses("", BlockKind::wax).empty());
    // A key of another kind is none here.
    CHECK(source_clauses("bore: common practice", BlockKind::wax)[0].keys.empty());
    CHECK(source_clauses("about: common practice", BlockKind::oil)[0].keys == Keys{Key::about});
}

TEST_CASE("what makes a figure doubtful is read from its grounds") {
    CHECK(stands_on("common practice, low confidence", Ground::low));
    CHECK(stands_on("common practice, low confidence", Ground::practice));
    CHECK(stands_on("from memory, source not noted", Ground::from_memory));
    CHECK(stands_on("derived from X", Ground::derived));
    CHECK(stands_on("sources disagree, X and Y", Ground::disagree));
    CHECK_FALSE(stands_on("X, seen, high confidence", Ground::low));
}

TEST_CASE("a figure is said again between its ends and in the other unit") {
    const Shelf shelf(wax);
    // 1 g/ml = 29.5735295625 / 28.349523125 oz per fl oz = 1.043176
    CHECK(shelf.again(Key::density) == "0.87 to 0.97 g/ml, 0.908 to 1.012 oz per fl oz at 68 °F");
    CHECK(shelf.again(Key::liquid_density) ==
          "0.917 oz per fl oz at 140 °F; 0.86 to 0.88 g/ml, 0.897 to 0.918 oz per fl oz at 167 °F");
    CHECK(shelf.again(Key::melts) == "118 to 135 °F"); // 118.4, 134.6
    CHECK(shelf.again(Key::sets) == "44 to 48 °C, 111 to 118 °F");
    CHECK(shelf.again(Key::ceiling) == "199 °F"); // 199.4
    // 0.10/1.10; 16 oz are a pound
    CHECK(shelf.again(Key::max_load) ==
          "8 to 12% of wax, 1.6 oz per lb of wax; 9.09% of wax and scent together");
    CHECK(shelf.again(Key::flash_point) ==
          "204 to 304 °C, 399 to 579 °F; counts as 244 °C (471 °F), since the cup is not closed");
    CHECK(shelf.again(Key::cures).empty());
    CHECK(shelf.again(Key::heat) == "1.90 to 2.10 J/g/K");
    CHECK(shelf.again(Key::about).empty());
    CHECK(shelf.doubtful(Key::density));
    CHECK(shelf.doubtful(Key::liquid_density));
    CHECK(shelf.doubtful(Key::flash_point));
    CHECK(shelf.doubtful(Key::max_load));
    CHECK_FALSE(shelf.doubtful(Key::melts));
    CHECK_FALSE(shelf.doubtful(Key::ceiling));
}

TEST_CASE("a vessel is said again in inches and fluid ounces") {
    const Shelf shelf("vessel cup-shape {\n  inside: 80 mm to 70 mm across, 90 mm deep\n"
                      "  brimful: 500 ml\n  headspace: 12.7 mm\n  bore: 75 mm +- 1\n}\n");
    CHECK(shelf.again(Key::inside) == "3.15 in to 2.76 in across, 3.54 in deep");
    CHECK(shelf.again(Key::brimful) == "16.9 fl oz");
    CHECK(shelf.again(Key::headspace) == "0.5 in");
    CHECK(shelf.again(Key::bore) == "74 to 76 mm, 2.91 to 2.99 in");
}

TEST_CASE("a page has each source beside its figure, and the doubts below") {
    const std::string page = Shelf(wax).page();
    const auto has = [&](std::string_view text) { return page.find(text) != std::string::npos; };
    CHECK(page.starts_with("wax marsh\n  A wax\n\n  density         0.92 g/ml +- 0.05 at 20 °C\n"));
    CHECK(has("at 68 °F\n                  source: common practice, low confidence\n"));
    CHECK(has("\n  note: nothing more\n"));
    CHECK(has(
        "\nWhat is doubtful\n  - low confidence: don't rely on it for a limit: density, heat\n"));
    CHECK(has("\n  - sources disagree: melts\n"));
    CHECK(has("\n  - common practice, with nothing published: density, heat\n"));
    CHECK_FALSE(has("from memory"));
    const std::string bare = Shelf("substance salt {\n  cas: \"78-70-6\"\n}\n").page();
    CHECK(bare == "substance salt\n\n  cas             \"78-70-6\"\n");
}

TEST_CASE("lines end before column 80, and a number keeps its degree") {
    CHECK(hung("  a  ", "b c") == "  a  b c\n");
    CHECK(hung("  a", "") == "  a\n");
    CHECK(wrapped("", 4) == "\n");
    const std::string long_text(70, 'x');
    CHECK(wrapped(long_text + " 10 °C y", 4) == "    " + long_text + "\n    10 °C y\n");
    CHECK(wrapped(long_text + " 99 yy", 4) == "    " + long_text + " 99\n    yy\n");
}

TEST_CASE("what an oil contains is summed, and the rest is not known") {
    const std::string substances = "substance a { hazards: skin-sens-1b, acute-tox-4-oral }\n"
                                   "substance b { hazards: none }\n";
    CHECK(Shelf("oil o { contains: 60% a + 37.2% b }\n" + substances).again(Key::contains) ==
          "97.2% of it; the other 2.8% is not known");
    CHECK(Shelf("oil o { contains: 60% a + 40% b }\n" + substances).again(Key::contains) ==
          "all of it");
    CHECK(Shelf(substances).again(Key::hazards) == "Skin Sens. 1B, Acute Tox. 4 (oral)");
    CHECK(Shelf("substance b { hazards: none }\n").again(Key::hazards).empty());
}
