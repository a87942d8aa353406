// Values in a completion, by the shape that the schema has for the property.
#include <algorithm>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"
#include "model/hazard_class.hpp"
#include "model/phrase_text.hpp"

namespace waxwright {

namespace {

using What = TypedWord::What;

void add_choices(Completing& c, std::string_view words, const TypedWords& tokens) {
    while (!words.empty()) {
        const std::string_view word = words.substr(0, words.find(' '));
        words.remove_prefix(std::min(word.size() + 1, words.size()));
        if (tokens.has(word)) continue;
        c.add(Group::first, {.label = std::string(word), .kind = ProposalKind::choice});
    }
}

void add_hazards(Completing& c, const TypedWords& tokens) {
    for (const std::string_view each : hazard_class_words()) {
        const auto hazard = find_hazard_class(each);
        if (!hazard || tokens.has(each)) continue;
        c.add(Group::first, {.label = std::string(each),
                             .kind = ProposalKind::choice,
                             .detail = std::string(abbreviation(*hazard))});
    }
    if (tokens.empty()) c.add(Group::then, {.label = "none", .kind = ProposalKind::choice});
}

void add_text(Completing& c) {
    c.add(Group::first, {.label = "\"…\"",
                         .kind = ProposalKind::value,
                         .text = with_places("\"…\"", c.snippets()),
                         .snippet = true});
}

/// `6 marsh-glass`, with others behind commas where it takes several.
void complete_count(Completing& c, const PropertyInfo& info, const TypedWords& tokens) {
    const std::vector<TypedWord>& all = tokens.all;
    const std::size_t numbers = tokens.ends_in(What::number) ? 1 : 0;
    const std::string_view before =
        all.size() == numbers ? std::string_view(",") : all[all.size() - numbers - 1].text;
    const bool fresh = before == "," || before == "+";
    const bool good = info.shape == Shape::some_of ? fresh : all.size() == numbers;
    if (!good || (numbers == 1 && !tokens.blank)) return;
    add_names(c, {.of = only(info.refers), .except = names_in(tokens)}, Group::first);
}

/// The last of the words that join the parts of a value; nothing where none is there.
std::string_view joint_of(const TypedWords& tokens) {
    constexpr std::string_view joints[] = {"to", "at", "over", "with", "in-room", "for"};
    for (auto token = tokens.all.rbegin(); token != tokens.all.rend(); ++token) {
        if (token->text == ",") break;
        if (std::ranges::find(joints, token->text) != std::end(joints)) return token->text;
    }
    return {};
}

/// Units behind a number that is a part of such a value.
void add_units_of(Completing& c, const PropertyInfo& info, const TypedWords& tokens) {
    const std::string_view joint = joint_of(tokens);
    const auto units = [&](Dimension wanted) { add_units(c, tokens, wanted); };
    if (joint == "over") return units(dimension::time);
    if (joint == "with") return units(dimension::mass);
    if (joint == "in-room") return units(dimension::point);
    if (joint == "for") return add_money(c);
    if (joint == "at") {
        return info.shape == Shape::wage ? add_money(c, "/h") : units(dimension::point);
    }
    switch (info.shape) {
    case Shape::capacity:
        units(dimension::volume);
        add_units(c, tokens, dimension::mass, Group::then, " of water");
        return;
    case Shape::depth:
        units(dimension::length);
        add_units(c, tokens, dimension::mass, Group::then);
        return;
    case Shape::overhead:
        add_money(c);
        return units(dimension::ratio);
    case Shape::wage:
        return units(dimension::time);
    case Shape::packs:
        if (!is_matter(c.place.kind)) return add_words(c, {"for"});
        units(dimension::mass);
        return add_units(c, tokens, dimension::volume, Group::then);
    case Shape::number:
    case Shape::whole:
        return;
    default:
        if (info.dimension == dimension::money) return add_money(c);
        return units(info.dimension);
    }
}

/// What may go on behind a figure with its unit.
void add_tails(Completing& c, const PropertyInfo& info, const TypedWords& tokens) {
    const auto word = [&](std::string_view tail) {
        if (!tokens.has(first_word(tail))) add_words(c, {tail});
    };
    switch (info.shape) {
    case Shape::range:
        return word("to");
    case Shape::density:
    case Shape::densities:
    case Shape::wage:
        return word("at");
    case Shape::flash:
        if (tokens.has("cup")) return;
        return add_words(c, {"closed cup", "open cup"});
    case Shape::inside:
        if (!tokens.has("across")) word("to");
        word("across,");
        if (tokens.has("across")) word("deep");
        return;
    case Shape::cools:
        for (const std::string_view each : {"to", "over", "with", "in-room"})
            word(each);
        return;
    case Shape::bath:
        return word("hot");
    case Shape::packs:
        if (joint_of(tokens).empty()) add_words(c, {"for"});
        return;
    case Shape::capacity:
        return word("of water");
    default:
        return;
    }
}

void complete_figure(Completing& c, const PropertyInfo& info, const TypedWords& tokens) {
    if (tokens.empty()) {
        add_lets(c, info);
        add_examples(c, info);
    } else if (tokens.wants_unit()) {
        add_units_of(c, info, tokens);
        if (tokens.ends_in_doubt() && tokens.blank) add_tails(c, info, tokens);
        // One unit is enough for both ends.
        if (info.shape == Shape::range && joint_of(tokens).empty()) {
            add_words(c, {"to"}, Group::then);
        }
    } else if (tokens.ends_in_unit()) {
        add_tails(c, info, tokens);
    } else if (tokens.ends_in("of") && info.shape == Shape::capacity) {
        add_words(c, {"water"});
    } else if (tokens.ends_in("closed") || tokens.ends_in("open")) {
        add_words(c, {"cup"});
    }
}

} // namespace

void complete_value(Completing& c, const PropertyInfo& info, std::string_view typed) {
    const TypedWords tokens = tokens_of(typed);
    switch (info.shape) {
    case Shape::word:
        if (tokens.empty()) add_choices(c, info.words, tokens);
        return;
    case Shape::words:
        if (tokens.empty() || tokens.ends_in(",")) add_choices(c, info.words, tokens);
        return;
    case Shape::text:
    case Shape::texts:
        if (tokens.empty() || (info.shape == Shape::texts && tokens.ends_in(","))) add_text(c);
        return;
    case Shape::hazards:
        if (tokens.empty() || tokens.ends_in(",")) add_hazards(c, tokens);
        return;
    case Shape::limits:
        if (tokens.ends_in_unit()) return add_hazards(c, tokens);
        return complete_figure(c, info, tokens);
    case Shape::factors:
        if (tokens.wants_unit()) return add_choices(c, info.words, tokens);
        return complete_figure(c, info, tokens);
    case Shape::ref:
        if (tokens.empty()) add_names(c, {.of = only(info.refers)}, Group::first);
        return;
    case Shape::one_of:
    case Shape::some_of:
        return complete_count(c, info, tokens);
    case Shape::blend:
    case Shape::shares:
        return complete_blend(c, info, tokens);
    case Shape::load:
    case Shape::kept:
        return complete_load(c, info, tokens);
    case Shape::date:
        if (tokens.empty()) add_examples(c, info);
        return;
    default:
        complete_figure(c, info, tokens);
    }
}

} // namespace waxwright
