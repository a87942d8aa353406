// The batch sheet for people: GitHub-flavoured Markdown to pin up by the stove.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

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

/// The parts of a sheet, which paper sets each in its own way: `work` is a recipe's weights and
/// steps by itself, `recipe` the same as one of a batch.
enum class SheetPart : std::uint8_t {
    head,
    dangers,
    cautions,
    ready,
    order,
    work,
    recipe,
    day,
    glance,
    cure,
    record,
    money
};
struct SheetPiece {
    SheetPart part;
    std::string markdown;
};
std::vector<SheetPiece> markdown_pieces(const Plan& plan, const SheetStyle& style);

/// The pieces, one after another.
std::string markdown_sheet(const Plan& plan, const SheetStyle& style);

} // namespace waxwright
