#include "reckon/volumes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace waxwright {

namespace {

using std::numbers::pi;

constexpr double mm3_per_ml = 1000;

} // namespace

double water_ml(double grams) {
    return grams / water_at_20;
}

double cylinder_ml(double diameter, double height) {
    return pi / 4 * diameter * diameter * height / mm3_per_ml;
}

double taper_ml(double mouth, double base, double height) {
    return pi / 12 * height * (mouth * mouth + mouth * base + base * base) / mm3_per_ml;
}

double diameter_at(double mouth, double base, double height, double depth) {
    const double part = std::clamp(depth / height, 0.0, 1.0);
    return mouth + (base - mouth) * part;
}

double top_of_taper_ml(double mouth, double base, double height, double depth) {
    const double cut = std::clamp(depth, 0.0, height);
    return taper_ml(mouth, diameter_at(mouth, base, height, cut), cut);
}

double diameter_at_fill(double mouth, double base, double height, double ml) {
    const double volume = ml * mm3_per_ml;
    const double cube = base * base * base + 12 * volume * (mouth - base) / (pi * height);
    return std::clamp(std::cbrt(cube), std::min(mouth, base), std::max(mouth, base));
}

double level_mm(double ml, double bore) {
    return ml * mm3_per_ml / (pi / 4 * bore * bore);
}

} // namespace waxwright
