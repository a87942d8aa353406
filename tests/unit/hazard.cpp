// What a candle is classified as, against published examples and against sums done by hand.
#include "hazard_candle.hpp"

#include <doctest/doctest.h>

#include "reckon/label/acute.hpp"
#include "reckon/label/m_factor.hpp"

using namespace waxwright;
using namespace waxwright::tests;
using doctest::Approx;

namespace {

/// A is 12 % of an oil and a 1B, B is 0.5 % of it and a 1A.
std::vector<Ingredient> two_sensitisers(double load) {
    return {of("A", load * 12, {C::skin_sens_1b}), of("B", load * 0.5, {C::skin_sens_1a})};
}

} // namespace

TEST_CASE("sensitisers do not add up, and are named") {
    // CLP Annex I 3.4.3.3.1 and Annex II 2.8; figures from memory of Tables 3.4.5 and 3.4.6.
    const Classification at_8 = classified(two_sensitisers(0.08)); // A 0.96 %, B 0.04 %
    CHECK(codes(at_8) == "");
    CHECK(joined(at_8.sensitisers) == "A B");
    CHECK(euh208(at_8) == "Contains A, B. May produce an allergic reaction.");
    CHECK(at_8.signal == Signal::none);
    CHECK(at_8.pictograms.empty());
    CHECK(at_8.precautions.empty());

    const Classification at_10 = classified(two_sensitisers(0.10)); // A 1.2 %, B 0.05 %
    CHECK(codes(at_10) == "H317");
    CHECK(at_10.signal == Signal::warning);
    CHECK(at_10.pictograms == std::vector{7});
    CHECK(joined(at_10.named) == "A B");
    CHECK(at_10.sensitisers.empty());
    CHECK(euh208(at_10) == "");
    CHECK(at_10.for_health);

    const Classification three =
        classified({of("A", 0.6, {C::skin_sens_1b}), of("B", 0.6, {C::skin_sens_1b}),
                    of("D", 0.6, {C::skin_sens_1b})});
    CHECK(codes(three) == "");
    CHECK(joined(three.sensitisers) == "A B D");
}

TEST_CASE("one substance in two oils is one substance") {
    CHECK(codes_of({of("A", 0.6, {C::skin_sens_1b}), of("A", 0.6, {C::skin_sens_1b})}) == "H317");
}

TEST_CASE("a sensitiser at each of its limits, from both sides") {
    // Figures from memory of CLP Annex I Tables 3.4.5 and 3.4.6.
    struct {
        double percent;
        C hazard;
        bool gives, named;
        const char* code = "H317";
    } rows[] = {
        {1.0, C::skin_sens_1b, true, false},
        {0.999, C::skin_sens_1b, false, true},
        {0.1, C::skin_sens_1b, false, true},
        {0.099, C::skin_sens_1b, false, false},
        {1.0, C::skin_sens_1, true, false},
        {0.999, C::skin_sens_1, false, true},
        {0.1, C::skin_sens_1, false, true},
        {0.0999, C::skin_sens_1, false, false},
        {0.1, C::skin_sens_1a, true, false},
        {0.0999, C::skin_sens_1a, false, true},
        {1.0, C::resp_sens_1, true, false, "H334"},
        {0.999, C::resp_sens_1, false, true, "H334"},
        {0.1, C::resp_sens_1, false, true, "H334"},
        {0.0999, C::resp_sens_1, false, false, "H334"},
        {1.0, C::resp_sens_1b, true, false, "H334"},
        {0.999, C::resp_sens_1b, false, true, "H334"},
        {0.1, C::resp_sens_1b, false, true, "H334"},
        {0.0999, C::resp_sens_1b, false, false, "H334"},
        {0.1, C::resp_sens_1a, true, false, "H334"},
        {0.0999, C::resp_sens_1a, false, true, "H334"},
        {0.01, C::resp_sens_1a, false, true, "H334"},
        {0.00999, C::resp_sens_1a, false, false, "H334"},
        {0.01, C::skin_sens_1a, false, true},
        {0.00999, C::skin_sens_1a, false, false},
    };
    for (const auto& row : rows) {
        CAPTURE(row.percent);
        const Classification all = classified({of("A", row.percent, {row.hazard})});
        CHECK(codes(all) == (row.gives ? row.code : ""));
        CHECK(joined(all.sensitisers) == (row.named ? "A" : ""));
        CHECK(joined(all.named) == (row.gives ? "A" : ""));
    }
}

