#include <fmt/format.h>

#include "editor/amounts.hpp"
#include "editor/features.hpp"
#include "editor/hover_parts.hpp"

namespace waxwright {

namespace {

/// What the recipe takes of the item or the load that the spot lies in.
std::optional<Span> tell_taken(const Spot& spot, Card& card) {
    const BlockId id = spot.block();
    if (id == no_block || spot.model().blocks[id].kind != BlockKind::recipe) return std::nullopt;
    if (spot.within(Kind::value) == Tree::no_node) return std::nullopt;
    const auto numbers = in_numbers(spot.asked.look(), id);
    if (!numbers) return std::nullopt;
    for (const Taken& taken : taken_by(spot.asked.look(), *numbers)) {
        if (!spot.covers(taken.at)) continue;
        const Entry* entry = spot.entry();
        const bool load = entry != nullptr && entry->key == Key::load;
        card.say(fmt::format("In `{}`: {}{} of {}, {} in each of {}.", spot.model().name(id),
                             load ? both_loads(numbers->plan) + "; " : "",
                             numbers->weight(taken.grams), taken.what,
                             numbers->weight_in_each(taken.grams), numbers->plan.count));
        return taken.at;
    }
    return std::nullopt;
}

} // namespace

Reply hover(const Asked& asked, const Json& /*params*/) {
    const Spot spot(asked);
    Card card(asked.view.client.markdown);
    // The maker's own grams first: a material's page is long.
    const std::optional<Span> taken = tell_taken(spot, card);
    std::optional<Span> at;
    for (const auto tell : {tell_name, tell_word, tell_figure, tell_unread}) {
        at = tell(spot, card);
        if (at) break;
    }
    if (!at) at = taken;
    if (!at) return Json();
    return Json{{"contents",
                 {{"kind", card.markdown() ? "markdown" : "plaintext"}, {"value", card.text()}}},
                {"range", asked.view.range(*at)}};
}

} // namespace waxwright
