// Hover: what a place is, in the words of the tables and the figures of the reading.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <doctest/doctest.h>

#include "editor_desk.hpp"

namespace waxwright {

using test::EditorDesk;

namespace {

const std::string method = "textDocument/hover";

/// A recipe with the mark of the test somewhere in it.
std::string tins(const std::string& load = "6% of wax", const std::string& steps = "melt to 75 °C",
                 const std::string& name = "small", const std::string& scent = "lavender") {
    return "use waxes, oils, vessels, wicks\nrecipe " + name + " {\n  makes: 4 tin-8oz\n" +
           "  wax:   soy\n  load:  " + load + "\n  scent: " + scent +
           "\n  wick:  cotton-braid-large\n  steps {\n    " + steps +
           "\n    off heat\n    add scent at 70 °C, stir 2 min\n    pour at 60 °C\n  }\n}\n";
}

/// The words of the hover at the mark; "" without one.
std::string words_at(const std::string& marked) {
    EditorDesk desk;
    const Json answer = desk.ask_at_mark(method, marked);
    return answer.is_null() ? std::string() : answer["contents"]["value"].get<std::string>();
}

bool has(const std::string& text, std::string_view words) {
    INFO(text);
    const bool found = text.find(words) != std::string::npos;
    CHECK_MESSAGE(found, words);
    return found;
}

/// A client sends no half of a character.
bool is_inside_character(const std::string& text, std::size_t at) {
    return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80;
}

/// The examples, as files of the desk.
EditorDesk::Disk example_files() {
    EditorDesk::Disk files;
    for (const auto& file : std::filesystem::directory_iterator(WAXWRIGHT_TREE "/examples")) {
        if (file.path().extension() != ".candle") continue;
        std::ifstream in(file.path());
        std::stringstream text;
        text << in.rdbuf();
        files["/desk/" + file.path().filename().string()] = text.str();
    }
    return files;
}

} // namespace

TEST_CASE("a key: what it is, its shape, an example, whether it is needed, its default") {
    std::string text = words_at("recipe a {\n  lo|ad: 6% of wax\n}\n");
    has(text, "`load` of a recipe: how much scent, of wax or of total");
    has(text, "`80 g per kg of wax` or `1 oz per lb of wax`");
    CHECK(text.find("must be there") == std::string::npos);
    text = words_at("recipe a {\n  ma|kes: 6 tin\n}\n");
    has(text, "a vessel by name");
    has(text, "must be there");
    text = words_at("wax a {\n  sets|: 48 °C\n}\n");
    has(text, "a temperature, for example `46 °C`");
    has(text, "unsaid, it counts as the low end of melts");
    has(words_at("vessel a {\n  o|f: glass\n}\n"), "one word of `glass`, `tin`");
    CHECK(words_at("wax a {\n  lo|ad: 6% of wax\n}\n").empty()); // a wax has none
}

TEST_CASE("a word of the language: kind, verb, choice, rule, statement") {
    has(words_at("wa|x a {\n}\n"), "properties that must be there: `density`, `melts`");
    has(words_at("vessel a {\n  of: gla|ss\n}\n"), "`of` of a vessel: what it is made of");
    has(words_at("substance a {\n  specific-limit: 1% skin-sens-1, 5% eye-ir|rit-2\n}\n"),
        "`specific-limit` of a substance: ");
    has(words_at("substance a {\n  m-factor: 10 ac|ute, 1 chronic\n}\n"),
        "`m-factor` of a substance: ");
    has(words_at(tins("6% of wax", "me|lt to 75 °C")), "go on to a temperature");
    has(words_at(tins("6% of wax", "melt to 75 °C\n    off he|at")), "take the pot off the heat");
    const std::string rule = words_at(tins("6% of wax\n  allow near-cei|ling because \"tested\""));
    has(rule, "`near-ceiling`, a warning: ");
    has(rule, "A step is exactly at the ceiling");
    CHECK(rule.find("Why it matters") == std::string::npos);
    has(words_at("lang|uage 1\n"), "the edition");
    has(words_at("currency E|UR\n"), "`$` stands for");
    has(words_at("wax a { density: 1 g/ml }\nwax b li|ke a { }\n"), "takes over");
}

TEST_CASE("what is used: its blocks by kind") {
    has(words_at("use wi|cks\n"), "a module of the standard library");
    has(words_at("use vess|els\n"), " vessel: `");
    EditorDesk desk(EditorDesk::Disk{{"/desk/bench.candle", "scale kit { reads: 1 g }\n"}});
    const Json answer = desk.ask_at_mark(method, "use \"ben|ch.candle\"\n");
    has(answer["contents"]["value"], "a file of your own");
    has(answer["contents"]["value"], "1 scale: `kit`");
}

TEST_CASE("a name: the library's page, or what the maker wrote and where") {
    const std::string oil = words_at(tins("6% of wax", "melt to 75 °C", "small", "laven|der"));
    has(oil, "`lavender`, an oil of the standard library");
    has(oil, "```text\ndensity ");
    has(oil, "from memory: the text was not seen: density");
    has(oil, "`waxwright materials lavender`");
    EditorDesk desk(EditorDesk::Disk{
        {"/desk/bench.candle",
         "# ours\nscale kit {\n  about: \"Good *to* a gram\"\n  reads: 1 oz\n}\n"}});
    const Json answer =
        desk.ask_at_mark(method, "use \"bench.candle\"\nrecipe a {\n  scale: ki|t\n}\n");
    const std::string text = answer["contents"]["value"];
    has(text, "`kit`, a scale, in line 2 of `bench.candle`");
    has(text, "Good \\*to\\* a gram");
    has(text, "reads: `1 oz` = 1 oz");
    has(words_at("use vessels\nrecipe r {\n  makes: 4 tin-|8oz\n}\n"),
        "a vessel of the standard library");
    CHECK(answer["range"]["start"] == Json{{"line", 2}, {"character", 9}});
    CHECK(answer["range"]["end"] == Json{{"line", 2}, {"character", 12}});
}

TEST_CASE("a material of the library: what a recipe is written by, no more than fits a window") {
    const std::string soy = words_at("use waxes\nrecipe r {\n  wax: so|y\n}\n");
    for (const std::string_view key :
         {"melts", "max-load", "ceiling", "scent-at", "pour-at", "cures"})
        has(soy, std::string("\n") + std::string(key) + "  ");
    CHECK(soy.find("heat-liquid") == std::string::npos);
    for (const std::string_view name : {"soy", "paraffin", "beeswax", "lavender", "clove-bud",
                                        "stearic-acid", "tin-8oz", "cotton-braid-large"}) {
        const std::string card =
            words_at("use waxes, oils, additives, vessels, wicks\nstock s-1 {\n  have 1 |" +
                     std::string(name) + "\n}\n");
        INFO(card);
        CHECK(std::ranges::count(card, '\n') < 24);
    }
}

TEST_CASE("a key or a verb without its value yet is explained by its words") {
    has(words_at("vessel jar {\n  brim|ful:\n}\n"), "`brimful` of a vessel: volume to the brim");
    has(words_at("vessel jar {\n  brimful|"), "for example `318 g of water` or `300 ml`");
    has(words_at("recipe a {\n  lo|ad:\n  scent: lavender\n}\n"), "`load` of a recipe");
    has(words_at("recipe a {\n  steps {\n    second po|ur at\n  }\n}\n"), "`second pour`: ");
    CHECK(words_at("wax a {\n  lo|ad:\n}\n").empty());
    CHECK(words_at("recipe a {\n  # lo|ad:\n}\n").empty());
}

TEST_CASE("a recipe: what it comes to, unless an error was found in it") {
    const std::string good = words_at(tins("6% of wax", "melt to 75 °C", "sma|ll"));
    has(good, "makes 4 `tin-8oz`");
    has(good, "6 % of the wax, 5.66 % of all");
    has(good, "into each vessel 180 g"); // as `waxwright sheet` has it
    const std::string over = words_at(tins("16% of wax", "melt to 75 °C", "sma|ll"));
    has(over, "its weights are not worked out");
    CHECK(over.find("into each vessel") == std::string::npos);
}

TEST_CASE("a load and an item of a blend: how much that is") {
    std::string text = words_at(tins("6|% of wax"));
    has(text, "`6% of wax` = 0.96 oz per lb of wax");
    has(text, "In `small`: 6 % of the wax, 5.66 % of all; 41 g of scent, 10.2 g in each of 4.");
    CHECK(words_at(tins("16|% of wax")).find("In `small`") == std::string::npos);
    text = words_at(
        tins("6% of wax", "melt to 75 °C", "small", "3 par|ts lavender + 1 part rosemary"));
    has(text, "of `lavender`, 7.6 g in each of 4"); // three quarters of it
}

TEST_CASE("a let: as it is written, and what it comes to") {
    const std::string text = words_at("let pack = 2 lb 3 oz\nlet two = 2 * pa|ck\nstock s {\n}\n");
    has(text, "`pack`, in line 1");
    has(text, "`2 lb 3 oz`");
    has(text, "= 992.23 g, 35 oz"); // 35 x 28.349523125 g, exact
    has(words_at("let ac|cord = 2 parts lavender + 1 part rosemary\nuse oils\n"),
        "`2 parts lavender + 1 part rosemary`");
}

// By the definitions: 1 lb is 453.59237 g, 1 in is 25.4 mm, 1 fl oz is 29.5735295625 ml.
TEST_CASE("a figure in the other units") {
    const auto of = [](const std::string& figure, const std::string& key = "weighs") {
        return words_at("pot p {\n  " + key + ": " + figure + "\n}\n");
    };
    has(of("1 l|b"), "`1 lb` = 453.59 g, 16 oz");
    has(of("1 lb 8| oz"), "`1 lb 8 oz` = 680.39 g, 24 oz"); // in pounds it is written already
    has(of("(1 l|b + 8 oz)"), "comes to 1.5 lb");
    has(of("1| l", "brimful"), "33.81 fl oz");
    has(words_at("vessel v { bore: 3 |in }\n"), "= 76.2 mm");
    has(words_at(tins("6% of wax", "melt to 16|7 °F")), "`167 °F` = 75 °C");
    has(words_at("batch b { thermometer-error: 2| C° }\n"), "= 3.6 F°");
    has(words_at(tins("6% of wax", "melt to 75 °C\n    hold 9|0 min")), "= 1.5 h");
    CHECK(words_at("wick w { burns: 5| g/h }\n").empty());
    has(words_at("vessel v { fill: 26|0 g of water }\n"),
        "`260 g of water` = 260.47 ml, 8.807 fl oz");
}

TEST_CASE("a step's temperature: what the limits of the recipe say to it") {
    const std::string text = words_at(tins("6% of wax", "melt to 7|5 °C"));
    has(text, "`over-ceiling`: at most 93 °C (199 °F)");
    has(text, "`not-melted`: at least 57 °C");
    CHECK(text.find("scent") == std::string::npos);
}

TEST_CASE("a client without Markdown gets plain text") {
    EditorDesk desk({}, Json::object());
    const Json answer = desk.ask_at_mark(method, "use wi|cks, waxes\n");
    CHECK(answer["contents"]["kind"] == "plaintext");
    const Json page =
        desk.ask_at_mark(method, tins("6% of wax", "melt to 75 °C", "small", "laven|der"));
    CHECK(page["contents"]["value"].get<std::string>().find("```") == std::string::npos);
}

TEST_CASE("nothing is told of a blank, a comment, an unknown name") {
    CHECK(words_at("# a comm|ent\n").empty());
    CHECK(words_at("|").empty());
    CHECK(words_at("recipe a {\n  wax: no-such|-wax\n}\n").empty());
    CHECK(words_at("recipe a {\n  wax:  |  soy\n}\n").empty());
}

TEST_CASE("the examples cut off anywhere are answered") {
    const EditorDesk::Disk examples = example_files();
    std::size_t told = 0;
    for (const auto& [path, text] : examples) {
        for (std::size_t cut = 0; cut <= text.size(); cut += 197) {
            if (is_inside_character(text, cut)) continue;
            EditorDesk desk(examples);
            desk.open(path, text.substr(0, cut));
            const Source source("", text.substr(0, cut), false);
            for (std::size_t at = cut % 29; at <= cut; at += 29) {
                const Json position =
                    position_of(source, static_cast<std::uint32_t>(at), Encoding::utf16);
                const Json answer = desk.ask(method, path, {{"position", position}});
                if (answer.is_null()) continue;
                ++told;
                CHECK_FALSE(answer["contents"]["value"].get<std::string>().empty());
            }
        }
    }
    CHECK(told > 1000);
}

} // namespace waxwright
