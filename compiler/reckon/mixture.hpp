// Densities of mixtures and of liquids. g, ml, g/ml, °C.
#pragma once

#include <optional>

namespace waxwright {

/// A mixture by volume additivity: 1/ρ = Σ wi/ρi, wi mass fractions. Equivalent to averaging by
/// volume fraction, as in a published Law of Mixtures reference; nothing shrinks or swells on
/// mixing. The amounts need not sum to 1.
class Mixture {
public:
    /// So much of a density over 0.
    void add(double grams, double density) {
        grams_ += grams;
        ml_ += grams / density;
    }
    /// Nothing of an empty mixture, or where the amounts are out of all bounds.
    std::optional<double> density() const;

private:
    double grams_ = 0;
    double ml_ = 0;
};

/// Fraction by which a liquid grows thinner for each C°, where only one density was measured:
/// 0.0008. From memory of Ukrainczyk et al. 2010 for paraffin (7 to 9e-4; of the paper only the
/// abstract was seen); fats are near it (7.1e-4, worked out from tristearin's 0.862 at 80 °C and
/// 0.8559 at 90 °C).
inline constexpr double liquid_expansion = 0.0008;

/// Share of the solid density a liquid wax is taken to have in checks of room, where none was
/// measured: the thin side of what waxes do (common practice).
inline constexpr double thin_liquid = 0.86;

/// C°. So far from where a liquid density was measured the straight line through it is no guide
/// any more, and nothing is weighed by it (common practice).
inline constexpr double furthest_from_density = 40;

/// A density that is linear in temperature: ρ(T) = value + slope (T - celsius).
struct DensityLine {
    double value;   // g/ml
    double celsius; // at which `value` holds
    double slope;   // g/ml per C°

    /// Nothing where the line has run down to 0 or below it, or is out of all bounds.
    std::optional<double> at(double temperature) const;
};

/// Through one measured point, by the rule of thumb: ρ(T) = ρ1 (1 - 0.0008 (T - T1)).
DensityLine line_through(double density, double celsius);
/// Through two measured points (linear interpolation, and beyond them the same line). At one
/// temperature twice it is the rule of thumb from the first.
DensityLine line_through(double density1, double celsius1, double density2, double celsius2);

/// What goes into one vessel, in g.
struct Pours {
    double mass;               // of the finished candle
    double first;              // the first pour
    double second = 0;         // up to so much is kept back
    double sunk = 0;           // what the second pour has to fill
    double kept = 0;           // what is held back for it
    bool no_shrinkage = false; // a second pour was wanted and nothing is left for it
};

/// Without a second pour: all that fills the vessel to the line as a liquid, m = Vf ρ_liquid.
Pours one_pour(double fill_ml, double liquid);
/// With one, the finished candle is solid to the line: m = Vf ρ_solid, the first pour is
/// Vf ρ_liquid and the rest is kept back. A wax that doesn't shrink (nothing left, to 1e-9 of m)
/// counts as poured once.
Pours two_pours(double fill_ml, double solid, double liquid);

/// What of the two is poured where the maker says how much to keep back. Of less than what sinks
/// the candle stays so much lighter; of more the rest is left over.
Pours with_kept(Pours pours, double kept);
/// What is kept back of each vessel's wax where that is a share k of all that is melted for it:
/// k m1 / (1 - k), as the first pour m1 is what the vessel takes.
double kept_of_melted(double first, double share);

/// ml of hollow where `first` grams, poured to the line, have set solid: Vf - m1/ρ_solid.
double hollow_ml(double fill_ml, double first, double solid);

} // namespace waxwright
