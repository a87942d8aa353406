// The parts of the sheet; markdown.cpp has their order.
#pragma once

#include "emit/markdown_writer.hpp"

namespace waxwright {

void write_title(SheetWriter& sheet);
/// At most three lines, the worst first; the rest stands in `write_more_to_mind`.
void write_dangers(SheetWriter& sheet);
void write_more_to_mind(SheetWriter& sheet);
void write_cautions(SheetWriter& sheet);
void write_before(SheetWriter& sheet);
/// A batch's recipes as they are worked, and what a melter takes.
void write_order(SheetWriter& sheet);
void write_melters(SheetWriter& sheet);
void write_recipe_heading(SheetWriter& sheet, std::size_t recipe);
void write_glance(SheetWriter& sheet);
void write_weigh_out(SheetWriter& sheet, std::size_t recipe);
/// The day as one line of time, where there is more than one filling.
void write_day(SheetWriter& sheet);
void write_steps(SheetWriter& sheet, std::size_t recipe);
void write_afterwards(SheetWriter& sheet);
void write_test_burn(SheetWriter& sheet, const RecipePlan& recipe);
void write_record(SheetWriter& sheet);

/// A step's sentence; its temperature in both scales, its length in the sheet's unit.
void write_sentence(SheetWriter& sheet, const StepPlan& step);
/// The same in a few words; with a small letter where it doesn't begin the line.
void write_brief(SheetWriter& sheet, const StepPlan& step, bool begins);
/// The titles of some of the recipes, with commas; nothing where it is all of them.
void write_whose(SheetWriter& sheet, const std::vector<std::size_t>& recipes);
/// A time of the day: by the clock where the batch says when it starts ("09:42", another day with
/// its date), else counted from the beginning ("0:42", "1 d 3:10").
void write_clock(SheetWriter& sheet, double minutes);
/// The same with a + behind it where it is the earliest there can be.
void write_clock(SheetWriter& sheet, double minutes, bool at_least);
/// How to read the times, and why some are not known.
void write_times_said(SheetWriter& sheet);

} // namespace waxwright
