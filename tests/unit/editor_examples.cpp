// Where a figure begins: what is offered to be filled in, and where it is from.
#include <algorithm>

#include <doctest/doctest.h>

#include "editor_desk.hpp"

namespace waxwright {

using test::EditorDesk;

namespace {

Json able(bool snippets) {
    return {
        {"textDocument", {{"completion", {{"completionItem", {{"snippetSupport", snippets}}}}}}}};
}

/// "LABEL > what is put in; …" of the values that are offered at the mark, in their order.
std::string values_at(std::string_view marked, bool snippets = true) {
    constexpr int value = 12; // LSP's CompletionItemKind
    EditorDesk desk({}, able(snippets));
    auto items =
        desk.ask_at_mark("textDocument/completion", marked)["items"].get<std::vector<Json>>();
    std::ranges::stable_sort(items, {},
                             [](const Json& each) { return each["sortText"].get<std::string>(); });
    std::string all;
    for (const Json& each : items) {
        if (each["kind"] != value) continue;
        all += each["label"].get<std::string>() + " > " +
               each["textEdit"]["newText"].get<std::string>() + "; ";
    }
    return all;
}

/// The detail of the first value at the mark.
std::string words_at(std::string_view marked) {
    EditorDesk desk({}, able(true));
    const Json items = desk.ask_at_mark("textDocument/completion", marked)["items"];
    REQUIRE_FALSE(items.empty());
    return items[0]["detail"];
}

/// A recipe of two waxes with a step of its own.
std::string step(const std::string& line, const std::string& before = "") {
    return before +
           "use waxes, oils, vessels\n\nrecipe tide {\n  makes: 6 tin-8oz\n"
           "  wax: 80% soy + rest coconut\n  additives: 2% bay\n  steps {\n    " +
           line + "\n  }\n}\nadditive bay { adds-at: 78 to 84 °C }\n";
}

} // namespace

TEST_CASE("a property of the maker's own: an example whose numbers are places") {
    const auto vessel = [](const std::string& line, bool snippets = true) {
        return values_at("vessel jar {\n  " + line + "\n}\n", snippets);
    };
    CHECK(vessel("brimful: |") == "318 g of water > ${1:318} g of water; 300 ml > ${1:300} ml; ");
    CHECK(vessel("brimful: |", false) == "318 g of water > 318 g of water; 300 ml > 300 ml; ");
    CHECK(vessel("headspace: |") == "12 mm > ${1:12} mm; ");
    CHECK(vessel("inside: |", false).starts_with("78 mm across, 90 mm deep > 78 mm across"));
    CHECK(vessel("sold: |").starts_with("24 for $41.50 > ${1:24} for \\$${2:41.50}; "));
    CHECK(vessel("headspace: 1|").empty());
    CHECK(
        values_at("batch fair { starts: |", false).starts_with("2026-12-05 09:00 > 2026-12-05 09"));
    CHECK(values_at("batch fair { room: |") == "18 °C > ${1:18} °C; ");
}

TEST_CASE("an example is in the file's own units and money") {
    const std::string us = "scale kit { reads: 0.1 oz, most: 10 lb }\n";
    CHECK(values_at(us + "vessel jar { brimful: |") ==
          "… oz of water > $1 oz of water; … fl oz > $1 fl oz; ");
    CHECK(values_at(us + "vessel jar { headspace: |", false).empty());
    CHECK(values_at("box-1 { sold: 12 for €3 }\nvessel jar { sold: |")
              .starts_with("24 for €41.50 > "));
    CHECK(values_at("extra a { sold: 12 for 3 CHF }\nwax b { sold: |")
              .starts_with("5 kg for 38.00 CHF > "));
    CHECK(values_at("currency CAD\nwax b { sold: |").starts_with("5 kg for $38.00 > "));
}

TEST_CASE("what a supplier or a burn says is left open: no number of ours") {
    CHECK(values_at("oil sea { flash-point: |") ==
          "… °C closed cup > $1 °C closed cup; … °C open cup > $1 °C open cup; ");
    CHECK(values_at("wax dune { melts: |") == "… to … °C > $1 to $2 °C; ");
    CHECK(values_at("test-burn t-1 { flame: |") == "… mm > $1 mm; ");
    CHECK(values_at("wax dune { melts: |", false).empty());
    CHECK(values_at("wax dune { max-load: |", false).empty());
    CHECK(values_at("test-burn t-1 { on: |") == "2026-04-18 > ${1:2026}-${2:04}-${3:18}; ");
}

TEST_CASE("a load: what the waxes hold stands beside it") {
    CHECK(words_at("use waxes\nrecipe a {\n  wax: soy\n  load: |\n}\n") ==
          "`soy` holds 10% of wax at most");
    CHECK(values_at("recipe a { load: |", false) ==
          "6% of wax > 6% of wax; 80 g per kg of wax > 80 g per kg of wax; ");
}

TEST_CASE("a step's temperature: a round one within what the waxes have in common") {
    // soy 70 to 85 °C and coconut 70 to 82 °C for scent; 48 to 68 and 55 to 75 °C for the pour
    CHECK(values_at(step("melt to |")) == "75 °C > ${1:75} °C; 57 °C > ${1:57} °C; ");
    CHECK(words_at(step("melt to |")) == "`soy`, `coconut`: scent goes in at 70 to 82 °C");
    CHECK(values_at(step("add scent at |"), false) == "75 °C > 75 °C; ");
    CHECK(values_at(step("add bay at |")) == "80 °C > ${1:80} °C; ");
    CHECK(values_at(step("pour at |")) == "60 °C > ${1:60} °C; ");
    CHECK(values_at(step("second pour at |")) == "60 °C > ${1:60} °C; ");
    CHECK(values_at(step("cool to |")) == "60 °C > ${1:60} °C; 75 °C > ${1:75} °C; ");
    CHECK(values_at(step("add scent at 75 °C\n    cool to |")) == "60 °C > ${1:60} °C; ");
    // soy 158 to 185 °F, coconut 158 to 179.6 °F: 170 lies nearest the middle in fives
    const std::string us = "scale kit { reads: 0.1 oz, most: 10 lb }\n";
    CHECK(values_at(step("melt to |", us)).starts_with("170 °F > ${1:170} °F; 135 °F > "));
    // of soy alone 77.5 °C is the middle: of two fives the cooler one
    CHECK(values_at("use waxes\nrecipe a {\n  wax: soy\n  steps {\n    melt to |\n") ==
          "75 °C > ${1:75} °C; 57 °C > ${1:57} °C; ");
    CHECK(values_at(step("cure |")) == "14 days > ${1:14} days; ");
}

TEST_CASE("the list of steps has the same figures") {
    EditorDesk desk({}, able(true));
    const Json items = desk.ask_at_mark("textDocument/completion", step("|"))["items"];
    std::string all;
    for (const Json& each : items)
        all += each["label"].get<std::string>() + "; ";
    INFO(all);
    CHECK(all.find("melt to 75 °C; ") != std::string::npos);
    CHECK(all.find("add scent at 75 °C, stir 2 min; add bay at 80 °C, stir 2 min; ") !=
          std::string::npos);
    CHECK(all.find("cure 14 days; ") != std::string::npos);
    CHECK(all.find("trim wick to 6 mm; ") != std::string::npos);
}

TEST_CASE("scent goes in under the flash points of its oils, where the waxes leave room for that") {
    const auto at = [](const std::string& flash) {
        return "use waxes\noil sea {\n  flash-point: " + flash + " closed cup\n}\n" +
               "recipe a {\n  wax: soy\n  scent: sea\n  steps {\n    add scent at |\n";
    };
    CHECK(values_at(at("93 °C")).starts_with("75 °C > "));
    CHECK(words_at(at("93 °C")) == "`soy`: scent goes in at 70 to 85 °C");
    CHECK(values_at(at("77 °C +- 2")).starts_with("70 °C > ")); // 70 to 74 °C are left
    CHECK(words_at(at("77 °C +- 2")) ==
          "`soy`: scent goes in at 70 to 85 °C; the flash point of `sea` may be 75 °C");
    CHECK(values_at(at("60 °C")).starts_with("70 °C > "));
}

TEST_CASE("a step without such a material: the example of the table") {
    CHECK(values_at("recipe a {\n  steps {\n    melt to |\n") == "75 °C > ${1:75} °C; ");
    CHECK(values_at("recipe a {\n  steps {\n    trim wick to |\n") == "6 mm > ${1:6} mm; ");
    CHECK(values_at("recipe a {\n  steps {\n    add scent at 70 °C, stir |\n") ==
          "2 min > ${1:2} min; ");
    CHECK(values_at("recipe a {\n  steps {\n    melt to 7|\n").empty());
    CHECK(values_at("recipe a {\n  steps {\n    melt to 75 |\n").empty());
    CHECK(values_at("recipe a {\n  steps {\n    note |\n", false) == "\"…\" > \"\"; ");
}

TEST_CASE("names come before what a phrase of the trade may come to") {
    EditorDesk desk({}, able(false));
    auto items =
        desk.ask_at_mark("textDocument/completion", "recipe a {\n  scent: lav|\n}\n")["items"]
            .get<std::vector<Json>>();
    std::ranges::stable_sort(items, {},
                             [](const Json& each) { return each["sortText"].get<std::string>(); });
    REQUIRE(items.size() > 2);
    CHECK(items.front()["kind"] == 6); // a name
    CHECK(items.back()["kind"] == 15); // a phrase
}

TEST_CASE("a vessel: what is needed hangs on what it says already") {
    const auto needed = [](const std::string& lines) {
        EditorDesk desk({}, able(false));
        const Json items = desk.ask_at_mark("textDocument/completion",
                                            "vessel jar {\n  " + lines + "\n  |\n}\n")["items"];
        std::string all;
        for (const Json& each : items) {
            if (each["detail"].get<std::string>().starts_with("needed"))
                all += each["label"].get<std::string>() + " ";
        }
        return all;
    };
    CHECK(needed("") == "fill brimful inside ");
    CHECK(needed("fill: 250 ml") == "");
    CHECK(needed("brimful: 300 ml") == "headspace bore ");
    CHECK(needed("brimful: 300 ml\n  headspace: 12 mm") == "bore ");
    CHECK(needed("brimful: 300 ml\n  headspace: 12 mm\n  bore: 70 mm") == "");
    CHECK(needed("inside: 70 mm across, 80 mm deep") == "headspace ");
    CHECK(needed("headspace: 12 mm") == "brimful inside ");
    EditorDesk desk({}, able(false));
    const Json first =
        desk.ask_at_mark("textDocument/completion", "vessel jar {\n  |\n}\n")["items"][0];
    CHECK(first["detail"].get<std::string>().starts_with("needed, one of these three; "));
}

TEST_CASE("every property that is a figure has an example") {
    for (const PropertyInfo& property : all_properties()) {
        const bool figure = property.shape == Shape::figure || property.shape == Shape::range ||
                            property.shape == Shape::capacity || property.shape == Shape::date;
        INFO(word(property.block) << " " << word(property.key));
        CHECK((!figure || !examples_of(property).empty()));
    }
}

} // namespace waxwright
