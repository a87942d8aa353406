#include "emit/markdown.hpp"

#include "emit/markdown_money.hpp"
#include "emit/markdown_parts.hpp"

namespace waxwright {

namespace {

/// True if scales or ends in °F are what the reader wants first.
bool wants_us_units(const Plan& plan, const SheetStyle& style) {
    return !style.metric_units && (style.us_units || plan.us_units);
}

/// Collects the parts; one that has nothing to say isn't there.
class Pieces {
public:
    Pieces(const Plan& plan, bool us) : sheet(plan, us) {}

    SheetWriter sheet;

    void end(SheetPart part) {
        std::string text = sheet.take();
        if (!text.empty()) pieces_.push_back({part, std::move(text)});
    }
    std::vector<SheetPiece> take() { return std::move(pieces_); }

private:
    std::vector<SheetPiece> pieces_;
};

void write_head(Pieces& pieces) {
    write_title(pieces.sheet);
    pieces.end(SheetPart::head);
    write_dangers(pieces.sheet);
    pieces.end(SheetPart::dangers);
    write_cautions(pieces.sheet);
    pieces.end(SheetPart::cautions);
}

void write_ready(Pieces& pieces) {
    write_before(pieces.sheet);
    pieces.end(SheetPart::ready);
}

void write_record_part(Pieces& pieces) {
    write_record(pieces.sheet);
    pieces.end(SheetPart::record);
}

/// Of a recipe by itself, all that the hands need comes first.
void write_recipe_sheet(Pieces& pieces) {
    write_weigh_out(pieces.sheet, 0);
    write_steps(pieces.sheet, 0);
    pieces.end(SheetPart::work);
    write_ready(pieces);
}

/// A batch has more to get ready, then a piece for each recipe in the order worked.
void write_batch_sheet(Pieces& pieces) {
    write_ready(pieces);
    write_order(pieces.sheet);
    write_melters(pieces.sheet);
    pieces.end(SheetPart::order);
    for (const std::size_t recipe : worked_order(pieces.sheet.plan)) {
        write_recipe_heading(pieces.sheet, recipe);
        write_weigh_out(pieces.sheet, recipe);
        write_steps(pieces.sheet, recipe);
        pieces.end(SheetPart::recipe);
    }
}

} // namespace

std::vector<SheetPiece> markdown_pieces(const Plan& plan, const SheetStyle& style) {
    Pieces pieces(plan, wants_us_units(plan, style));
    write_head(pieces);
    plan.is_batch ? write_batch_sheet(pieces) : write_recipe_sheet(pieces);
    write_day(pieces.sheet);
    pieces.end(SheetPart::day);
    if (plan.is_batch) write_record_part(pieces);
    write_more_to_mind(pieces.sheet);
    write_glance(pieces.sheet);
    pieces.end(SheetPart::glance);
    write_afterwards(pieces.sheet);
    pieces.end(SheetPart::cure);
    if (!plan.is_batch) write_record_part(pieces);
    if (style.with_cost) write_cost(pieces.sheet);
    if (style.with_buy) write_buy(pieces.sheet);
    pieces.end(SheetPart::money);
    return pieces.take();
}

std::string markdown_sheet(const Plan& plan, const SheetStyle& style) {
    std::string text;
    for (const SheetPiece& piece : markdown_pieces(plan, style))
        text += piece.markdown;
    return text;
}

} // namespace waxwright
