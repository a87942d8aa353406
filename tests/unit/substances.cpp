// CAS numbers, classes of hazard, and what an oil contains, as the model has them.
#include <doctest/doctest.h>

#include <optional>
#include <string>
#include <string_view>

#include "model/cas.hpp"
#include "model/hazard_class.hpp"
#include "pipeline/pipeline.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

Workshop read(std::string_view blocks) {
    Sources sources;
    sources.add("a.candle", "language 1\nuse oils\n" + std::string(blocks));
    return open_workshop(std::move(sources),
                         [](const std::string&) { return std::optional<std::string>(); });
}

BlockId find(const Model& model, std::string_view name) {
    for (BlockId id = 0; id < model.blocks.size(); ++id) {
        if (model.name(id) == name) return id;
    }
    FAIL("there is no block of that name");
    return no_block;
}

double sum_of(const Model& model, std::string_view oil) {
    double sum = 0;
    for (const Share& share : model.blend(find(model, oil), Key::contains))
        sum += share.fraction;
    return sum;
}

} // namespace

TEST_CASE("the last digit of a CAS number checks the others") {
    // Water, 7732-18-5, by hand: 8*1 + 1*2 + 2*3 + 3*4 + 7*5 + 7*6 = 105, and 105 mod 10 is 5.
    CHECK(cas_check_digit("7732-18-5") == 5);
    CHECK(cas_check_digit("7732-18-6") == 5);
    // 78-70-6: 0*1 + 7*2 + 8*3 + 7*4 = 66
    CHECK(cas_check_digit("78-70-6") == 6);
    CHECK(cas_check_digit("1234567-89-0").has_value());
    for (const std::string_view wrong : {"", "-70-6", "7-70-6", "12345678-90-1", "78-7-06", "78706",
                                         "78-70-", "78-70-x", "7a-70-6", "78-70-6 "}) {
        CAPTURE(wrong);
        CHECK_FALSE(cas_check_digit(wrong).has_value());
    }
}

TEST_CASE("a class of hazard is found by its word, and each word is another") {
    for (const std::string_view text : hazard_class_words()) {
        CAPTURE(text);
        const auto found = find_hazard_class(text);
        REQUIRE(found.has_value());
        CHECK(word(*found) == text);
        CHECK_FALSE(abbreviation(*found).empty());
    }
    CHECK(find_hazard_class("skin-sens-1b") == HazardClass::skin_sens_1b);
    CHECK(abbreviation(HazardClass::skin_sens_1b) == "Skin Sens. 1B");
    CHECK_FALSE(find_hazard_class("skin-sens").has_value());
    CHECK_FALSE(find_hazard_class("none").has_value());
}

TEST_CASE("no class, and none known, are not the same") {
    const Workshop shop = read("substance one { hazards: eye-irrit-2, skin-sens-1b }\n"
                               "substance none-at-all { hazards: none }\n"
                               "substance silent { m-factor: 10 }\n"
                               "substance like-one like one { }\n");
    REQUIRE_FALSE(shop.findings.has_errors());
    const Model& model = shop.model;
    const auto one = model.hazards_of(find(model, "one"));
    REQUIRE(one.has_value());
    REQUIRE(one->size() == 2);
    CHECK((*one)[0] == HazardClass::eye_irrit_2);
    CHECK((*one)[1] == HazardClass::skin_sens_1b);
    CHECK(model.hazards_of(find(model, "like-one"))->size() == 2);
    REQUIRE(model.hazards_of(find(model, "none-at-all")).has_value());
    CHECK(model.hazards_of(find(model, "none-at-all"))->empty());
    CHECK_FALSE(model.hazards_of(find(model, "silent")).has_value());
}

TEST_CASE("what an oil contains is replaced as a whole, and the rest stays unknown") {
    const Workshop shop = read("oil mine like lavender { contains: 4.2% linalool + 1% coumarin }\n"
                               "oil same like lavender { made-for: candles }\n");
    REQUIRE_FALSE(shop.findings.has_errors());
    const Model& model = shop.model;
    CHECK(sum_of(model, "mine") == Approx(0.052));
    CHECK(model.blend(find(model, "mine"), Key::contains).size() == 2);
    CHECK(sum_of(model, "same") == Approx(sum_of(model, "lavender")));
    CHECK(sum_of(model, "lavender") < 1); // traces, and what has no class here
    CHECK(sum_of(model, "fragrance-oil") == 0);
}
