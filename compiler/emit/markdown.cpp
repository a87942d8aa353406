#include "emit/markdown.hpp"

#include "emit/markdown_money.hpp"
#include "emit/markdown_parts.hpp"

namespace waxwright {

std::string markdown_sheet(const Plan& plan, const SheetStyle& style) {
    const bool us = style.us_units || (plan.us_units && !style.metric_units);
    SheetWriter sheet(plan, us && !style.metric_units);
    // First what the hands need: of a recipe its dangers, weights and steps stand on one page. A
    // batch has more to get ready, and its steps are told by the day.
    write_title(sheet);
    write_mind(sheet);
    write_cautions(sheet);
    if (plan.is_batch) write_before(sheet);
    write_weigh_out(sheet);
    write_steps(sheet);
    write_day(sheet);
    if (!plan.is_batch) write_before(sheet);
    write_glance(sheet);
    write_afterwards(sheet);
    write_record(sheet);
    if (style.with_cost) write_cost(sheet);
    if (style.with_buy) write_buy(sheet);
    return sheet.take();
}

} // namespace waxwright
