// The drawings of a label: hazard pictograms, warning signs and what stands beside cautions.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "plan/label.hpp"

namespace waxwright {

/// A drawing, by symbols.def.
enum class LabelSymbol : std::uint8_t {
#define SYMBOL(identifier, ...) identifier,
#include "emit/symbols.def"
};

/// "a clock".
std::string_view words(LabelSymbol symbol);

/// GHS0n; nothing for one that is not drawn.
std::optional<LabelSymbol> pictogram_of(int number);
LabelSymbol symbol_of(CautionSign sign);
LabelSymbol symbol_of(FireHead head);

/// Stands on a point: its side is what a rule measures, and it takes `across(side)` both ways.
bool is_pictogram(LabelSymbol symbol);
/// The diagonal of a square.
double across(double side);

/// A group of SVG, with what it is as its title. It fills `size` by `size` from x, y on, in the
/// units of what it is put into; x is to the right, y down.
std::string svg_symbol(LabelSymbol symbol, double x, double y, double size);

} // namespace waxwright