TEST_CASE("a limit of its own goes before the general one") {
    // A 1A with 0.01 %: H317 from that on, named from a tenth of it (CLP Annex II 2.10).
    const auto at = [](double percent) {
        return classified({with_limit(of("A", percent, {C::skin_sens_1a}), C::skin_sens_1a, 0.01)});
    };
    CHECK(codes(at(0.004)) == "");
    CHECK(joined(at(0.004).sensitisers) == "A");
    CHECK(joined(at(0.001).sensitisers) == "A");
    CHECK(joined(at(0.00099).sensitisers) == "");
    CHECK(codes(at(0.01)) == "H317");
    CHECK(codes(at(0.0099)) == "");
    // One over the general limit is named later, too.
    const auto high = with_limit(of("A", 2, {C::skin_sens_1b}), C::skin_sens_1b, 5);
    CHECK(codes_of({high}) == "");
    CHECK(joined(classified({high}).sensitisers) == "A");
    // In a sum it weighs as much more: 2 % of what irritates from 4 % on is 5 of 10 %.
    const auto irritant = with_limit(of("A", 2, {C::skin_irrit_2}), C::skin_irrit_2, 4);
    CHECK(codes_of({irritant, of("B", 5, {C::skin_irrit_2})}) == "H315");
    CHECK(codes_of({irritant, of("B", 4.9, {C::skin_irrit_2})}) == "");
    // It counts from the lower of its own limit and the cut-off (CLP 1.1.2.2.2(a)(i)).
    CHECK(codes_of({with_limit(of("A", 0.5, {C::eye_dam_1}), C::eye_dam_1, 0.5)}) == "H318");
    CHECK(codes_of({with_limit(of("A", 0.49, {C::eye_dam_1}), C::eye_dam_1, 0.5)}) == "");
}

TEST_CASE("skin and eyes add up") {
    // CLP Annex I Table 3.2.3 as an ECHA Helpdesk exercise of 2012 has it; Table 3.3.3 from memory.
    // 10 × 1 + 7 = 17 on the skin; 10 × 1 for the eyes.
    CHECK(codes_of({of("A", 7, {C::skin_irrit_2}), of("B", 1, {C::skin_corr_1})}) == "H315 H319");
    CHECK(codes_of({of("A", 7, {C::skin_irrit_2})}) == "");
    CHECK(codes_of({of("A", 10, {C::skin_irrit_2})}) == "H315");
    CHECK(codes_of({of("A", 9.99, {C::skin_irrit_2})}) == "");
    CHECK(codes_of({of("A", 8, {C::eye_irrit_2}), of("B", 1, {C::eye_dam_1})}) == "H319");
    CHECK(codes_of({of("A", 3, {C::eye_dam_1})}) == "H318");
    CHECK(codes_of({of("A", 2.99, {C::eye_dam_1})}) == "H319");
    CHECK(codes_of({of("A", 0.99, {C::eye_dam_1})}) == "");
    CHECK(codes_of({of("A", 1, {C::eye_dam_1})}) == "H319");
    CHECK(codes_of({of("A", 10, {C::eye_irrit_2})}) == "H319");
    CHECK(codes_of({of("A", 9.99, {C::eye_irrit_2})}) == "");
    // A corrosive goes into both, and H314 covers H318.
    for (const C corrosive : {C::skin_corr_1, C::skin_corr_1a, C::skin_corr_1b, C::skin_corr_1c}) {
        CAPTURE(word(corrosive));
        CHECK(codes_of({of("A", 5, {corrosive})}) == "H314");
        CHECK(codes_of({of("A", 4.99, {corrosive})}) == "H315 H318");
        CHECK(codes_of({of("A", 3, {corrosive})}) == "H315 H318");
        CHECK(codes_of({of("A", 2.99, {corrosive})}) == "H315 H319");
        CHECK(codes_of({of("A", 1, {corrosive})}) == "H315 H319");
        CHECK(codes_of({of("A", 0.99, {corrosive})}) == "");
    }
    // Both Skin Corr. 1 and Eye Dam. 1 counts once: 2 %, not 4.
    CHECK(codes_of({of("A", 2, {C::skin_corr_1, C::eye_dam_1})}) == "H315 H319");
}

