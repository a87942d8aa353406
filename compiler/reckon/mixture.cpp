#include "reckon/mixture.hpp"

#include <algorithm>

#include "reckon/number.hpp"

namespace waxwright {

std::optional<double> Mixture::density() const {
    return positive(grams_ / ml_); // of nothing it is 0/0, which is no number
}

std::optional<double> DensityLine::at(double temperature) const {
    return positive(value + slope * (temperature - celsius));
}

DensityLine line_through(double density, double celsius) {
    return {density, celsius, -liquid_expansion * density};
}

DensityLine line_through(double density1, double celsius1, double density2, double celsius2) {
    if (celsius1 == celsius2) return line_through(density1, celsius1);
    return {density1, celsius1, (density2 - density1) / (celsius2 - celsius1)};
}

Pours one_pour(double fill_ml, double liquid) {
    const double mass = fill_ml * liquid;
    return {.mass = mass, .first = mass};
}

Pours two_pours(double fill_ml, double solid, double liquid) {
    const double mass = fill_ml * solid;
    const double first = fill_ml * liquid;
    if (mass - first <= same * mass) {
        return {.mass = first, .first = first, .no_shrinkage = true};
    }
    const double sunk = mass - first;
    return {.mass = mass, .first = first, .second = sunk, .sunk = sunk, .kept = sunk};
}

Pours with_kept(Pours pours, double kept) {
    pours.kept = kept;
    pours.second = std::min(kept, pours.sunk);
    if (kept < pours.sunk) pours.mass = pours.first + kept;
    return pours;
}

double kept_of_melted(double first, double share) {
    return share * first / (1 - share);
}

double hollow_ml(double fill_ml, double first, double solid) {
    return fill_ml - first / solid;
}

} // namespace waxwright
