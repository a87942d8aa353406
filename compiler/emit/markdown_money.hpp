// Money in Markdown: parts of the sheet, and the shopping list as a page of its own.
#pragma once

#include <string>

#include "emit/markdown_writer.hpp"

namespace waxwright {

void write_cost(SheetWriter& sheet);
void write_buy(SheetWriter& sheet);
/// Under the weigh-out: which lots there are to choose from.
void write_lots(SheetWriter& sheet);

/// What to buy for a recipe or a batch, and what it costs.
std::string markdown_buy(const Plan& plan);

} // namespace waxwright
