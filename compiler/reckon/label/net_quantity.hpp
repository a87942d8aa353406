// The net quantity on a label: the wax and what is in it, without vessel, wick and lid (common
// practice for candles; that packing does not count: 16 CFR 500.25(a)).
#pragma once

#include <optional>
#include <string>

namespace waxwright {

/// 16 CFR 500.19(a): these factors "and none others" turn one declaration into the other. They are
/// not the exact ones that everything else is reckoned with.
inline constexpr double label_g_per_oz = 28.3495;
inline constexpr double label_oz_per_g = 0.0352740;

/// A value cut to so many decimals, -9 (so many zeros) to 9, never up. What is within 1e-9 of a
/// step is on it.
double cut_down(double value, int decimals);

/// g as they are printed beside ounces, cut down: three digits, two under 100 g (16 CFR 500.19(b));
/// that it may never overstate: a NIST fact sheet that quotes the UPLR. Over 0.
double label_grams(double ounces);
/// oz as they are printed beside grams, cut down to so many decimals: one is common practice, more
/// than two is not allowed (from memory of 16 CFR 500.17). Over 0.
double label_ounces(double grams, int decimals = 1);

/// "226 g"; from 1000 g on in kg, "1.13 kg" (common practice).
std::string metric_words(double grams);
/// "8 oz"; from 1 lb on in whole pounds and what is left, "1 lb 5 oz" (from memory of 16 CFR
/// 500.9).
std::string inch_pound_words(double ounces);

/// The two figures of one label.
struct DualQuantity {
    double ounces; // as printed
    double grams;  // as printed
    /// The larger of the two is the one that is enforced (UPLR, by that fact sheet). Neither where
    /// they are the same.
    bool ounces_enforced, grams_enforced;
    double must_hold; // g, exactly what the larger says: the average of a lot is never below it (16
                      // CFR 500.25(c))
    std::string words; // "Net Wt 8 oz (226 g)"
};

/// The maker declares ounces, or grams, and the other figure follows. Over 0, else nothing.
std::optional<DualQuantity> declared_in_ounces(double ounces);
std::optional<DualQuantity> declared_in_grams(double grams, int decimals = 1);
/// Both as the maker wrote them.
std::optional<DualQuantity> declared_in_both(double ounces, double grams);

/// Inches, the least height of the figures by the area of the side of the package that is shown, in
/// square inches: from memory of 16 CFR 500.21(b).
double us_type_height(double panel_square_inches);

/// A nominal quantity of the European Union, Directive 76/211/EEC.
struct NominalQuantity {
    double nominal;       // g
    double tolerable;     // g, the tolerable negative error, not rounded
    double least_of_most; // g: few of a lot may hold less than nominal - tolerable
    double least_of_any;  // g: none may hold less than nominal - twice that, and bear the e-mark
    double average;       // g, what a lot holds on average, at the least: the nominal quantity
    double figure_height; // mm, at the least: from memory of Annex I 3.1
};

/// From 5 g to 10 kg; nothing beyond.
std::optional<NominalQuantity> nominal_quantity(double grams);

/// False if a package that was weighed, its net content in g, falls short by more than twice the
/// tolerable error.
bool may_bear_e_mark(const NominalQuantity& quantity, double found);

} // namespace waxwright