TEST_CASE("an irritant of too little is not counted") {
    // ECHA Helpdesk exercise of 2012: 0.8 % is under the cut-off of 1 %, 1.8 % counts.
    const Classification little = classified({of("A", 0.8, {C::skin_irrit_2})});
    CHECK(codes(little) == "");
    CHECK_FALSE(test_for(little, C::skin_irrit_2)->terms[0].counts);
    const Classification more = classified({of("A", 1.8, {C::skin_irrit_2})});
    CHECK(codes(more) == "");
    CHECK(test_for(more, C::skin_irrit_2)->terms[0].counts);
    CHECK(test_for(more, C::skin_irrit_2)->sum == Approx(0.018));
    // Thirteen of 0.8 % are 10.4 %, and none counts.
    std::vector<Ingredient> many;
    for (int i = 0; i < 13; ++i)
        many.push_back(of("irritant " + std::to_string(i), 0.8, {C::skin_irrit_2}));
    CHECK(codes_of(many) == "");
}

TEST_CASE("where effects do not add up one ingredient decides") {
    // UN GHS ST/SG/AC.10/C.4/2008/23 annex 2, example 5: 4 % of pH 1.8 is Category 1.
    const std::vector<Ingredient> acid{not_additive(of("acid", 4, {C::skin_corr_1})),
                                       of("irritant", 5, {C::skin_irrit_2})};
    CHECK(codes_of(acid) == "H314");
    CHECK(codes_of({of("acid", 4, {C::skin_corr_1}), of("irritant", 5, {C::skin_irrit_2})}) ==
          "H315 H318");
    // From memory of CLP Annex I Tables 3.2.4 and 3.3.4.
    CHECK(codes_of({not_additive(of("A", 1, {C::skin_corr_1}))}) == "H314");
    CHECK(codes_of({not_additive(of("A", 0.99, {C::skin_corr_1}))}) == "");
    CHECK(codes_of({not_additive(of("A", 3, {C::skin_irrit_2}))}) == "H315");
    CHECK(codes_of({not_additive(of("A", 2.99, {C::skin_irrit_2}))}) == "");
    CHECK(codes_of({not_additive(of("A", 1, {C::eye_dam_1}))}) == "H318");
    CHECK(codes_of({not_additive(of("A", 3, {C::eye_irrit_2}))}) == "H319");
    CHECK(codes_of({not_additive(of("A", 2.99, {C::eye_irrit_2}))}) == "");
}

