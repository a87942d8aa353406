#include <charconv>
#include <random>
#include <string>

#include <doctest/doctest.h>

#include "emit/toml.hpp"
#include "emit_sample.hpp"

using namespace waxwright;

namespace {

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

/// A plan in which this text and this number stand.
std::string with(std::string title, double grams) {
    Plan plan;
    plan.title = std::move(title);
    plan.recipes.emplace_back();
    plan.recipes[0].wax_g = grams;
    return toml_sheet(plan);
}

/// What stands behind `key = `.
std::string value_of(const std::string& text, const std::string& key) {
    const std::size_t begin = text.find("\n" + key + " = ") + key.size() + 4;
    return text.substr(begin, text.find('\n', begin) - begin);
}

} // namespace

TEST_CASE("the TOML sheet of a recipe") {
    const std::string text = toml_sheet(sample::tide_line());
    CHECK(text.starts_with("count = 12\nedition = 1\nformat = \"waxwright-sheet\"\n"
                           "name = \"tide-line\"\ntitle = \"Tide Line\"\n\n[[recipe]]\n"));
    CHECK(text.ends_with("text = \"8 % of the wax is near the limit\"\n"));
    CHECK(has(text, "load_of_total = 0.07407407407407407\n"));
    CHECK(has(text, "    [[recipe.weigh]]\n    kind = \"oil\"\n    mass_g = 120.0\n"
                    "    name = \"lavender\"\n    share = 0.5\n"));
    CHECK(has(text, "    [[recipe.premix]]\n    name = \"rosemary\"\n    weigh_g = 80.0\n"));
    CHECK(has(text, "[[pot]]\nmass_g = 1080.0\nname = \"pour-can\"\npots = 3\n"));
    CHECK(has(text, "[[step]]\nat_c = 70.0\nof = \"scent\"\nrecipe = \"tide-line\"\n"
                    "text = \"Add the scent at 70 °C.\"\nverb = \"add\"\n"));
    CHECK(has(text, "length_mm = 6.0\n"));
    CHECK(has(text, "minutes = 20160.0\n"));
    CHECK(has(text, "text = \"the scent can light at 70 °C; flame out, air the room\"\n"));
    CHECK(has(text, "because = \"burned three to the end, all clean\"\n"));
    CHECK_FALSE(has(text, "lot"));
}

TEST_CASE("what is unknown is absent from the TOML sheet") {
    const std::string text = toml_sheet(sample::market_batch());
    CHECK(has(text, "\nlot = \"SM-1205\"\n"));
    const std::string plain = text.substr(text.find("name = \"plain-marsh\"") - 150);
    const std::string recipe = plain.substr(0, plain.find("[[pot]]"));
    CHECK(has(recipe, "load_of_wax = 0.0\n"));
    CHECK(has(recipe, "second_pour_g = 0.0\n"));
    for (const char* key : {"limit_of_wax", "ceiling_c", "flash_c", "burn_h", "premix"})
        CHECK_FALSE(has(recipe, key));
    const std::string pot = text.substr(text.find("[[pot]]\nmass_g = 524.4"));
    CHECK(pot.starts_with("[[pot]]\nmass_g = 524.4\npots = 1\n"));
    CHECK_FALSE(has(text, "starts"));
}

TEST_CASE("a float is the shortest text that reads back, and is never an integer") {
    CHECK(value_of(with("", 0.1), "wax_g") == "0.1");
    CHECK(value_of(with("", 290), "wax_g") == "290.0");
    CHECK(value_of(with("", 0), "wax_g") == "0.0");
    CHECK(value_of(with("", -0.0), "wax_g") == "0.0");
    CHECK(value_of(with("", 1 / 3.0), "wax_g") == "0.3333333333333333");
    CHECK(value_of(with("", 1e22), "wax_g") == "1e+22"); // a float in TOML as it is
    std::mt19937 random(20261125);
    std::uniform_real_distribution<double> grams(0, 1e5);
    for (int i = 0; i < 200; ++i) {
        const double exact = grams(random);
        const std::string text = value_of(with("", exact), "wax_g");
        double back = 0;
        std::from_chars(text.data(), text.data() + text.size(), back);
        CHECK(back == exact);
    }
}

TEST_CASE("texts stay on one line and keep every character") {
    CHECK(value_of(with("a \"b\" \\ 'c'", 1), "title") == R"("a \"b\" \\ 'c'")");
    CHECK(value_of(with("one\ntwo\ttabbed", 1), "title") == R"("one\ntwo\ttabbed")");
    CHECK(value_of(with("\x1b\x7f", 1), "title") == R"("\u001B\u007F")");
    CHECK(value_of(with("Lumière \U0001F56F", 1), "title") == "\"Lumière \U0001F56F\"");
}
