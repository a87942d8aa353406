// The label of each market: its cautions, net quantity, editions and room.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "label_bench.hpp"

using namespace waxwright;
using namespace waxwright::label_bench;
using doctest::Approx;

TEST_CASE("the markets are the words that `sells-in` takes") {
    const PropertyInfo* info = find_property(BlockKind::maker, Key::sells_in);
    REQUIRE(info != nullptr);
    std::string words;
    for (const Market market : all_markets()) {
        words += (words.empty() ? "" : " ") + std::string(word(market));
        CHECK(find_market(word(market)) == market);
    }
    CHECK(info->words == words);
    CHECK(market_meant("uk") == Market::gb);
    CHECK(market_meant("UK") == Market::gb);
    CHECK(market_meant("Usa") == Market::us);
    CHECK(market_meant("EU") == Market::eu);
    CHECK_FALSE(market_meant("gb").has_value());
    CHECK_FALSE(market_meant("").has_value());
}

TEST_CASE("the United States: alert symbol, WARNING behind it, then the three messages") {
    // ASTM F2058-07(2021): the symbol followed at once by WARNING in capitals, by its abstract; the
    // three messages by a trade association's page (check value 42).
    const Label label = labels(known)[0];
    CHECK(label.fire.head == FireHead::safety_alert);
    CHECK(label.fire.word == "WARNING");
    CHECK(label.hazards.source == HazardSource::other_law);
    const std::string text = all_text(label);
    const std::size_t head = place(text, "\u26A0 WARNING\n");
    const std::size_t sight = place(text, "out of your sight");
    const std::size_t things = place(text, "anything that can catch fire");
    const std::size_t children = place(text, "children");
    CHECK(head < sight);
    CHECK(sight < things);
    CHECK(things < children);
}

TEST_CASE("Europe: the general warning sign, then three that are always there") {
    // EN 15494:2019, by two public lists; its symbols are 5 mm high at the least, by a test house's
    // newsletter (check value 43).
    for (const std::size_t market : {1u, 2u}) {
        const Label label = labels(known)[market];
        CHECK(label.fire.head == FireHead::general_warning);
        CHECK(label.fire.word.empty());
        REQUIRE(label.fire.cautions.size() > 3);
        CHECK(label.fire.cautions[0].sign == CautionSign::within_sight);
        CHECK(label.fire.cautions[1].sign == CautionSign::children_and_pets);
        CHECK(label.fire.cautions[2].sign == CautionSign::things_that_burn);
        for (std::size_t i = 0; i < label.fire.cautions.size(); ++i)
            CHECK(label.fire.cautions[i].required == (i < 3));
        CHECK(label.sizes.symbol_mm >= 5);
    }
}

TEST_CASE("what the maker says of burning, and nothing that nobody said") {
    const auto has = [](const Label& label, CautionSign sign) {
        return std::ranges::any_of(label.fire.cautions,
                                   [&](const FireCaution& one) { return one.sign == sign; });
    };
    const Label plain = labels(known)[1];
    CHECK(has(plain, CautionSign::trim));
    CHECK_FALSE(has(plain, CautionSign::longest_burn));
    CHECK_FALSE(has(plain, CautionSign::apart));
    const std::string burned = std::string(known) +
                               "recipe two like candle { apart: 10 cm }\n"
                               "test-burn one { of: two, on: 2026-10-01, after: 3 h, left: 8 mm, "
                               "verdict: pass }\n";
    const Label told = labels(burned, "two")[0];
    CHECK_FALSE(told.not_burned);
    CHECK(has(told, CautionSign::longest_burn));
    CHECK(has(told, CautionSign::apart));
    const std::string text = all_text(told);
    place(text, "3 h at a time");
    place(text, "100 mm (3.94 in)");
    const std::string failed =
        std::string(known) + "test-burn one { of: candle, on: 2026-10-01, verdict: fail }\n";
    CHECK(labels(failed)[0].not_burned);
}

TEST_CASE("a batch's label has its lot and its days; a test from after it doesn't count") {
    const std::string batch =
        std::string(known) +
        "batch fair { starts: 2026-12-01 09:00\n lot: \"L-1\"\n pour 3 candle\n }\n"
        "test-burn one { of: candle, on: 2026-12-02, left: 8 mm, verdict: pass }\n";
    const Label label = labels(batch, "fair")[1];
    CHECK(label.lot == "L-1");
    CHECK(label.count == 3);
    REQUIRE(label.made_on.has_value());
    CHECK(show(*label.made_on) == "2026-12-01");
    CHECK(label.not_burned);
    const Label alone = labels(batch)[1];
    CHECK(alone.lot.empty());
    CHECK_FALSE(alone.not_burned);
}

