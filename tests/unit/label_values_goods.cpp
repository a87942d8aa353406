// What label_values.cpp goes on with: values 36 to 45, of the net quantity, the fire label, the
// core of a wick, and money.
#include <doctest/doctest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

#include "emit/label.hpp"
#include "pipeline/pipeline.hpp"
#include "reckon/label/net_quantity.hpp"
#include "units/money.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

constexpr std::string_view bench = R"(language 1
wax dune {
  density: 0.90 g/ml at 20 °C
  melts: 48 to 54 °C
  max-load: 12% of wax
  ceiling: 90 °C
}
vessel jar { fill: 120 ml, bore: 58 mm, of: glass, made-for: candles }
)";

constexpr std::string_view plain_candle = R"(
recipe candle {
  makes: 6 jar
  wax: dune
  wick: braid
  steps {
    melt to 75 °C
    pour at 60 °C
  }
}
)";

Workshop opened(const std::string& more) {
    Sources sources;
    sources.add("a.candle", std::string(bench) + more);
    Workshop shop = open_workshop(std::move(sources),
                                  [](const std::string&) { return std::optional<std::string>(); });
    work(shop);
    return shop;
}

bool finds(const Workshop& shop, Rule rule) {
    return std::ranges::any_of(shop.findings.all(),
                               [&](const Finding& one) { return one.rule == rule; });
}

bool has_lead(const std::string& wick) {
    return finds(
        opened("wick braid { suits: 50 to 64 mm, " + wick + " }" + std::string(plain_candle)),
        Rule::lead_core);
}

std::vector<Label> labels() {
    const Workshop shop =
        opened("wick braid { suits: 50 to 64 mm, core: cotton }" + std::string(plain_candle));
    for (BlockId id = 0; id < shop.model.blocks.size(); ++id)
        if (shop.model.name(id) == "candle") return labels_of(shop, id);
    return {};
}

/// A price that has decimals which its currency hasn't.
bool refused(const std::string& price) {
    return finds(opened("wax other like dune { sold: 1 kg for " + price + " }\n"),
                 Rule::out_of_range);
}

} // namespace

TEST_SUITE("values of a label") {
    TEST_CASE("36: 8 oz are 226 g beside it, and 227 g are enforced") {
        // 16 CFR 500.19; the UPLR by a NIST fact sheet.
        CHECK(8 * label_g_per_oz == Approx(226.796));
        CHECK(label_grams(8) == 226);
        CHECK(declared_in_ounces(8)->ounces_enforced);
        CHECK(declared_in_both(8, 227)->grams_enforced);
        CHECK(declared_in_both(8, 227)->must_hold == 227);
    }

    TEST_CASE("37: 10 oz are 283 g, 12 oz 340 g") {
        // The same.
        CHECK(label_grams(10) == 283);
        CHECK(label_grams(12) == 340);
    }

    TEST_CASE("38: 300 g are 10.5 oz, or 10.58") {
        // The same.
        CHECK(300 * label_oz_per_g == Approx(10.5822));
        CHECK(label_ounces(300) == 10.5);
        CHECK(label_ounces(300, 2) == 10.58);
    }

    TEST_CASE("39: 180 g are 6.3 oz, or 6.34") {
        // The same.
        CHECK(180 * label_oz_per_g == Approx(6.34932));
        CHECK(label_ounces(180) == 6.3);
        CHECK(label_ounces(180, 2) == 6.34);
    }

    TEST_CASE("40: tolerable negative errors") {
        // Directive 76/211/EEC Annex I 2.4.
        const double rows[][2] = {{40, 3.6}, {60, 4.5}, {150, 6.75}, {200, 9},
                                  {220, 9},  {300, 9},  {400, 12},   {600, 15}};
        for (const auto& row : rows)
            CHECK(nominal_quantity(row[0])->tolerable == Approx(row[1]));
    }

    TEST_CASE("41: 201.9 g of 220 may not bear the e-mark") {
        // Directive 76/211/EEC Annex I 1.3.
        CHECK_FALSE(may_bear_e_mark(*nominal_quantity(220), 201.9));
        CHECK(may_bear_e_mark(*nominal_quantity(220), 202));
    }

    TEST_CASE("42: in the United States the symbol, WARNING, and three messages") {
        // ASTM F2058-07(2021), by its abstract.
        const auto all = labels();
        REQUIRE(all.size() == 3);
        REQUIRE(all[0].market == Market::us);
        CHECK(all[0].fire.head == FireHead::safety_alert);
        CHECK(all[0].fire.word == "WARNING");
        CHECK(std::ranges::count_if(all[0].fire.cautions, &FireCaution::required) == 3);
        const auto lines = label_lines(all[0]);
        const auto place = [&](std::string_view what) {
            return std::ranges::find_if(lines,
                                        [&](const std::string& line) {
                                            return line.find(what) != std::string::npos;
                                        }) -
                   lines.begin();
        };
        const auto end = lines.end() - lines.begin();
        for (const FireCaution& caution : all[0].fire.cautions) {
            CAPTURE(caution.text);
            CHECK(place(caution.text) < end);
            CHECK(place("WARNING") <= place(caution.text));
        }
    }

    TEST_CASE("43: in Europe the general warning sign, and three symbols of at least 5 mm") {
        // EN 15494:2019, by two public lists of its symbols.
        const auto all = labels();
        REQUIRE(all[1].market == Market::eu);
        for (const Market market : {Market::eu, Market::gb}) {
            const Label& label = all[market == Market::eu ? 1 : 2];
            CHECK(label.fire.head == FireHead::general_warning);
            CHECK(std::ranges::count_if(label.fire.cautions, &FireCaution::required) == 3);
            for (std::size_t i = 0; i < 3; ++i)
                CHECK(label.fire.cautions[i].required); // before all others
            CHECK_FALSE(label.sizes.symbol_mm < 5);
            CHECK(label.sizes.symbol_mm > 4.9);
        }
    }

    TEST_CASE("44: 0.06 % of lead in the metal of a core is the most") {
        // 16 CFR 1500.12(a)(2).
        CHECK_FALSE(has_lead("core: zinc, lead: 0.06%"));
        CHECK(has_lead("core: zinc, lead: 0.061%"));
        CHECK(has_lead("core: tin, lead: 0.05% +- 0.02%")); // at the end of its doubt
        CHECK_FALSE(has_lead("core: zinc"));
        CHECK(has_lead("core: lead"));
        CHECK(has_lead("core: lead, lead: 0.01%"));
    }

    TEST_CASE("45: decimals of a currency") {
        // ISO 4217, table A.1.
        CHECK_FALSE(fits_minor_units(12.5, find_currency("JPY")));
        CHECK(fits_minor_units(1.234, find_currency("KWD")));
        CHECK_FALSE(fits_minor_units(1.234, find_currency("USD")));
        CHECK(refused("12.5 JPY"));
        CHECK_FALSE(refused("1.234 KWD"));
        CHECK(refused("1.234 USD"));
    }
}
