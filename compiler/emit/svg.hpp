// The heat plan as a picture: SVG 1.1, black and white, for a sheet of A5.
#pragma once

#include <span>
#include <string>

#include "plan/picture.hpp"
#include "plan/plan.hpp"

namespace waxwright {

/// A panel for each recipe of the plan, one under another, each with its curve, its numbered steps
/// and the same told in words. `pictures` has one for each recipe, in their order. Lengths are mm:
/// a panel is 148 wide and 210 high, or higher where its steps need it. °F comes first with `us`.
std::string svg_picture(const Plan& plan, std::span<const HeatPicture> pictures, bool us);

} // namespace waxwright
