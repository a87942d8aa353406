// The nine parts of the sheet, in the order in which they stand on it.
#pragma once

#include "emit/markdown_writer.hpp"

namespace waxwright {

void write_title(SheetWriter& sheet);
void write_mind(SheetWriter& sheet);
void write_cautions(SheetWriter& sheet);
void write_before(SheetWriter& sheet);
void write_glance(SheetWriter& sheet);
void write_weigh_out(SheetWriter& sheet);
void write_steps(SheetWriter& sheet);
void write_afterwards(SheetWriter& sheet);
void write_record(SheetWriter& sheet);

} // namespace waxwright