TEST_CASE("net quantity: both figures and which is enforced, or the errors tolerated") {
    const auto all = labels(known);
    CHECK(all[0].net.words == "Net Wt 3.5 oz (100 g)");
    CHECK(all[0].net.enforced == "100 g"); // 3.5 x 28.3495 = 99.2 g is less
    CHECK(all[0].net.average_g == Approx(100));
    CHECK(all[1].net.words == "100 g");
    CHECK(all[1].net.tolerable_g == Approx(4.5));
    CHECK(all[1].net.least_of_any_g == Approx(91));
    CHECK(all[1].net.e_mark_open);
    CHECK(all[1].net.figure_height_mm == 3);
    // 120 ml / (0.95 / 0.86 + 0.05 / 0.89), by hand
    REQUIRE(all[1].net.low_g.has_value());
    CHECK(*all[1].net.low_g == Approx(103.374).epsilon(1e-5));
    const auto ounces =
        labels(std::string(known) + "recipe two like candle { net: 3.5 oz }\n", "two");
    CHECK(ounces[0].net.words == "Net Wt 3.5 oz (99 g)");
    CHECK(ounces[0].net.enforced == "3.5 oz");
    CHECK(ounces[1].net.words == "99 g");
}

TEST_CASE("a doubtful fill counts with its high end: for the sizes, and for what may be left off") {
    const auto with = [](std::string_view fill) {
        return labels(std::string(known) + "vessel other like jar { fill: " + std::string(fill) +
                          " }\nrecipe two like candle { makes: 6 other, net: 90 g }\n",
                      "two")[1];
    };
    const Label at_most = with("120 ml +- 5"); // 125 ml at the most: H411 may go still
    CHECK(at_most.sizes.contents_ml == Approx(120));
    CHECK(at_most.sizes.most_ml == Approx(125));
    REQUIRE(at_most.hazards.hazards.size() == 2);
    CHECK(at_most.hazards.hazards[1].may_go);
    CHECK_FALSE(with("120 ml +- 5.1").hazards.hazards[1].may_go);
    CHECK_FALSE(with("125.1 ml").hazards.hazards[1].may_go);
    CHECK(with("490 ml").sizes.x_height_mm == Approx(1.2));
    CHECK(with("490 ml +- 20").sizes.x_height_mm == Approx(1.4));
    const std::string text = markdown_labels({&at_most, 1});
    CHECK(text.find("One holds 120 ml, and 125 ml at the high end") != std::string::npos);
}

TEST_CASE("what a vessel has room for: once round its outside, and up to its mouth") {
    const Label label = labels(known)[1];
    // A bore of 58 mm and 2 mm of glass on each side: 62 × π. 120 ml at 26.42 cm² are 45.4 mm, and
    // 10 mm are free above it.
    CHECK(label.sizes.around_mm == Approx(194.78).epsilon(1e-4));
    CHECK(label.sizes.tall_mm == Approx(55.42).epsilon(1e-3));
    CHECK_FALSE(label.sizes.tall_is_said);
    const Label deep = labels(
        std::string(known) +
            "vessel tin like jar { of: tin, bore: 60 mm\n inside: 60 mm across, 80 mm deep\n "
            "}\nrecipe two like candle { makes: 6 tin }\n",
        "two")[1];
    CHECK(deep.sizes.around_mm == Approx(188.5).epsilon(1e-3));
    CHECK(deep.sizes.tall_mm == Approx(80));
    CHECK(deep.sizes.tall_is_said);
}

TEST_CASE("Great Britain has editions of its own, and nothing that is the Union's alone") {
    const auto all = labels(std::string(known) + "recipe two like candle { net: 1200 g, makes: 2 "
                                                 "big }\nvessel big like jar { fill: 1.5 l }\n",
                            "two");
    const std::string eu = markdown_labels({&all[1], 1}), gb = markdown_labels({&all[2], 1});
    for (const std::string_view only : {"2024/2865", "2025/2439", "UFI", "2023/988", "x-height"}) {
        CAPTURE(only);
        CHECK(gb.find(only) == std::string::npos);
    }
    for (const std::string_view its : {"GB CLP", "BS EN 15494",
                                       "Weights and Measures (Packaged "
                                       "Goods) Regulations 2006"}) {
        CAPTURE(its);
        CHECK(gb.find(its) != std::string::npos);
        CHECK(eu.find(its) == std::string::npos);
    }
    CHECK(eu.find("2024/2865") != std::string::npos);
    CHECK(all[2].sizes.x_height_mm == 0);
    // Over 1 kg the error isn't from the directive's own text.
    CHECK(eu.find("the error over 1 kg from an encyclopaedia's page") != std::string::npos);
    CHECK(markdown_labels({&labels(known)[1], 1}).find("encyclopaedia") == std::string::npos);
}

