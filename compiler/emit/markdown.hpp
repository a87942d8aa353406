// The batch sheet for people: GitHub-flavoured Markdown to pin up by the stove.
#pragma once

#include <string>

#include "plan/plan.hpp"

namespace waxwright {

/// What comes first where a figure can be given two ways. Weights always stand in the scale's own
/// unit, once. With neither, the scale in which the recipe writes its temperatures decides.
struct SheetStyle {
    bool us_units = false;     // °F before °C, fl oz, in
    bool metric_units = false; // °C before °F, ml, mm; goes before us_units
    bool with_cost = false;
    bool with_buy = false;
};

std::string markdown_sheet(const Plan& plan, const SheetStyle& style);

} // namespace waxwright
