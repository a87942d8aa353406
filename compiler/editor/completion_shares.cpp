// Blends, loads and lets in a completion: what is made of shares.
#include <algorithm>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"

namespace waxwright {

using What = TypedWord::What;

std::vector<std::string_view> names_in(const TypedWords& tokens) {
    std::vector<std::string_view> names;
    for (const TypedWord& token : tokens.all) {
        if (token.what == What::word) names.push_back(token.text);
    }
    return names;
}

namespace {

/// Places in blends: `80% NAME`.
void add_share_of_names(Completing& c, const PropertyInfo& info) {
    if (!c.snippets()) return;
    c.add(Group::first, {.label = "…% " + std::string(word(info.refers)),
                         .kind = ProposalKind::value,
                         .detail = "a share, then a name",
                         .text = "$1% $0",
                         .snippet = true});
}

} // namespace

void complete_blend(Completing& c, const PropertyInfo& info, const TypedWords& tokens) {
    const std::vector<TypedWord>& all = tokens.all;
    const auto plus = std::ranges::find(all.rbegin(), all.rend(), "+", &TypedWord::text);
    const auto begin = static_cast<std::size_t>(all.rend() - plus); // behind it
    const std::size_t size = all.size() - begin;
    const std::vector<std::string_view> taken = names_in(tokens);
    const bool shares = info.shape == Shape::shares;
    if (size == 0) {
        const bool first = begin == 0;
        if (first) add_lets(c, info);
        if (!first || shares) add_share_of_names(c, info);
        if (first && !shares) add_names(c, {.of = only(info.refers)}, Group::first);
        if (!first && !shares && !tokens.has("rest")) {
            add_names(c, {.of = only(info.refers), .before = "rest ", .except = taken},
                      Group::first);
        }
        return;
    }
    if (size == 1 && tokens.wants_unit()) {
        for (const std::string_view unit : {"%", "parts", "part"}) {
            if (shares && unit != "%") continue;
            Proposal item{.label = std::string(unit), .kind = ProposalKind::unit};
            item.at = c.from(c.asked.offset - static_cast<std::uint32_t>(tokens.word_length));
            c.add(Group::first, std::move(item));
        }
        return;
    }
    const bool amount = size == 2 && all[begin].what == What::number;
    if (amount || tokens.ends_in(")") || tokens.ends_in("rest")) {
        add_lets(c, info);
        add_names(c, {.of = only(info.refers), .except = taken}, Group::first);
    } else if (tokens.ends_in(What::word) && tokens.has("parts") && !tokens.has("by")) {
        add_words(c, {"by volume"});
    }
}

namespace {

/// "`soy` holds 10% of wax at most", of each wax of the recipe.
std::string most_held(const Completing& c) {
    const Model& model = c.asked.look().model();
    const BlockId id = block_here(c);
    std::string words;
    if (id == no_block) return words;
    for (const Share& share : model.blend(id, Key::wax)) {
        const Entry* most = model.entry(share.material, Key::max_load);
        if (most == nullptr) continue;
        words += fmt::format("{}`{}` holds {} at most", words.empty() ? "" : "; ",
                             model.name(share.material), model.sources.slice(most->at));
    }
    return words;
}

} // namespace

void complete_load(Completing& c, const PropertyInfo& info, const TypedWords& tokens) {
    const auto unit = [&](std::string_view text) {
        Proposal item{.label = std::string(text), .kind = ProposalKind::unit};
        item.at = c.from(c.asked.offset - static_cast<std::uint32_t>(tokens.word_length));
        c.add(Group::first, std::move(item));
    };
    if (tokens.empty()) {
        add_lets(c, info);
        const bool own = !is_matter(c.place.kind); // else its supplier says it
        if (!c.snippets() && own) return add_examples(c, info);
        const std::string most = info.key == Key::load ? most_held(c) : std::string();
        for (const std::string_view share : {"% of wax", "% of total"})
            add_example(c, Group::first, fmt::format("…{}", share), most);
        const bool us = is_in_us_units(c.asked);
        add_example(c, Group::first, us ? "… oz per lb of wax" : "… g per kg of wax", most);
    } else if (tokens.wants_unit()) {
        const bool us = is_in_us_units(c.asked);
        if (us) unit("oz per lb of wax");
        unit("% of wax");
        unit("% of total");
        if (!us) unit("g per kg of wax");
        if (!us) unit("oz per lb of wax");
        if (info.shape == Shape::kept) add_units(c, tokens, dimension::mass, Group::then);
    } else if (tokens.ends_in("of")) {
        add_words(c, {"wax", "total"});
    } else if (tokens.has("of")) {
        return;
    } else if (tokens.ends_in("per")) {
        add_words(c, {"lb", "kg"});
    } else if (tokens.ends_in("%") || tokens.has("per")) {
        add_words(c, {"of wax", "of total"});
    } else if (tokens.ends_in_unit() && info.shape == Shape::load) {
        add_words(c, {"per lb of wax", "per kg of wax"});
    }
    if (tokens.ends_in_doubt() && tokens.blank) add_words(c, {"of wax", "of total"});
}

namespace {

/// Any unit may come.
void add_all_units(Completing& c, const TypedWords& tokens) {
    for (const std::string_view part : {"% of wax", "% of total", "parts", "part"}) {
        Proposal unit{.label = std::string(part), .kind = ProposalKind::unit};
        unit.at = c.from(c.asked.offset - static_cast<std::uint32_t>(tokens.word_length));
        c.add(Group::first, std::move(unit));
    }
    for (const Dimension each :
         {dimension::ratio, dimension::mass, dimension::volume, dimension::length, dimension::point,
          dimension::interval, dimension::time, dimension::money})
        add_units(c, tokens, each, Group::then);
}

} // namespace

/// A let may be a figure, a load or a blend.
void complete_let(Completing& c, std::string_view typed) {
    const TypedWords tokens = tokens_of(typed);
    const bool share = tokens.ends_in("%") || tokens.ends_in("parts") || tokens.ends_in("part");
    if (tokens.wants_unit()) return add_all_units(c, tokens);
    if (tokens.ends_in("of")) return add_words(c, {"wax", "total"});
    if (!share && !tokens.ends_in("rest")) return;
    for (const BlockKind kind : {BlockKind::oil, BlockKind::wax}) {
        add_lets(c, {.block = BlockKind::recipe,
                     .key = Key::scent,
                     .shape = Shape::blend,
                     .refers = kind,
                     .doc = {}});
    }
    add_names(c, {.of = is_matter, .except = names_in(tokens)}, Group::first);
    if (tokens.ends_in("%") && tokens.all.size() == 2) {
        add_words(c, {"of wax", "of total"}, Group::first);
    }
}

} // namespace waxwright
