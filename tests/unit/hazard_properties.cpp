// What holds of every candle, tried on many that are made by chance (always the same ones).
#include "hazard_candle.hpp"

#include <random>

#include <doctest/doctest.h>

#include "reckon/label/highest_load.hpp"

using namespace waxwright;
using namespace waxwright::tests;

namespace {

constexpr int last_class = static_cast<int>(C::ozone_1);

class Chance {
public:
    explicit Chance(unsigned seed) : from_(seed) {}

    int below(int end) { return static_cast<int>(from_() % static_cast<unsigned>(end)); }

    /// Often right on a limit.
    double percent() {
        constexpr double round[] = {0.01, 0.1, 0.25, 0.3, 1, 2.5, 3, 5, 8, 10};
        return below(2) == 0 ? round[below(10)] : below(1000) / 100.0;
    }

    Ingredient ingredient(int number) {
        Ingredient one = of("substance " + std::to_string(number), percent(), {});
        for (int i = below(4); i > 0; --i)
            one.classes.push_back(static_cast<HazardClass>(below(last_class + 1)));
        if (below(3) == 0) one = with_m(one, below(2) == 0 ? 10 : 100);
        if (below(8) == 0) one.not_additive = true;
        return one;
    }

    std::vector<Ingredient> ingredients() {
        std::vector<Ingredient> result;
        for (int i = below(9); i >= 0; --i)
            result.push_back(ingredient(i));
        return result;
    }

    std::mt19937& source() { return from_; }

private:
    std::mt19937 from_;
};

/// Kinds of hazard of which there is one class at most, and how grave it is: 0 where there is none.
int gravity(const Classification& all, std::initializer_list<HazardClass> mild_to_grave) {
    int result = 0, rank = 0;
    for (const HazardClass hazard : mild_to_grave) {
        ++rank;
        if (std::ranges::count(all.classes, hazard) != 0) result = rank;
    }
    return result;
}

std::vector<int> gravities(const Classification& all) {
    return {
        gravity(all, {C::skin_irrit_2, C::skin_corr_1}),
        gravity(all, {C::eye_irrit_2, C::eye_dam_1}),
        gravity(all, {C::skin_sens_1}),
        gravity(all, {C::resp_sens_1}),
        gravity(all, {C::muta_2, C::muta_1b, C::muta_1a}),
        gravity(all, {C::carc_2, C::carc_1b, C::carc_1a}),
        gravity(all, {C::repr_2, C::repr_1b, C::repr_1a}),
        gravity(all, {C::stot_se_2, C::stot_se_1}),
        gravity(all, {C::stot_se_3, C::stot_se_3_h335, C::stot_se_3_h336}),
        gravity(all, {C::stot_re_2, C::stot_re_1}),
        gravity(all, {C::aquatic_acute_1}),
        gravity(all, {C::aquatic_chronic_4, C::aquatic_chronic_3, C::aquatic_chronic_2,
                      C::aquatic_chronic_1}),
        gravity(all, {C::acute_tox_4_oral, C::acute_tox_3_oral, C::acute_tox_2_oral,
                      C::acute_tox_1_oral}),
        gravity(all, {C::acute_tox_4_inhalation, C::acute_tox_3_inhalation,
                      C::acute_tox_2_inhalation, C::acute_tox_1_inhalation}),
    };
}

} // namespace

TEST_CASE("more of an ingredient never takes a hazard away") {
    Chance chance(1);
    for (int i = 0; i < 2000; ++i) {
        std::vector<Ingredient> before = chance.ingredients();
        std::vector<Ingredient> more = before;
        const int which = chance.below(static_cast<int>(more.size()));
        more[static_cast<std::size_t>(which)].fraction *= 1 + chance.below(20) / 10.0;
        const std::vector<int> was = gravities(classified(before));
        const std::vector<int> is = gravities(classified(more));
        for (std::size_t kind = 0; kind < was.size(); ++kind)
            CHECK(is[kind] >= was[kind]);
    }
}

TEST_CASE("the order of the ingredients never matters") {
    Chance chance(2);
    for (int i = 0; i < 500; ++i) {
        std::vector<Ingredient> one = candle(chance.ingredients());
        std::vector<Ingredient> other = one;
        std::shuffle(other.begin(), other.end(), chance.source());
        const Classification first = classify(one), second = classify(other);
        CHECK(first.classes == second.classes);
        CHECK(first.precautions == second.precautions);
        CHECK(first.named == second.named);
        CHECK(first.sensitisers == second.sensitisers);
        REQUIRE(first.worked.size() == second.worked.size());
        for (std::size_t test = 0; test < first.worked.size(); ++test)
            CHECK(lines_of(first.worked[test]) == lines_of(second.worked[test]));
    }
}

