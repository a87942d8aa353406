// The tests of hazard_tests.def: sums of ingredients held against a limit.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "reckon/label/ingredient.hpp"
#include "reckon/label/worked.hpp"

namespace waxwright {

enum class TestGroup : std::uint8_t {
    skin,
    eye,
    resp_sens,
    skin_sens,
    muta,
    carc,
    repr,
    lact,
    stot_se,
    stot_se_3_h335,
    stot_se_3_h336,
    stot_re,
    aspiration,
    aquatic_acute,
    aquatic_chronic,
    ozone,
};

enum class How : std::uint8_t { sum, sum_m, each, alone };

/// A row of hazard_tests.def.
struct HazardTest {
    struct Weight {
        HazardClass hazard;
        double weight;
    };
    TestGroup group;
    How how;
    HazardClass gives;
    double limit; // mass fraction; equality reaches it
    std::string_view words, source;
    Evidence evidence;
    std::array<Weight, 6> weights; // those of 0 are none
};

std::span<const HazardTest> hazard_tests();

/// True of the classes whose sums aren't good for all substances (from memory of CLP 3.2.3.3.4 and
/// 3.3.3.3.4).
constexpr bool is_for_skin_or_eyes(HazardClass hazard) {
    using enum HazardClass;
    return hazard == skin_corr_1 || hazard == skin_irrit_2 || hazard == eye_dam_1 ||
           hazard == eye_irrit_2;
}

inline bool adds_up(const HazardTest& test) {
    return test.how == How::sum || test.how == How::sum_m;
}

/// The ingredient's own limit for a class, a mass fraction, the lowest if it has several.
/// Sub-categories of one class share a statement, and a limit, and so does a STOT SE 3 that doesn't
/// say its sentence with one that does. What isn't over 0 is no limit.
std::optional<double> own_limit(const Ingredient& one, HazardClass hazard);

/// Whether an ingredient of these classes may have a limit of its own for `limit`: a test looks at
/// one of them and gives that class. Not for water, where there are M-factors, and not for acute
/// toxicity, where there are estimates (both from memory of CLP Article 10).
bool takes_limit(HazardClass limit, std::span<const HazardClass> classes);

/// Whether a test for what doesn't add up looks at one of the classes.
bool may_not_add_up(std::span<const HazardClass> classes);

/// An ingredient in a test. Of a sum it counts from `from`, with its weight; where nothing adds up,
/// `from` is the limit itself.
struct Weighed {
    double weight;
    double from; // mass fraction of the mixture
    bool own_limit = false;
    bool m_not_given = false;
};

/// Nothing if it has no class that the test looks at. A class of its own limit counts from the
/// lower of that and the general cut-off (CLP Annex I 1.1.2.2.2(a)(i)), and weighs as much more as
/// its limit is lower than the general one (from memory of the ECHA Guidance on the Application of
/// the CLP Criteria: a sum of fraction/limit, held against 1).
std::optional<Weighed> weighed_in(const HazardTest& test, const Ingredient& one);

/// What the whole candle is like, for aspiration.
struct Flow {
    bool liquid = false;             // at 20 °C (CLP Annex I 1.0); wax is solid
    std::optional<double> viscosity; // kinematic, mm²/s at 40 °C; unknown counts as thin
};

/// Of a sum of Asp. Tox. 1 that is reached.
TestOutcome outcome_for(const Flow& flow);

/// The mass fraction from which a sensitiser of this class may set off somebody who is sensitised
/// already: one tenth of its own limit (CLP Annex II 2.10), or that of its class. 0 of other
/// classes.
double named_from(const Ingredient& one, HazardClass hazard);

/// Every test in which an ingredient has a class, in the order of the table. Ingredients are
/// merged().
std::vector<Worked> work_sums(std::span<const Ingredient> ingredients, const Flow& flow);

} // namespace waxwright
