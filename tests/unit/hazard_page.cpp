// docs/labels-arithmetic.md against the tables, and its candle against the arithmetic.
#include "hazard_candle.hpp"

#include <fstream>
#include <set>
#include <sstream>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "reckon/label/acute.hpp"
#include "reckon/label/highest_load.hpp"
#include "reckon/label/net_quantity.hpp"
#include "reckon/label/small_package.hpp"

using namespace waxwright;
using namespace waxwright::tests;
using doctest::Approx;

namespace {

const std::string& page() {
    static const std::string text = [] {
        std::ifstream in(WAXWRIGHT_TREE "/docs/labels-arithmetic.md");
        std::stringstream all;
        all << in.rdbuf();
        return all.str();
    }();
    return text;
}

void check_row(const std::string& row) {
    CAPTURE(row);
    CHECK(page().find("\n" + row) != std::string::npos);
}

std::string row_of(HazardClass hazard) {
    const ClassFacts& of = facts(hazard);
    const char* signals[] = {"", "Warning", "Danger"};
    const char* small[] = {"", "P", "H and P"};
    std::vector<std::string_view> chosen;
    for (const Precaution one : of.precautions)
        chosen.push_back(code(one));
    return fmt::format("| {} | {} | {} | {} | {} | {} |", abbreviation(hazard), code(of.statement),
                       signals[static_cast<int>(of.signal)],
                       of.pictogram == 0 ? "" : fmt::format("GHS0{}", of.pictogram),
                       small[static_cast<int>(of.small)], fmt::join(chosen, " "));
}

} // namespace

TEST_CASE("the page has every test, and every class that a candle may get") {
    std::set<HazardClass> given;
    for (const HazardTest& test : hazard_tests()) {
        given.insert(test.gives);
        check_row(fmt::format(
            "| {} | {:g} % | {} | {}{} |", test.words, test.limit * 100, abbreviation(test.gives),
            test.evidence == Evidence::memory ? "from memory of " : "", test.source));
    }
    for (const RouteFacts& route : all_routes()) {
        check_row(fmt::format("| {} | {} | {} | {} |", route.words, route.unit,
                              fmt::join(route.limits, ", "), fmt::join(route.points, ", ")));
        for (int category = 0; category < 4; ++category)
            given.insert(static_cast<HazardClass>(static_cast<int>(route.gravest) + category));
    }
    for (const HazardClass hazard : given)
        check_row(row_of(hazard));
}

TEST_CASE("the page has every size and every error") {
    const Date in_force = x_height_from;
    for (const auto& [litres, words] : {std::pair{0.5, "0.5 l"},
                                        {3.0, "3 l"},
                                        {50.0, "50 l"},
                                        {500.0, "500 l"},
                                        {501.0, "more"}}) {
        const LabelSizes sizes = label_sizes(litres, in_force);
        check_row(fmt::format("| {} | {:g} × {:g} mm | {:g} mm | {:g} mm | {:g} mm |", words,
                              sizes.label_mm[0], sizes.label_mm[1], sizes.pictogram_mm,
                              sizes.better_pictogram_mm, sizes.x_height_mm));
    }
    const auto error = [](double from, double to, const char* words) {
        check_row(fmt::format("| {:g} to {:g} g | {} |", from, to, words));
        return nominal_quantity((from + to) / 2)->tolerable;
    };
    CHECK(error(5, 50, "9 %") == Approx(27.5 * 0.09));
    CHECK(error(50, 100, "4.5 g") == Approx(4.5));
    CHECK(error(100, 200, "4.5 %") == Approx(150 * 0.045));
    CHECK(error(200, 300, "9 g") == Approx(9));
    CHECK(error(300, 500, "3 %") == Approx(400 * 0.03));
    CHECK(error(500, 1000, "15 g") == Approx(15));
    CHECK(error(1000, 10000, "1.5 %") == Approx(5500 * 0.015));
}

TEST_CASE("the candle of the page") {
    const auto linalool = of("linalool", 20, {C::skin_sens_1b, C::skin_irrit_2});
    const auto limonene =
        with_m(of("limonene", 10,
                  {C::skin_sens_1b, C::skin_irrit_2, C::aquatic_acute_1, C::aquatic_chronic_1}),
               1);
    const auto citral = of("citral", 2, {C::skin_sens_1, C::skin_irrit_2, C::eye_irrit_2});
    const std::vector<Ingredient> oil{linalool, limonene, citral, of("carrier", 54, {}),
                                      unknown("not on the sheet", 14)};
    std::vector<Ingredient> in_candle = oil;
    for (Ingredient& one : in_candle)
        one.fraction *= 0.08;
    const Classification all = classified(in_candle);
    CHECK(codes(all) == "H317 H412");
    CHECK(all.pictograms == std::vector{7});
    CHECK(all.signal == Signal::warning);
    CHECK(joined(all.named) == "citral limonene linalool");
    CHECK(all.unknown == Approx(0.0112));
    CHECK(test_for(all, C::skin_irrit_2)->sum == Approx(0.016));
    CHECK(test_for(all, C::eye_irrit_2)->sum == 0);
    CHECK(test_for(all, C::aquatic_chronic_3)->sum == Approx(0.80));
    CHECK(test_for(all, C::aquatic_acute_1)->sum == Approx(0.008));
    std::vector<std::string_view> precautions;
    for (const Precaution one : all.precautions)
        precautions.push_back(code(one));
    check_row(fmt::format("The label: {}", "H317 and H412, GHS07, *Warning*;"));
    CHECK(fmt::format("{}", fmt::join(precautions, ", ")) ==
          "P102, P273, P280, P302+P352, P333+P313, P501");
    const LabelTexts small = label_texts(all, 120);
    CHECK(small.precautions_left_off.empty());
    CHECK(std::ranges::count(small.precautions, Precaution::P273) == 0);
    CHECK(std::ranges::count(small.precautions, Precaution::P261) == 1);
    CHECK(small.statements_left_off.empty());
    CHECK(highest_load_without(oil, "H317")->load == Approx(0.05));
    CHECK(highest_load_without(oil, "H412")->load == Approx(0.025));
    CHECK(highest_load_without(oil, "EUH208")->load == Approx(0.005));
}
