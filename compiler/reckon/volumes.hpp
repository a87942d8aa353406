// Volumes of vessels and of their empty tops. Lengths in mm, volumes in ml, 1 ml = 1000 mm³.
// Lengths are 0 or more; a vessel's own diameters and depth are over 0.
#pragma once

#include "units/water.hpp"

namespace waxwright {

/// ml that `grams` of water at 20 °C fill: grams / water_at_20. Any mass from 0. Weighing the
/// water a container holds at 20 °C is the method of ISO 8106 for the capacity of glass containers.
double water_ml(double grams);

/// π/4 d² h: a straight-sided vessel, or the empty top of one (solid geometry).
double cylinder_ml(double diameter, double height);

/// π/12 h (d1² + d1 d2 + d2²): a frustum of a cone, either end the wider (solid geometry).
double taper_ml(double mouth, double base, double height);

/// Inside diameter in mm at `depth` below the mouth, by similar triangles: d1 + (d2 - d1) depth/h.
/// A depth under 0 or over the whole `height` is taken as the mouth or the base.
double diameter_at(double mouth, double base, double height, double depth);

/// ml of the empty top of a taper: the frustum from the mouth to `depth` below it; the whole vessel
/// from a depth of `height` on.
double top_of_taper_ml(double mouth, double base, double height, double depth);

/// Inside diameter in mm at the line that `ml` of liquid reach in a taper. From
/// V = π h / (12 (d1 - d2)) (d³ - d2³), which is the frustum's volume from the base up to d:
/// d = ∛(d2³ + 12 V (d1 - d2) / (π h)). From empty to brimful; beyond, the nearer end.
double diameter_at_fill(double mouth, double base, double height, double ml);

/// mm of depth that `ml` take in a straight bore: V / (π/4 d²). Bore over 0.
double level_mm(double ml, double bore);

} // namespace waxwright
