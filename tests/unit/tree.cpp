// The tree is sound whatever the text: sizes fit, spans nest, the root covers the file.
#include <string>

#include <doctest/doctest.h>

#include "syntax/parse.hpp"

using namespace waxwright;

namespace {

struct Parsed {
    bool sound;
    std::size_t findings;
};

Parsed parsed(const std::string& text) {
    Sources sources;
    const FileId file = sources.add("tide.candle", text);
    Findings findings;
    const Tree tree = parse(file, sources[file], findings);
    return {is_sound(tree), findings.all().size()};
}

} // namespace

TEST_CASE("whatever is written, the tree is sound") {
    const char* const texts[] = {
        "",
        "\n",
        "#",
        "\xEF\xBB\xBF",
        "language 1",
        "l e\nw:\nsteps w t -10", // once left a node of a `-` that was none
        "let a = b -5\n",
        "let a = b - \n",
        "let a = (1 + (2\n",
        "recipe r {\n  wax: 80% soy + \n}\n",
        "recipe r {\n  wax: 80% soy +rest coconut\n}\n",
        "recipe r {\n  steps {\n    melt to (70 °C\n  }\n}\n",
        "recipe r\n  steps: {\n",
        "} } }\n{ { {\n",
        "vessel v { fill: 2 ml, of: glass",
        "\"\n\"\"\n\"\\",
        "wax: \xFF\xC3\n",
    };
    for (const char* const text : texts) {
        CAPTURE(text);
        CHECK(parsed(text).sound);
    }
}

TEST_CASE("every prefix of a recipe parses to a sound tree") {
    const std::string recipe = "recipe tide-line like ebb {\n"
                               "  makes: 6 dune-tumbler\n"
                               "  load:  1 oz per lb of wax # a comment\n"
                               "  scent: (60% - 10%) lavender + rest rosemary by volume\n"
                               "  sold:  24 for $41.50, 6 for $12.00\n"
                               "  steps {\n"
                               "    add scent at 70 °C, stir 2 min because \"it binds\"\n"
                               "  }\n"
                               "}\n";
    for (std::size_t length = 0; length <= recipe.size(); ++length) {
        CAPTURE(length);
        CHECK(parsed(recipe.substr(0, length)).sound);
    }
    CHECK(parsed(recipe).findings == 0);
}

TEST_CASE("parentheses may be nested so deep and no deeper") {
    const auto nested = [](int depth) {
        const auto count = static_cast<std::size_t>(depth);
        return "let a = " + std::string(count, '(') + "1 g" + std::string(count, ')') + "\n";
    };
    CHECK(parsed(nested(deepest_nesting)).findings == 0);
    CHECK(parsed(nested(deepest_nesting + 1)).findings == 1);
    CHECK(parsed(nested(100'000)).findings == 1);
}

TEST_CASE("a file of nothing but mistakes is given up on") {
    std::string text;
    for (int i = 0; i < 50'000; ++i) {
        text += "x\n";
    }
    const Parsed given_up = parsed(text);
    CHECK(given_up.sound);
    CHECK(given_up.findings > 1000);
    CHECK(given_up.findings < 20'000);
}