TEST_CASE("a place of business in the United States has city, state and ZIP code") {
    for (const std::string_view good :
         {"12 Saltmarsh Lane, Little Creek, ME 04999", "Little Creek, Maine 04999-1234",
          "PO Box 4, Little Creek ME 04999, USA", "Old Pump House\nLittle Creek, me  04999"}) {
        CAPTURE(good);
        CHECK(looks_like_us_place(good));
    }
    for (const std::string_view lacks :
         {"", "04999", "ME 04999", "Saltmarsh Lane, Little Creek", "Little Creek, ME 0499",
          "12345 Saltmarsh Lane", "Unit 3, 12345 Saltmarsh Lane", "Little Creek, 04999 ME"}) {
        CAPTURE(lacks);
        CHECK_FALSE(looks_like_us_place(lacks));
    }
    const auto missing = [](std::string_view address, std::size_t market) {
        const Label label =
            labels(std::string(known) + "maker me { title: \"A\", address: \"" +
                   std::string(address) + "\", phone: \"C\", sells-in: us, eu }\n")[market];
        return std::ranges::any_of(label.missing, [](const std::string& each) {
            return each.find("ZIP") != std::string::npos;
        });
    };
    CHECK(missing("Saltmarsh Lane", 0));
    CHECK_FALSE(missing("Saltmarsh Lane", 1));
    CHECK_FALSE(missing("Saltmarsh Lane, Little Creek, ME 04999", 0));
}

TEST_CASE("the text has what is drawn in its order, in the words of its market") {
    Label label = labels(known)[1];
    const std::string text = all_text(label);
    CHECK(place(text, "May cause an allergic") < place(text, "Contains wrack."));
    CHECK(place(text, "Contains wrack.") < place(text, "Keep out of reach of children."));
    label.hazards.signal.clear();
    for (const std::string& line : label_lines(label))
        CHECK_FALSE(line.ends_with(' '));
    place(text, "no draught.");
    place(all_text(labels(known)[0]), "no draft.");
    for (const std::string_view apart : {"100 mm", "10 cm", "4 in"}) {
        CAPTURE(apart);
        const Label told =
            labels(std::string(known) + "recipe two like candle { apart: " + std::string(apart) +
                       ", stop-at: 1/2 in }\n",
                   "two")[1];
        CHECK(all_text(told).find(" in)") == std::string::npos);
        CHECK(all_text(told).find(" in ") == std::string::npos);
    }
    const std::string part = markdown_label_part({&label, 1});
    place(part, "`sells-in`");
    place(part, "`waxwright label --for eu`");
}

TEST_CASE("what a maker writes can't become markup or another line") {
    const std::string text = markdown_labels(
        labels(std::string(known) +
               "maker me { title: \"A\\n# B ``` *c*\", address: \"D\", phone: \"E\", sells-in: eu "
               "}\n"));
    CHECK(text.find("\n# B") == std::string::npos);
    CHECK(text.find("\n    A # B ``` *c*\n") != std::string::npos);
}

TEST_CASE("what to do about notes may be spared, and all else stays") {
    const auto found = [](NoteHints hints) {
        Sources sources;
        sources.add("a.candle", std::string(bench) + std::string(known) +
                                    "oil silent { density: 0.9 g/ml }\n"
                                    "recipe two like candle { scent: 50% oil-of-it + 50% silent }\n"
                                    "maker me { title: \"A\", sells-in: eu }\n");
        Workshop shop = open_workshop(
            std::move(sources), [](const std::string&) { return std::optional<std::string>(); });
        shop.note_hints = hints;
        work(shop);
        return shop.findings.all();
    };
    const auto all = found(NoteHints::wanted), spared = found(NoteHints::spared);
    REQUIRE(all.size() == spared.size());
    std::size_t shorter = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        CHECK(all[i].message == spared[i].message);
        CHECK(all[i].severity == spared[i].severity);
        CHECK(all[i].subjects.size() == spared[i].subjects.size());
        if (all[i].severity != Severity::note) CHECK(all[i].hint == spared[i].hint);
        shorter += spared[i].hint.size() < all[i].hint.size();
    }
    CHECK(shorter >= 2); // hazard-class, contents-unknown
}
