// A label as it is printed, at its true size: SVG 1.1. Black on white; the borders of hazard
// pictograms are red.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "plan/label.hpp"

namespace waxwright {

/// Where on its vessel a label has room.
enum class LabelPlace : std::uint8_t {
    front,  // on a third of what is round it: seen at once
    half,   // on a half
    around, // a band
    apart,  // not on it as it is, or nobody knows
};

/// A label as a group of SVG, from 0,0 on in mm, for a picture of its own or as one of many.
struct LabelDrawing {
    double width, height; // mm
    std::string group;
    LabelPlace place = LabelPlace::apart;
};

/// No letter, drawing or figure is smaller than the label's sizes ask: where the words need more
/// room the label grows. Where it is known how far it is round the vessel and how tall that is, the
/// label is the narrowest that has room: on a third of what is round it, else on a half, else as a
/// band, if its height is said and not only reckoned. Where none has, or nobody knows, it grows in
/// its own proportions up to a half of what is round it, and then in its height alone. A label may
/// lie on its side: 52 × 74 mm are 74 × 52 mm as well, as Table 1.3 doesn't say which is its
/// height. A pictogram's side is the better size if the least one is smaller, and a fifteenth of
/// the least label (CLP Annex I 1.2.1); lines are 122 % of their letters apart, over the 120 % of
/// Regulation (EU) 2024/2865 (by consultancies' summaries). The net quantity stands by itself at
/// the foot (the lower 30 % of the panel: from memory of 16 CFR 500.6), with its own height free
/// above it.
LabelDrawing draw_label(const Label& label);

/// The same as a file; several stand one under another.
std::string svg_labels(std::span<const Label> labels);

/// What an `svg` element around labels has to say of its letters.
inline constexpr std::string_view label_letters =
    "font-family=\"Liberation Sans, Arial, Helvetica, sans-serif\" "
    "style=\"font-kerning:none;font-variant-ligatures:none\"";

} // namespace waxwright
