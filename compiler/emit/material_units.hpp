// A material's figure said again: between which two it lies, and in the other unit.
#pragma once

#include <string>

#include "model/model.hpp"

namespace waxwright {

/// "0.87 to 0.97 g/ml, 0.91 to 1.01 oz per fl oz", "38 to 54 °C, 100 to 129 °F", "1.6 oz
/// per lb of wax; 9.09% of wax and scent together"; of what an oil contains how much of it that is;
/// classes of hazard as the regulation abbreviates them. Empty where there is nothing to add: no
/// doubt, and no other unit that helps. The ends of a doubt are rounded to what the unit is read
/// to; the figure as written counts.
std::string said_again(const Model& model, const Entry& entry);

/// True if the figure has a doubt.
bool is_doubtful(const Entry& entry);

} // namespace waxwright