TEST_CASE("the aquatic sums, in order") {
    // ADR 2.2.9.1.10.4.6 (the text of the GHS) for the first two, CLP Annex I Table 4.1.2 from
    // memory for Chronic 3 and 4.
    const Classification three =
        classified({of("A", 0.24, {C::aquatic_chronic_1}), of("B", 2.4, {C::aquatic_chronic_2}),
                    of("D", 1.6, {C::aquatic_chronic_3})});
    CHECK(codes(three) == "H412");
    CHECK(three.signal == Signal::none);
    CHECK(three.pictograms.empty());
    CHECK_FALSE(three.for_health);
    CHECK(test_for(three, C::aquatic_chronic_1)->sum == Approx(0.0024));
    CHECK(test_for(three, C::aquatic_chronic_2)->sum == Approx(0.048));
    CHECK(test_for(three, C::aquatic_chronic_3)->sum == Approx(0.496));
    CHECK(test_for(three, C::aquatic_chronic_4)->outcome == TestOutcome::not_needed);

    const Classification two =
        classified({with_m(of("A", 0.3, {C::aquatic_chronic_1}), 10)}); // 3, then 30
    CHECK(codes(two) == "H411");
    CHECK(two.pictograms == std::vector{9});
    CHECK(two.signal == Signal::none);

    const Classification one =
        classified({with_m(of("A", 2.5, {C::aquatic_chronic_1}), 10)}); // exactly 25
    CHECK(codes(one) == "H410");
    CHECK(one.signal == Signal::warning);
    CHECK(one.pictograms == std::vector{9});
    CHECK(codes_of({with_m(of("A", 2.499, {C::aquatic_chronic_1}), 10)}) == "H411");

    CHECK(codes_of({of("A", 0.25, {C::aquatic_chronic_1})}) == "H412"); // 0.25 × 100, exactly 25
    CHECK(codes_of({of("A", 0.249, {C::aquatic_chronic_1})}) == "");
    CHECK(codes_of({of("A", 2.5, {C::aquatic_chronic_1})}) == "H411"); // 10 × 2.5, exactly 25
    CHECK(codes_of({of("A", 2.49, {C::aquatic_chronic_1})}) == "H412");

    // Under the cut-offs of CLP Annex I 4.1.3.1.
    CHECK(codes_of({of("A", 0.9, {C::aquatic_chronic_2})}) == "");
    CHECK(codes_of({of("A", 2.5, {C::aquatic_chronic_2})}) == "H412");
    CHECK(codes_of({of("A", 2.49, {C::aquatic_chronic_2})}) == "");
    const Classification small =
        classified({with_m(of("A", 0.02, {C::aquatic_chronic_1}), 10)}); // counts: 0.1 % / 10
    CHECK(codes(small) == "");
    CHECK(test_for(small, C::aquatic_chronic_3)->sum == Approx(0.20));
    CHECK_FALSE(test_for(classified({with_m(of("A", 0.0099, {C::aquatic_chronic_1}), 10)}),
                         C::aquatic_chronic_3)
                    ->terms[0]
                    .counts);

    CHECK(codes_of({of("A", 25, {C::aquatic_chronic_4})}) == "H413");
    CHECK(codes_of({of("A", 24.9, {C::aquatic_chronic_4})}) == "");
    CHECK(codes_of({of("A", 25, {C::aquatic_chronic_3})}) == "H412");
    CHECK(codes_of({of("A", 20, {C::aquatic_chronic_3}), of("B", 5, {C::aquatic_chronic_4})}) ==
          "H413");
}

TEST_CASE("Chronic 4 is a sum without weights") {
    // CLP Annex I Table 4.1.2 from memory. The first alone is under 25 in every graver test.
    struct {
        C hazard;
        double percent;
    } rows[] = {{C::aquatic_chronic_1, 0.2}, {C::aquatic_chronic_2, 2}, {C::aquatic_chronic_3, 20}};
    for (const auto& row : rows) {
        CAPTURE(word(row.hazard));
        const auto with = [&](double fourth) {
            return codes_of({with_m(of("A", row.percent, {row.hazard}), 1),
                             of("B", fourth, {C::aquatic_chronic_4})});
        };
        CHECK(with(25 - row.percent) == "H413");
        CHECK(with(24.9 - row.percent) == "");
    }
}

TEST_CASE("from how much on an ingredient counts in a sum") {
    // 1 %: CLP 3.2.3.3.1 (skin), 4.1.3.1 (Chronic 2 to 4), 3.1.3.3(a); from memory of 3.3.3.3.1,
    // 3.8.3.4 and 3.10.3.3. 0.1 %: CLP 4.1.3.1; from memory of Table 1.1 for Acute Tox. 1 to 3.
    struct {
        double percent;
        std::vector<HazardClass> classes;
    } rows[] = {
        {1,
         {C::skin_corr_1, C::skin_irrit_2, C::eye_dam_1, C::eye_irrit_2, C::stot_se_3, C::asp_tox_1,
          C::aquatic_chronic_2, C::aquatic_chronic_3, C::aquatic_chronic_4, C::acute_tox_4_oral,
          C::acute_tox_4_dermal, C::acute_tox_4_inhalation}},
        {0.1,
         {C::aquatic_acute_1, C::aquatic_chronic_1, C::acute_tox_1_oral, C::acute_tox_2_oral,
          C::acute_tox_3_oral, C::acute_tox_1_dermal, C::acute_tox_2_dermal, C::acute_tox_3_dermal,
          C::acute_tox_1_inhalation, C::acute_tox_2_inhalation, C::acute_tox_3_inhalation}},
    };
    for (const auto& row : rows)
        for (const C hazard : row.classes) {
            CAPTURE(word(hazard));
            CHECK(classified({of("A", row.percent, {hazard})}).worked[0].terms[0].counts);
            CHECK_FALSE(
                classified({of("A", row.percent * 0.999, {hazard})}).worked[0].terms[0].counts);
        }
}

