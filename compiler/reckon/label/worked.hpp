// A test of the label's arithmetic as it was worked, so that a person can follow it line by line.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reckon/label/ingredient.hpp"

namespace waxwright {

/// How sure a figure is: its text was read, or is remembered only.
enum class Evidence : std::uint8_t { read, memory };

enum class TestOutcome : std::uint8_t {
    reached,
    not_reached,
    not_needed,  // a graver class of the same group holds already
    for_liquids, // for liquids only, and the candle is solid
    too_thick,   // reached, but it is too thick to be breathed in
};

struct WorkedTerm {
    std::string name;
    double fraction;  // of the mixture
    double weight;    // what it is multiplied by; of acute toxicity the estimate it is divided by
    double value;     // what it adds to the sum
    bool counts;      // false where there is too little of it to count
    double from;      // the fraction from which it counts
    bool own_limit;   // that, or the weight, is of a limit of its own
    bool m_not_given; // an M-factor of 1 is taken
    bool is_point;    // the estimate is that of its category
};

/// Acute toxicity, 100 / ATE of the mixture = sum of percent / ATE (UN GHS ST/SG/AC.10/C.4/2008/23,
/// annex 2, example 4).
struct AcuteSum {
    Route route;
    double sum;      // of fraction / estimate
    double unknown;  // fraction of which nothing is known; 0 where that is at most 10 %
    double estimate; // of the mixture, in the route's unit; infinite if nothing counts
};

/// `sum` and `limit` are mass fractions; where nothing adds up, `sum` is the largest that there is
/// of one ingredient. Of acute toxicity see `acute`.
struct Worked {
    HazardClass gives;     // what it gives, or would give
    std::string_view test; // "10 × Skin Corr. 1 + Skin Irrit. 2"
    std::vector<WorkedTerm> terms;
    bool adds_up = true;
    double sum = 0;
    double limit = 0; // equality reaches it; of acute toxicity the class's highest estimate
    TestOutcome outcome = TestOutcome::not_reached;
    std::string_view source;
    Evidence evidence = Evidence::memory;
    std::optional<AcuteSum> acute;
};

/// The test in lines of plain text: what is tested, a line for each term, the outcome, the source.
std::vector<std::string> lines_of(const Worked& worked);

} // namespace waxwright
