// The arithmetic of a label held to published examples and to figures worked by hand, each with its
// number in our list of such values and with its source: 14, 15 and 21 to 35, among them the
// examples E1 to E4 and the candles C1 to C14. Those of 36 to 45 are in label_values_goods.cpp.
// What other tests say at more length is here once more, so that none is lost.
#include "hazard_candle.hpp"

#include <doctest/doctest.h>

#include "reckon/compare.hpp"
#include "reckon/label/highest_load.hpp"
#include "reckon/label/ifra.hpp"
#include "reckon/label/label_elements.hpp"
#include "reckon/label/small_package.hpp"
#include "reckon/loads.hpp"
#include "units/show.hpp"

using namespace waxwright;
using namespace waxwright::tests;
using doctest::Approx;

namespace {

/// A 1B that is 12 % of an oil, and a 1A that is 0.5 % of it.
Classification with_oil(double load) {
    return classified(
        {of("A", load * 12, {C::skin_sens_1b}), of("B", load * 0.5, {C::skin_sens_1a})});
}

bool is_there(const std::vector<Precaution>& all, std::string_view wanted) {
    return std::ranges::any_of(all, [&](Precaution one) { return code(one) == wanted; });
}

} // namespace

TEST_SUITE("values of a label") {
    TEST_CASE("14: a limit of 5 % of the finished product, and 7.4074 % of it planned") {
        // IFRA Standards library: limits are percent of the finished product.
        const double planned = load_of_total(0.08, 0);
        CHECK(planned == Approx(0.074074).epsilon(1e-5));
        const std::vector<OilInBlend> limited{{"A", 1, 0.05, {}}};
        CHECK(over(planned, *blend_limit(limited).load));
        const std::vector<OilInBlend> without{{"A", 1, 1.0, {}}}; // 100 % is no limit
        CHECK_FALSE(blend_limit(without).load);
    }

    TEST_CASE("15: two oils, min of limit and share") {
        // Worked: 6 % / 0.75 = 8 %, 1 % / 0.25 = 4 %.
        const std::vector<OilInBlend> two{{"A", 0.75, 0.06, {}}, {"B", 0.25, 0.01, {}}};
        CHECK(*blend_limit(two).load == Approx(0.04));
    }

    TEST_CASE("21, E1: swallowed, 873 mg/kg") {
        // UN GHS ST/SG/AC.10/C.4/2008/23 annex 2, example 4.
        const Classification all = classified({with_estimate(of("a", 26, {}), Route::oral, 2737),
                                               with_estimate(of("b", 23, {}), Route::oral, 4500),
                                               with_estimate(of("c", 40, {}), Route::oral, 400)});
        REQUIRE(test_for(all, C::acute_tox_4_oral));
        CHECK(test_for(all, C::acute_tox_4_oral)->acute->estimate == Approx(872.52).epsilon(1e-5));
        CHECK(show_number(test_for(all, C::acute_tox_4_oral)->acute->estimate, 0) == "873");
        CHECK(all.classes == std::vector{C::acute_tox_4_oral});
    }

    TEST_CASE("22, E2: inhaled, 11 % unknown, 6.6 mg/l") {
        // The same example.
        const Classification all =
            classified({with_estimate(of("a", 26, {}), Route::vapour, 11),
                        with_estimate(of("b", 23, {}), Route::vapour, 19),
                        with_estimate(of("c", 40, {}), Route::vapour, 4), unknown("d", 11)});
        REQUIRE(test_for(all, C::acute_tox_3_inhalation));
        const AcuteSum& sum = *test_for(all, C::acute_tox_3_inhalation)->acute;
        CHECK(sum.estimate == Approx(6.5566).epsilon(1e-5));
        CHECK(show_number(sum.estimate, 1) == "6.6");
        CHECK(all.classes == std::vector{C::acute_tox_3_inhalation});
    }

    TEST_CASE("23, C1: 8 % of an oil, EUH208 for two") {
        // From memory of CLP Annex I Tables 3.4.5 and 3.4.6.
        const Classification all = with_oil(0.08); // 0.96 % and 0.04 %
        CHECK(codes(all) == "");
        CHECK(joined(all.sensitisers) == "A B");
        CHECK_FALSE(euh208(all).empty());
    }

    TEST_CASE("24, C2: 10 % of it, H317 with both names") {
        // The same, and CLP Annex II 2.8.
        const Classification all = with_oil(0.10); // 1.2 % and 0.05 %
        CHECK(codes(all) == "H317");
        CHECK(all.signal == Signal::warning);
        CHECK(all.pictograms == std::vector{7});
        CHECK(joined(all.named) == "A B");
        CHECK(euh208(all).empty());
    }

    TEST_CASE("25, C3: three of 0.6 % do not add up") {
        // CLP Annex I 3.4.3.3.1: at least one ingredient at or above the limit.
        const Classification all =
            classified({of("A", 0.6, {C::skin_sens_1b}), of("B", 0.6, {C::skin_sens_1b}),
                        of("D", 0.6, {C::skin_sens_1b})});
        CHECK(codes(all) == "");
        CHECK(joined(all.sensitisers) == "A B D");
    }

    TEST_CASE("26: a 1B at its limits") {
        // From memory of CLP Annex I Tables 3.4.5 and 3.4.6.
        const auto at = [](double percent) {
            return classified({of("A", percent, {C::skin_sens_1b})});
        };
        CHECK(codes(at(1.0)) == "H317");
        CHECK(codes(at(0.999)) == "");
        CHECK_FALSE(euh208(at(0.999)).empty());
        CHECK_FALSE(euh208(at(0.1)).empty());
        CHECK(euh208(at(0.099)).empty());
    }

    TEST_CASE("C4: a 1A with a limit of its own") {
        // CLP Annex II 2.10: named from a tenth of it.
        const auto at = [](double percent) {
            return classified(
                {with_limit(of("A", percent, {C::skin_sens_1a}), C::skin_sens_1a, 0.01)});
        };
        CHECK(codes(at(0.004)) == "");
        CHECK_FALSE(euh208(at(0.004)).empty());
        CHECK_FALSE(euh208(at(0.001)).empty());
        CHECK(euh208(at(0.00099)).empty());
        CHECK(codes(at(0.01)) == "H317");
    }

    TEST_CASE("27, C5: sums 0.24, 4.8 and 49.6, H412") {
        // From memory of CLP Annex I Table 4.1.2.
        const Classification all = classified({with_m(of("A", 0.24, {C::aquatic_chronic_1}), 1),
                                               of("B", 2.4, {C::aquatic_chronic_2}),
                                               of("D", 1.6, {C::aquatic_chronic_3})});
        CHECK(test_for(all, C::aquatic_chronic_1)->sum == Approx(0.0024));
        CHECK(test_for(all, C::aquatic_chronic_2)->sum == Approx(0.048));
        CHECK(test_for(all, C::aquatic_chronic_3)->sum == Approx(0.496));
        CHECK(codes(all) == "H412");
        CHECK(all.pictograms.empty());
        CHECK(all.signal == Signal::none);
    }

    TEST_CASE("28, C6: M 10, sums 3 and 30, H411") {
        // ADR 2.2.9.1.10.4.6.3.3, the text of the GHS; GHS09 from memory of CLP Table 4.1.4.
        const Classification all = classified({with_m(of("A", 0.3, {C::aquatic_chronic_1}), 10)});
        CHECK(codes(all) == "H411");
        CHECK(all.pictograms == std::vector{9});
        CHECK(all.signal == Signal::none);
    }

    TEST_CASE("29, C7 and C8: exactly 25") {
        // The same; test 3 from memory of CLP Annex I Table 4.1.2.
        CHECK(codes_of({with_m(of("A", 2.5, {C::aquatic_chronic_1}), 10)}) == "H410");
        CHECK(codes_of({with_m(of("A", 0.25, {C::aquatic_chronic_1}), 1)}) == "H412");
        CHECK(codes_of({with_m(of("A", 0.249, {C::aquatic_chronic_1}), 1)}) == "");
    }

    TEST_CASE("30, C9: a Chronic 2 under 1 % does not count") {
        // CLP Annex I 4.1.3.1.
        CHECK(codes_of({of("A", 0.9, {C::aquatic_chronic_2})}) == "");
        CHECK_FALSE(classified({of("A", 0.9, {C::aquatic_chronic_2})}).worked[0].terms[0].counts);
        CHECK(codes_of({of("A", 2.5, {C::aquatic_chronic_2})}) == "H412");
        CHECK(codes_of({of("A", 2.49, {C::aquatic_chronic_2})}) == "");
    }

    TEST_CASE("C10: a Chronic 1 with M 10 counts from 0.01 %") {
        // The same: 0.1 % / M. 100 × 10 × 0.02 = 20, under 25.
        const Classification all = classified({with_m(of("A", 0.02, {C::aquatic_chronic_1}), 10)});
        CHECK(codes(all) == "");
        CHECK(test_for(all, C::aquatic_chronic_3)->sum == Approx(0.20));
    }

    TEST_CASE("31, E4: a Skin Irrit. 2 of 0.8 % is left out; 10 % gives H315") {
        // ECHA Helpdesk exercise of 2012, which has the cut-off and Table 3.2.3.
        const auto at = [](double percent) {
            return classified({of("A", percent, {C::skin_irrit_2})});
        };
        CHECK_FALSE(test_for(at(0.8), C::skin_irrit_2)->terms[0].counts);
        CHECK(test_for(at(1.8), C::skin_irrit_2)->terms[0].counts);
        CHECK(codes(at(1.8)) == "");
        CHECK(codes(at(10)) == "H315");
        CHECK(codes(at(9.99)) == "");
    }

    TEST_CASE("32, C11: 7 + 10 × 1 = 17, H315") {
        // The same exercise.
        const Classification all =
            classified({of("A", 7, {C::skin_irrit_2}), of("B", 1, {C::skin_corr_1})});
        CHECK(test_for(all, C::skin_irrit_2)->sum == Approx(0.17));
        CHECK(codes(all).starts_with("H315"));
        CHECK(codes_of({of("A", 7, {C::skin_irrit_2})}) == "");
    }

    TEST_CASE("32, C12: H319, and H318 from 3 %") {
        // From memory of CLP Annex I Table 3.3.3.
        CHECK(codes_of({of("A", 8, {C::eye_irrit_2}), of("B", 1, {C::eye_dam_1})}) == "H319");
        CHECK(codes_of({of("B", 3, {C::eye_dam_1})}) == "H318");
    }

    TEST_CASE("33, E3: an acid that does not add up") {
        // UN GHS ST/SG/AC.10/C.4/2008/23 annex 2, example 5: 4 % of pH 1.8, 5 % of Category 2.
        const auto acid = of("acid", 4, {C::skin_corr_1});
        const auto irritant = of("irritant", 5, {C::skin_irrit_2});
        const Classification all = classified({not_additive(acid), irritant});
        CHECK(std::ranges::count(all.classes, C::skin_corr_1) == 1);
        CHECK(codes(all) == "H314");
        CHECK(codes_of({acid, irritant}) == "H315 H318"); // were it summed
    }

    TEST_CASE("C13: 1.5 % of an Acute Tox. 4, 33 333 mg/kg") {
        // The point of 500 from memory of CLP Annex I Table 3.1.2.
        const Classification all = classified({of("A", 1.5, {C::acute_tox_4_oral})});
        CHECK(all.worked[0].acute->estimate == Approx(33333.3).epsilon(1e-5));
        CHECK(codes(all) == "");
    }

    TEST_CASE("C14: the highest load without H317, 8.333… %, and at it it is there") {
        // Worked: 1 % / 12 %.
        const std::vector<Ingredient> oil{of("A", 12, {C::skin_sens_1b}), of("B", 88, {})};
        const auto limit = highest_load_without(oil, "H317");
        REQUIRE(limit);
        CHECK(limit->load == Approx(0.01 / 0.12));
        CHECK(limit->at_it);
    }

    TEST_CASE("34: a jar of 120 ml") {
        // CLP Annex I 1.5.2.1.1 and 1.5.2.1.2.
        const Classification h411 = classified({of("A", 2.5, {C::aquatic_chronic_1})});
        const LabelTexts neither = label_texts(h411, 120);
        CHECK(neither.statements.empty());
        CHECK(neither.precautions.empty());
        CHECK(h411.pictograms == std::vector{9}); // stays

        const LabelTexts all = label_texts(classified({of("A", 1, {C::skin_sens_1b})}), 120);
        CHECK(all.statements_left_off.empty());
        CHECK(all.precautions_left_off.empty());

        const LabelTexts h412 =
            label_texts(classified({of("A", 2.5, {C::aquatic_chronic_2})}), 120);
        CHECK(h412.statements == std::vector{Statement::H412});
        CHECK(h412.precautions.empty());
        CHECK(is_there(h412.precautions_left_off, "P273"));

        CHECK(label_texts(h411, 125).statements.empty());
        CHECK_FALSE(label_texts(h411, 125.1).statements.empty());
    }

    TEST_CASE("35: sizes by what the package holds") {
        // CLP Annex I 1.2.1 Table 1.3; Regulation (EU) 2024/2865 by three summaries.
        CHECK(label_sizes(0.3, Date{2027, 12, 31}).pictogram_mm == 10);
        CHECK(label_sizes(0.3, Date{2027, 12, 31}).x_height_mm == 0);
        CHECK(label_sizes(0.3, Date{2028, 1, 1}).x_height_mm == 1.2);
        CHECK(label_sizes(0.5, Date{2028, 1, 1}).x_height_mm == 1.2);
        CHECK(label_sizes(0.6, Date{2028, 1, 1}).x_height_mm == 1.4);
    }
}
