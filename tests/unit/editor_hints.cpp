// Inlay hints: the weights of the sheet behind the lines they are of.
#include <filesystem>
#include <fstream>
#include <sstream>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "editor_desk.hpp"

namespace waxwright {

using test::EditorDesk;

namespace {

const std::string path = "/desk/a.candle";

const std::string blends = R"(use waxes, oils, vessels, wicks, additives
scale fine { reads: 0.1 g }
scale kitchen { reads: 0.1 oz }
let accord = 3 parts lavender + 1 part rosemary
recipe small {
  makes: 4 tin-8oz
  wax:   80% soy + rest coconut
  load:  6% of wax
  scent: 3 parts lavender + 1 part rosemary
  additives: 2% stearic-acid
  wick:  cotton-braid-large
  scale: fine
  spare: 2%
  steps {
    melt to 75 °C
    off heat
    add scent at 60 °C, stir 2 min
    pour at 60 °C
  }
}
recipe other like small {
  wax:   soy
  scent: accord
  scale: kitchen
}
recipe third like small { scent: 2 parts accord + 1 part lavender }
)";

Json range(int from, int to) {
    return {{"start", {{"line", from}, {"character", 0}}},
            {"end", {{"line", to}, {"character", 0}}}};
}

/// "6:17 = 412.3 g", a line each.
std::string hints_in(const std::string& text, int from, int to) {
    EditorDesk desk;
    desk.open(path, text);
    std::string hints;
    for (const Json& each :
         desk.ask("textDocument/inlayHint", path, {{"range", range(from, to)}})) {
        CHECK(each["paddingLeft"] == true);
        CHECK_FALSE(each["tooltip"].get<std::string>().empty());
        hints +=
            fmt::format("{}:{} {}\n", each["position"]["line"].get<int>(),
                        each["position"]["character"].get<int>(), each["label"].get<std::string>());
    }
    return hints;
}

/// The sheet's plan of a recipe, made by the pipeline alone.
RecipePlan plan_of_recipe(const std::string& text, const std::string& name) {
    Sources sources;
    sources.add(path, text);
    Workshop workshop =
        open_workshop(std::move(sources), [](const std::string&) { return std::nullopt; });
    work(workshop);
    for (const Task& task : workshop.recipes) {
        if (workshop.model.name(task.job.recipe) == name)
            return plan_of(workshop, task).recipes.front();
    }
    FAIL("no such recipe");
    return {};
}

/// A hint of so many g, to a tenth.
std::string hint(int line, int character, double grams) {
    return fmt::format("{}:{} = {:.1f} g\n", line, character, grams);
}
std::string hint_oz(int line, int character, double grams) {
    constexpr double ounce = 28.349523125; // g
    return fmt::format("{}:{} = {:.1f} oz\n", line, character, grams / ounce);
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

TEST_CASE("each item of a blend, the load and each additive has its weight") {
    const RecipePlan plan = plan_of_recipe(blends, "small");
    REQUIRE(plan.exact.size() == 5);
    const std::string wanted = hint(6, 16, plan.exact[0].grams) + hint(6, 31, plan.exact[1].grams) +
                               hint(7, 18, plan.scent_g) + hint(8, 25, plan.exact[3].grams) +
                               hint(8, 43, plan.exact[4].grams) + hint(9, 28, plan.exact[2].grams);
    CHECK(hints_in(blends, 4, 20) == wanted);
}

TEST_CASE("a recipe like another has hints at its own lines; an accord's are where it is used") {
    const RecipePlan plan = plan_of_recipe(blends, "other");
    CHECK(hints_in(blends, 20, 25) == hint_oz(21, 12, plan.wax_g) + hint_oz(22, 15, plan.scent_g));
    CHECK(hints_in(blends, 3, 4).empty()); // the accord is of two recipes
    // What the accord brings of lavender is weighed with the other: no weight of its own.
    CHECK(hints_in(blends, 25, 26).empty());
}

TEST_CASE("only what the range touches, and nothing of a recipe with an error") {
    const RecipePlan plan = plan_of_recipe(blends, "small");
    CHECK(hints_in(blends, 7, 8) == hint(7, 18, plan.scent_g));
    std::string over = blends;
    over.replace(over.find("6% of wax"), 9, "16% of wax");
    CHECK(hints_in(over, 4, 20).empty());
    std::string broken = blends;
    broken.replace(broken.find("80% soy"), 7, "80% sojj");
    CHECK(hints_in(broken, 4, 20).empty());
}

TEST_CASE("a let that is worked out has its value; one that is written out has none") {
    const std::string text = "let box = 2 lb\nlet three = 3 * box\nlet same = box\n"
                             "let load = 6% of wax\nlet odd = 1 g + 1 ml\nlet four = 4 * same\n"
                             "let warm = 20 °C + 2 C°\nbatch b { room: warm }\n";
    CHECK(hints_in(text, 0, 9) == "1:19 = 6 lb\n2:14 = 2 lb\n5:19 = 8 lb\n6:23 = 22 °C\n");
}

TEST_CASE("the examples with recipes have hints; cut off anywhere they are answered") {
    const EditorDesk::Disk examples = example_files();
    for (const auto& [file, text] : examples) {
        std::size_t most = 0;
        for (std::size_t cut = text.size() % 131; cut <= text.size(); cut += 131) {
            if (is_inside_character(text, cut)) continue;
            EditorDesk desk(examples);
            desk.open(file, text.substr(0, cut));
            most = desk.ask("textDocument/inlayHint", file, {{"range", range(0, 9999)}}).size();
        }
        const std::string name = file;
        INFO(name);
        const bool has_recipes = text.find("\nrecipe ") != std::string::npos;
        CHECK((most > 0) == has_recipes); // the last one is the whole file
    }
}

} // namespace waxwright