TEST_CASE("an ingredient in two parts is the same") {
    Chance chance(3);
    for (int i = 0; i < 500; ++i) {
        std::vector<Ingredient> whole = candle(chance.ingredients());
        std::vector<Ingredient> parts = whole;
        parts[0].fraction /= 2;
        parts.push_back(parts[0]);
        CHECK(classify(whole).classes == classify(parts).classes);
    }
}

TEST_CASE("below the load that is told the statement is never there") {
    Chance chance(4);
    for (int i = 0; i < 500; ++i) {
        std::vector<Ingredient> oil = chance.ingredients();
        for (const auto* statement : {"H317", "H315", "H319", "H302", "H412", "H400"}) {
            const auto limit = highest_load_without(oil, statement);
            for (const double at : {1e-6, 0.3, 0.9, 1 - 1e-7, 1 + 1e-7}) {
                std::vector<Ingredient> in_candle = oil;
                double of_oil = 0;
                const double load = (limit ? limit->load : 1) * at;
                for (Ingredient& one : in_candle) {
                    of_oil += one.fraction;
                    one.fraction *= load;
                }
                if (of_oil > 1 || load > 1) continue;
                in_candle.push_back(unknown("rest of the oil", (1 - of_oil) * load * 100));
                const std::string found = codes_of(in_candle);
                CAPTURE(found);
                CAPTURE(load);
                const bool has = found.find(statement) != std::string::npos;
                if (at < 1) CHECK_FALSE(has);
            }
        }
    }
}

TEST_CASE("the load that is told is that of a sweep, with additives too") {
    Chance chance(5);
    const auto found_at = [](const std::vector<Ingredient>& oil,
                             const std::vector<Ingredient>& rest, double load) {
        std::vector<Ingredient> all;
        double wax = 1 - load;
        for (Ingredient one : oil) {
            one.fraction *= load;
            all.push_back(one);
        }
        for (Ingredient one : rest) {
            one.fraction *= 1 - load;
            wax -= one.fraction;
            all.push_back(one);
        }
        all.push_back(of("wax", wax * 100, {}));
        return classify(all);
    };
    // Each with all that is graver of its kind.
    const std::pair<const char*, std::vector<HazardClass>> asked[] = {
        {"H317", {C::skin_sens_1}},
        {"H315", {C::skin_irrit_2, C::skin_corr_1}},
        {"H319", {C::eye_irrit_2, C::eye_dam_1}},
        {"H373", {C::stot_re_2, C::stot_re_1}},
        {"H400", {C::aquatic_acute_1}},
        {"H412", {C::aquatic_chronic_3, C::aquatic_chronic_2, C::aquatic_chronic_1}},
    };
    int told = 0, at_any = 0;
    for (int i = 0; i < 150; ++i) {
        const std::vector<Ingredient> oil = chance.ingredients();
        std::vector<Ingredient> rest; // some of it is in the oil as well
        for (int j = chance.below(3); j >= 0; --j) {
            rest.push_back(chance.below(2) == 0 || j >= static_cast<int>(oil.size())
                               ? chance.ingredient(20 + j)
                               : oil[static_cast<std::size_t>(j)]);
            rest.back().fraction /= 1 + chance.below(20);
        }
        for (const auto& [statement, classes] : asked) {
            const auto limit = highest_load_without(oil, statement, {}, rest);
            const auto has = [&, &of_kind = classes](double load) {
                const Classification all = found_at(oil, rest, load);
                return std::ranges::any_of(of_kind, [&](HazardClass hazard) {
                    return std::ranges::count(all.classes, hazard) != 0;
                });
            };
            const auto& wanted = statement; // clang 14 lets no lambda have a binding
            CAPTURE(wanted);
            CAPTURE(i);
            told += limit ? 1 : 0;
            at_any += limit && limit->load == 0 ? 1 : 0;
            if (limit) CHECK(has(limit->load) == limit->at_it);
            for (int step = 0; step <= 60; ++step) {
                const double load = step / 60.0;
                if (!limit || load < limit->load * (1 - 1e-6)) CHECK_FALSE(has(load));
            }
            if (limit && limit->load > 0) CHECK_FALSE(has(limit->load * (1 - 1e-7)));
            if (limit && !limit->at_it) CHECK(has(limit->load * (1 + 1e-7)));
        }
    }
    CHECK(told > 200);
    CHECK(at_any > 20);
}
