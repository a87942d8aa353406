// Weigh-outs worked by hand, and what must hold of every one.
#include "reckon/weigh.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

using namespace waxwright;
using doctest::Approx;

namespace {

struct Table {
    std::vector<double> lines;
    double sum;
};

Table weigh(const std::vector<double>& exact, double division) {
    Table table{std::vector<double>(exact.size()), 0};
    table.sum = weigh_out(exact, division, table.lines);
    return table;
}

using Grams = std::vector<double>;

} // namespace

TEST_CASE("parts of a scent") {
    // 3:2:1 of 30 g are 15, 10 and 5 g; of 38.4 g 19.2, 12.8 and 6.4 g.
    CHECK(weigh({30 * 3 / 6.0, 30 * 2 / 6.0, 30 * 1 / 6.0}, 1).lines == Grams{15, 10, 5});
    const Table table = weigh({38.4 * 3 / 6, 38.4 * 2 / 6, 38.4 * 1 / 6}, 0.1);
    CHECK(table.lines == Grams{19.2, 12.8, 6.4});
    CHECK(table.sum == 38.4);
}

TEST_CASE("the largest remainders get what is left") {
    // 10.7 + 20.6 + 30.4 = 61.7 -> 62; 60 when rounded down; the two left go to .7 and .6.
    const Table table = weigh({10.7, 20.6, 30.4}, 1);
    CHECK(table.lines == Grams{11, 21, 30});
    CHECK(table.sum == 62);
    // Each rounded by itself would make 31 of 30: three times 10.33 is 31, three times 10.5 is 32.
    CHECK(weigh({10.4, 10.4, 10.4}, 1).lines == Grams{11, 10, 10}); // 31.2 -> 31
    CHECK(weigh({10.5, 10.5, 10.5}, 1).lines == Grams{11, 11, 10}); // 31.5 -> 32
}

TEST_CASE("ties go to the earlier line, even if they are not equal to the last bit") {
    // 0.1 + 0.2 is a little over 0.3 in a double, and 3 · 0.1 too.
    CHECK(weigh({1.3, 1.0 + 0.1 + 0.2, 1.4}, 1).lines == Grams{1, 1, 2});
    CHECK(weigh({2.3, 2.0 + (0.1 + 0.2), 2.0 + 3 * 0.1, 2.1}, 1).lines == Grams{3, 2, 2, 2});
    CHECK(weigh({1.5, 1.5}, 1).lines == Grams{2, 1});
}

TEST_CASE("a half of a division is rounded up") {
    CHECK(weigh({12.5}, 1).sum == 13);
    CHECK(weigh({13.5}, 1).sum == 14);
    CHECK(weigh({12.49}, 1).sum == 12);
    CHECK(weigh({0.25}, 0.1).sum == 0.3);
}

TEST_CASE("what is a whole division but for the last digits counts as it") {
    CHECK(weigh({12.999999999}, 1).lines == Grams{13});
    CHECK(weigh({12.9999999999, 7.0000000001}, 1).lines == Grams{13, 7});
    // 0.3/0.1 is 2.9999999999999996 in doubles.
    CHECK(weigh({0.3, 0.6}, 0.1).lines == Grams{0.3, 0.6});
    CHECK(weigh({12.99}, 1).lines == Grams{13});
    CHECK(weigh({12.99, 1.01, 1.3}, 1).lines == Grams{13, 1, 1});
}

TEST_CASE("whole divisions read as decimals") {
    CHECK(divisions(3, 0.1) == 0.3);
    CHECK(divisions(7, 0.01) == 0.07);
    CHECK(divisions(3, 0.05) == 0.15);
    CHECK(divisions(3, 0.5) == 1.5);
    CHECK(divisions(3, 2) == 6);
    CHECK(divisions(16, 28.349523125) == Approx(453.59237).epsilon(1e-12));
    // A hundredth of an ounce, 0.28349523125 g: 0.0125 oz is 1 1/4 divisions.
    CHECK(divisions(4, 0.28349523125) == Approx(1.133980925).epsilon(1e-12));
}

TEST_CASE("without a scale") {
    CHECK(usual_division(Grams{1200, 300, 20}) == 1);
    CHECK(usual_division(Grams{1200, 300, 19.99}) == 0.1);
    CHECK(usual_division(Grams{1200, 20 * (1 - 1e-12)}) == 1);
    CHECK(usual_division(Grams{}) == 1);
}

TEST_CASE("odd tables") {
    CHECK(weigh({}, 1).sum == 0);
    CHECK(weigh({0, 0}, 1).lines == Grams{0, 0});
    CHECK(weigh({0.2, 0.2}, 1).lines == Grams{0, 0});
    // Divisions beyond counting leave the masses as they are.
    const Table fine = weigh({1e9, 2.5}, 1e-12);
    CHECK(fine.lines == Grams{1e9, 2.5});
    CHECK(fine.sum == 1e9 + 2.5);
    CHECK(weigh({1, 2}, 0).lines == Grams{1, 2});
}

TEST_CASE("lines always add up, each within a division of the exact mass") {
    std::mt19937 random(20261205);
    std::uniform_real_distribution<double> mass(0, 3000);
    for (const double division : {0.01, 0.05, 0.1, 0.5, 1.0, 2.0, 5.0, 0.28349523125}) {
        for (int round = 0; round < 400; ++round) {
            Grams exact(1 + random() % 9);
            double whole = 0;
            for (double& line : exact) {
                line = mass(random);
                if (random() % 4 == 0) line = std::round(line);
                whole += line;
            }
            const Table table = weigh(exact, division);
            double counted = 0; // divisions
            for (std::size_t i = 0; i < exact.size(); ++i) {
                const double count = table.lines[i] / division;
                CHECK(std::abs(count - std::round(count)) < 1e-6);
                CHECK(std::abs(table.lines[i] - exact[i]) < division * (1 + 1e-6));
                counted += std::round(count);
            }
            CHECK(counted == std::round(table.sum / division));
            CHECK(std::abs(table.sum - whole) <= division * (0.5 + 2e-6));
        }
    }
}