TEST_CASE("H400 is left off beside H410 alone") {
    const auto both = with_m(of("A", 2.5, {C::aquatic_acute_1, C::aquatic_chronic_1}), 10);
    const Classification all = classified({both});
    CHECK(codes(all) == "H410");
    CHECK(all.classes == std::vector{C::aquatic_acute_1, C::aquatic_chronic_1});
    const auto acute = with_m(of("A", 2.5, {C::aquatic_acute_1, C::aquatic_chronic_3}), 10);
    CHECK(codes_of({acute, of("B", 24, {C::aquatic_chronic_3})}) == "H400 H412");
    CHECK(codes_of({of("A", 24.9, {C::aquatic_acute_1})}) == "");
    CHECK(codes_of({of("A", 25, {C::aquatic_acute_1})}) == "H400");
}

TEST_CASE("M-factors from test results") {
    // CLP Annex I Table 4.1.3 by an encyclopaedia's page; the upper end of a decade is within it.
    CHECK(m_acute_from(1) == 1);
    CHECK(m_acute_from(0.11) == 1);
    CHECK(m_acute_from(0.1) == 10);
    CHECK(m_acute_from(0.05) == 10);
    CHECK(m_acute_from(0.01) == 100);
    CHECK_FALSE(m_acute_from(1.01));
    CHECK_FALSE(m_acute_from(0));
    CHECK(m_chronic_from(0.1, false) == 1);
    CHECK(m_chronic_from(0.01, false) == 10);
    CHECK_FALSE(m_chronic_from(0.02, true));
    CHECK(m_chronic_from(0.01, true) == 1);
    CHECK(m_chronic_from(0.001, true) == 10);
}

TEST_CASE("the general cut-offs of health") {
    // All from memory of CLP Annex I Tables 3.5.2, 3.6.2, 3.7.2, 3.8.3, 3.9.4 and Part 5.
    struct {
        C hazard;
        double from;
        const char* codes;
        const char* under;
    } rows[] = {
        {C::muta_1a, 0.1, "H340", ""},       {C::muta_1b, 0.1, "H340", ""},
        {C::muta_2, 1, "H341", ""},          {C::carc_1a, 0.1, "H350", ""},
        {C::carc_1b, 0.1, "H350", ""},       {C::carc_2, 1, "H351", ""},
        {C::repr_1a, 0.3, "H360", ""},       {C::repr_1b, 0.3, "H360", ""},
        {C::repr_2, 3, "H361", ""},          {C::lact, 0.3, "H362", ""},
        {C::stot_se_1, 10, "H370", "H371"},  {C::stot_se_1, 1, "H371", ""},
        {C::stot_se_2, 10, "H371", ""},      {C::stot_se_3, 20, "H335 or H336", ""},
        {C::stot_se_3_h335, 20, "H335", ""}, {C::stot_se_3_h336, 20, "H336", ""},
        {C::stot_re_1, 10, "H372", "H373"},  {C::stot_re_1, 1, "H373", ""},
        {C::stot_re_2, 10, "H373", ""},      {C::ozone_1, 0.1, "H420", ""},
    };
    for (const auto& row : rows) {
        CAPTURE(word(row.hazard));
        CHECK(codes_of({of("A", row.from, {row.hazard})}) == row.codes);
        CHECK(codes_of({of("A", row.from * 0.999, {row.hazard})}) == row.under);
    }
}

