// A small jar: what its label may do without, and how large everything on a label is.
#pragma once

#include <span>
#include <vector>

#include "reckon/label/class_facts.hpp"
#include "reckon/label/classify.hpp"
#include "units/date.hpp"

namespace waxwright {

/// ml of contents, not of the vessel up to its brim (CLP Annex I 1.5.2).
inline constexpr double small_package_ml = 125;

/// What stands on the label, and what may be left off it. Pictograms, signal word, EUH208 and names
/// always stay.
struct LabelTexts {
    std::vector<Statement> statements, statements_left_off;
    std::vector<Precaution> precautions, precautions_left_off; // six at most, both together
};

/// By CLP Annex I 1.5.2.1.1 and 1.5.2.1.2: a statement may be left off where every class that
/// brings it about lets it be. Of the six precautions of a small jar those that have to stay are
/// chosen first, and what may be left off has the room that is over.
LabelTexts label_texts(const Classification& classification, double contents_ml);

/// Those of the classes that six at most had no room for: neither on the label nor left off.
std::vector<Precaution> precautions_cut(std::span<const HazardClass> classes,
                                        const LabelTexts& texts);

struct LabelSizes {
    double label_mm[2];
    double pictogram_mm;        // each side, at the least; and never under a fifteenth of the least
                                // label (CLP Annex I 1.2.1)
    double better_pictogram_mm; // if possible
    double x_height_mm;         // 0 before it applies
};

/// From this day on there is a least x-height, by Regulation (EU) 2024/2865 as an act of 2025 (from
/// memory (EU) 2025/2439) put it off. What was still negotiated then may change it.
inline constexpr Date x_height_from{2028, 1, 1};

/// `litres`: what the package holds, over 0.
LabelSizes label_sizes(double litres, const Date& today);

} // namespace waxwright
