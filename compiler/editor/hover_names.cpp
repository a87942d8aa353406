// Names: what a block is and says, what a recipe comes to, what a `let` stands for.
#include <algorithm>

#include <fmt/format.h>

#include "editor/amounts.hpp"
#include "editor/hover_parts.hpp"
#include "emit/material_units.hpp"
#include "emit/materials.hpp"
#include "plan/wording.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// "in line 12 of `bench.candle`", or without the file where it is this one.
std::string where(const Spot& spot, Span at) {
    const Source& source = spot.asked.look().source(at.file);
    const std::uint32_t line = source.place(at.begin).line;
    if (at.file == spot.asked.file) return fmt::format("in line {}", line);
    const std::string_view path = source.name();
    return fmt::format("in line {} of {}", line, Card::code(path.substr(path.rfind('/') + 1)));
}

/// "`shed-soy`, a wax like `soy`, in line 12 of `shelf.candle`."
void introduce(const Spot& spot, BlockId id, Card& card) {
    const Model& model = spot.model();
    const Block& block = model.blocks[id];
    std::string words = fmt::format("`{}`, {}", block.name, with_article(block.kind));
    if (block.like != no_block) words += fmt::format(" like `{}`", model.name(block.like));
    words += model.in_library(id) ? " of the standard library"
                                  : fmt::format(", {}", where(spot, block.name_at));
    card.say(words);
    const std::string_view about = model.text(id, Key::about);
    if (!about.empty()) card.say(card.user(about));
}

/// What it says, but for texts: each as written, and again in the other unit.
void list_entries(const Model& model, BlockId id, Card& card) {
    for (const PropertyInfo& property : properties_of(model.blocks[id].kind)) {
        const Entry* entry = model.entry(id, property.key);
        if (entry == nullptr || std::holds_alternative<Text>(entry->value)) continue;
        if (std::holds_alternative<std::monostate>(entry->value)) continue;
        const std::string again = said_again(model, *entry);
        card.item(fmt::format("{}: {}{}", word(entry->key),
                              Card::code(model.sources.slice(entry->at)),
                              again.empty() ? "" : fmt::format(" = {}", again)));
    }
}

void list_counts(const Model& model, std::string_view what, std::span<const Count> counts,
                 Card& card) {
    for (const Count& count : counts) {
        if (count.block == no_block) continue;
        card.item(fmt::format("{} {} `{}`", what, count.count, model.name(count.block)));
    }
}

void tell_numbers(const InNumbers& numbers, Card& card) {
    const RecipePlan& plan = numbers.plan;
    if (plan.to_the_line) {
        card.item("pour to the line, not to a weight");
    } else if (plan.second_pour_g > 0) {
        card.item(fmt::format("into each vessel {} at the first pour, finished {}",
                              show_pour(plan.first_pour_g, plan.scale),
                              show_pour(plan.mass_g, plan.scale)));
    } else {
        card.item(fmt::format("into each vessel {}", show_pour(plan.first_pour_g, plan.scale)));
    }
    if (plan.load_of_total > 0) card.item(fmt::format("scent: {}", both_loads(plan)));
    std::string all = fmt::format("in all {} of wax", numbers.weight(plan.wax_g));
    if (plan.scent_g > 0) all += fmt::format(", {} of scent", numbers.weight(plan.scent_g));
    if (plan.additive_g > 0)
        all += fmt::format(", {} of additives", numbers.weight(plan.additive_g));
    if (plan.leftover_g > 0)
        all += fmt::format(", {} of leftovers", numbers.weight(plan.leftover_g));
    card.item(all);
    if (plan.burn_h) {
        card.item(fmt::format("burns about {} h, by {}", show_number(*plan.burn_h, 0),
                              plan.burn_measured ? "a test burn" : "the wick's rate"));
    }
}

void tell_recipe(const Spot& spot, BlockId id, Card& card) {
    const Model& model = spot.model();
    if (const std::string_view title = model.text(id, Key::title); !title.empty())
        card.say(card.user(title));
    list_counts(model, "makes", model.count_list(id, Key::makes), card);
    if (const auto numbers = in_numbers(spot.asked.look(), id)) {
        tell_numbers(*numbers, card);
    } else {
        card.item("its weights are not worked out: see what is found in it");
    }
}

void tell_block(const Spot& spot, BlockId id, Card& card) {
    const Model& model = spot.model();
    introduce(spot, id, card);
    switch (model.blocks[id].kind) {
    case BlockKind::recipe:
        tell_recipe(spot, id, card);
        return;
    case BlockKind::batch:
        list_counts(model, "pours", model.pours_of(id), card);
        break;
    default:
        break;
    }
    if (model.in_library(id) && model.blocks[id].entries.count > 0) {
        card.lines_as_they_are(material_in_short(model, id));
        card.say(fmt::format("all of it, and where each figure is from: `waxwright materials {}`",
                             model.name(id)));
    } else {
        list_entries(model, id, card);
    }
}

void tell_let(const Spot& spot, LetId id, Card& card) {
    const Notebook& notebook = spot.asked.look().notebook;
    const Let& let = notebook.lets[id];
    card.say(fmt::format("`{}`, {}", let.name, where(spot, let.name_at)));
    if (let.value == Tree::no_node) return;
    const Tree& tree = spot.asked.look().tree(let.file);
    card.item(Card::code(tree.text(let.value)));
    const std::optional<Quantity> figure = figure_of(spot.asked.look(), id);
    if (!figure) return;
    const std::string others = in_other_units(*figure);
    card.item(fmt::format("comes to {}{}{}", show(*figure), others.empty() ? "" : " = ", others));
}

/// What is used or declared at the spot; nothing where the spot is not at a name.
struct Named {
    Symbol::What what;
    std::uint32_t id;
    Span at;
};

std::optional<Named> named_at(const Spot& spot) {
    const Notebook& notebook = spot.asked.look().notebook;
    for (const NameUse& use : notebook.uses_in(spot.asked.file)) {
        if (spot.covers(use.at)) return Named{use.to.what, use.to.id, use.at};
    }
    const std::vector<Block>& blocks = spot.model().blocks;
    for (BlockId id = 0; id < blocks.size(); ++id) {
        if (spot.covers(blocks[id].name_at))
            return Named{Symbol::What::block, id, blocks[id].name_at};
    }
    for (LetId id = 0; id < notebook.lets.size(); ++id) {
        const Span at = notebook.lets[id].name_at;
        if (spot.covers(at)) return Named{Symbol::What::let, id, at};
    }
    return std::nullopt;
}

} // namespace

std::string both_loads(const RecipePlan& plan) {
    return fmt::format("{} of the wax, {} of all", show_percent(plan.load_of_wax),
                       show_percent(plan.load_of_total));
}

std::optional<Span> tell_name(const Spot& spot, Card& card) {
    const Kind kind = spot.tree().kind(spot.inner());
    // To the tree, `jar` of `6 jar` stands where a unit may.
    if (kind != Kind::name && kind != Kind::unit) return std::nullopt;
    const std::optional<Named> named = named_at(spot);
    if (!named || named->what == Symbol::What::poisoned) return std::nullopt;
    if (named->what == Symbol::What::let) {
        tell_let(spot, named->id, card);
    } else {
        tell_block(spot, named->id, card);
    }
    return named->at;
}

} // namespace waxwright
