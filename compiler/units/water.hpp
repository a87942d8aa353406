// The one figure of water that is reckoned with.
#pragma once

namespace waxwright {

/// g/ml of water at 20 °C. The water density tables have 0.998207; its first four digits also turn
/// the relative densities d(20/20) of oils into g/ml, and a kitchen scale shows no more.
inline constexpr double water_at_20 = 0.99820;

} // namespace waxwright