TEST_CASE("irritation and drowsiness are summed apart") {
    // From memory of CLP Annex I 3.8.3.4.
    const auto irritant = [](double percent) { return of("A", percent, {C::stot_se_3_h335}); };
    const auto drowsy = [](double percent) { return of("B", percent, {C::stot_se_3_h336}); };
    const auto unsaid = [](double percent) { return of("D", percent, {C::stot_se_3}); };
    CHECK(codes_of({irritant(12), drowsy(12)}) == "");
    CHECK(codes_of({irritant(20), drowsy(20)}) == "H335 H336");
    // One that may be either counts in both; only where it is needed the sentence is open.
    CHECK(codes_of({irritant(15), unsaid(5)}) == "H335 or H336");
    CHECK(codes_of({drowsy(15), unsaid(5)}) == "H335 or H336");
    CHECK(codes_of({irritant(15), drowsy(4), unsaid(1)}) == "");
    CHECK(codes_of({irritant(20), unsaid(5)}) == "H335");
    CHECK(codes_of({irritant(0.9), unsaid(19.2)}) == ""); // under 1 % it does not count
    const std::vector<Ingredient> open{irritant(15), unsaid(5)};
    CHECK(joined(without_sentence(open, classified(open))) == "D");
    const std::vector<Ingredient> said{irritant(20), unsaid(5)};
    CHECK(without_sentence(said, classified(said)).empty());
    // A limit of its own, with the sentence or without.
    CHECK(codes_of({with_limit(irritant(10), C::stot_se_3_h335, 10)}) == "H335");
    CHECK(codes_of({with_limit(irritant(10), C::stot_se_3, 10)}) == "H335");
    CHECK(codes_of({with_limit(unsaid(10), C::stot_se_3_h335, 10)}) == "H335 or H336");
    CHECK(codes_of({with_limit(irritant(10), C::stot_se_3_h336, 10)}) == "");
}

TEST_CASE("aspiration is for liquids that are thin") {
    // From memory of CLP Annex I 3.10.3.3: 10 %, and at most 20.5 mm²/s at 40 °C.
    const auto at = [](double percent, const Flow& flow) {
        return codes(classify(candle({of("A", percent, {C::asp_tox_1})}), flow));
    };
    CHECK(at(50, {}) == "");                                    // wax is solid
    CHECK(at(10, {.liquid = true, .viscosity = {}}) == "H304"); // not known counts as thin
    CHECK(at(9.99, {.liquid = true, .viscosity = {}}) == "");
    CHECK(at(10, {.liquid = true, .viscosity = 20.5}) == "H304");
    CHECK(at(10, {.liquid = true, .viscosity = 20.6}) == "");
    CHECK(test_for(classified({of("A", 50, {C::asp_tox_1})}), C::asp_tox_1)->outcome ==
          TestOutcome::for_liquids);
}

TEST_CASE("what a supplier's sheet doesn't say is unknown, never harmless") {
    const Classification all = classified({of("A", 1, {C::flam_liq_3}), unknown("rest", 3)});
    CHECK(all.unknown == Approx(0.03));
    CHECK(joined(all.unknown_names) == "rest");
    REQUIRE(all.not_reckoned.size() == 1);
    CHECK(all.not_reckoned[0].hazard == C::flam_liq_3);
    // What no ingredient accounts for is unknown as well.
    const std::vector<Ingredient> half{of("A", 50, {})};
    CHECK(classify(half).unknown == Approx(0.5));
    CHECK(classified({}).unknown == 0);
}

TEST_CASE("of nothing it is nothing") {
    const Classification all = classify({});
    CHECK(all.classes.empty());
    CHECK(all.statements.empty());
    CHECK(all.worked.empty());
    CHECK(all.precautions.empty());
    CHECK(all.sensitisers.empty());
    CHECK(all.unknown == 1);
    CHECK(codes_of({of("A", 0, {C::carc_1a}), of("B", -1, {C::carc_1a})}) == "");
}
