// What Regulation (EC) No 1272/2008 (CLP) makes of a candle as a mixture, by the arithmetic of its
// Annex I on the classes of its ingredients; as consolidated on 2025-09-01, the version of that
// text that was read. It knows only what it is told: not what a supplier's sheet leaves out, not
// tests of the mixture, and no law but this one.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "reckon/label/class_facts.hpp"
#include "reckon/label/ingredient.hpp"
#include "reckon/label/sums.hpp"
#include "reckon/label/worked.hpp"

namespace waxwright {

/// The class of an ingredient for which there is no arithmetic: a flash point has to be measured.
struct NotReckoned {
    std::string name;
    HazardClass hazard;
};

struct Classification {
    std::vector<HazardClass> classes;       // what the candle gets, in the order of the table
    std::vector<Statement> statements;      // for the label: what another covers is left off
    Signal signal = Signal::none;           // the gravest
    std::vector<int> pictograms;            // n of GHS0n, ascending
    std::vector<Precaution> precautions;    // six at most (from memory of Article 28(3)), of what
                                            // is no small package: see label_texts()
    std::vector<std::string> named;         // substances that bring about the classes, by name;
                                            // normally four at most (from memory of Article 18(3))
    std::vector<std::string> sensitisers;   // those of EUH208: it is no sensitiser, but they are
    std::vector<Worked> worked;             // each test in which an ingredient has a class
    double unknown = 0;                     // fraction of which nothing is known: never harmless
    std::vector<std::string> unknown_names; // those of it that have a name
    std::vector<NotReckoned> not_reckoned;
    bool for_health = false; // a class of health or of physics: a poison centre is told (from
                             // memory of Article 45 and Annex VIII)
};

/// `ingredients` in any order, fractions of the finished candle; a substance of two oils may stand
/// twice. Wax is one of them, or it counts as unknown. Of nothing it is nothing.
Classification classify(std::span<const Ingredient> ingredients, const Flow& flow = {});

/// The codes of a label's hazard sentences: "H411", and "EUH208" where a sensitiser is named.
std::vector<std::string> codes_of(const Classification& classified);
/// The same as codes_of(classify(ingredients)), without what else a label has.
std::vector<std::string> codes_for(std::span<const Ingredient> ingredients);

/// An ingredient that sensitises, and the mass fraction from which it sets off somebody who is
/// sensitised already; see named_from().
struct Sensitiser {
    std::string name;
    double fraction, from; // the lowest, where several classes have one
    bool own_limit;        // that is a tenth of its own limit
    bool is_named;         // there is so much of it
};
/// Of a candle, by name.
std::vector<Sensitiser> sensitisers_of(std::span<const Ingredient> ingredients);

/// Those that count for a STOT SE 3 whose sentence nobody says, H335 or H336, by name; empty where
/// it isn't reached.
std::vector<std::string> without_sentence(std::span<const Ingredient> ingredients,
                                          const Classification& classification);

/// "Contains linalool, coumarin. May produce an allergic reaction." (CLP Annex II 2.8); empty if
/// there is none.
std::string euh208(const Classification& classification);

} // namespace waxwright
