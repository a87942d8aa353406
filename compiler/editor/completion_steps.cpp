// Steps in a completion: the verbs, and what each has behind it.
#include <algorithm>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"
#include "model/phrase_text.hpp"

namespace waxwright {

namespace {

/// The verb that a clause begins with, if a blank or the clause's end is behind it.
const VerbInfo* verb_of(std::string_view clause) {
    const VerbInfo* found = nullptr;
    for (const VerbInfo& verb : all_verbs()) {
        if (!clause.starts_with(verb.words)) continue;
        const bool ends = clause.size() == verb.words.size() || is_blank(clause[verb.words.size()]);
        const bool longer = found == nullptr || verb.words.size() > found->words.size();
        if (ends && longer) found = &verb;
    }
    return found;
}

void add_step(Completing& c, Group group, const VerbInfo& verb, std::string_view named,
              std::string_view example) {
    const std::string text = with_own_figure(c, verb, named, step_example(c, example));
    std::string put = with_places(text, true);
    if (verb.argument == Argument::text) {
        put = with_places(fmt::format("{} \"…\"", verb.words), c.snippets());
    } else {
        put = example_with_places(text, c.snippets());
    }
    // The list shows what it writes: the figures of an example only where they are places to fill.
    const bool whole = c.snippets() || trimmed(put) == text;
    c.add(group, {.label = whole ? text : std::string(trimmed(put)),
                  .kind = ProposalKind::verb,
                  .detail = whole ? std::string(verb.doc)
                                  : fmt::format("{}; for example {}", verb.doc, text),
                  .text = std::move(put),
                  .snippet = true,
                  .at = c.from(c.place.begin)});
}

/// What the recipe has for additives.
std::vector<std::string_view> additives_here(const Completing& c) {
    std::vector<std::string_view> names;
    const Model& model = c.asked.look().model();
    const BlockId id = block_here(c);
    if (id == no_block) return names;
    for (const Share& share : model.blend(id, Key::additives))
        names.push_back(model.name(share.material));
    return names;
}

/// How far the steps above have come.
struct Come {
    const VerbInfo* last = nullptr; // the one that stands furthest down in the order of verbs
    Rank rank = Rank::anywhere;
};
Come come_so_far(const TypingPlace& place) {
    Come come;
    for (const std::string& line : place.lines) {
        const VerbInfo* verb = verb_of(line);
        if (verb == nullptr) continue;
        if (come.last == nullptr || verb->verb > come.last->verb) come.last = verb;
        come.rank = std::max(come.rank, verb->rank);
    }
    return come;
}

Group group_of(const VerbInfo& verb, const Come& come) {
    if (verb.rank != Rank::anywhere && verb.rank < come.rank) return Group::more;
    return come.last == nullptr || verb.verb > come.last->verb ? Group::first : Group::then;
}

void add_verbs(Completing& c) {
    const Come come = come_so_far(c.place);
    const std::string_view typed = c.place.typed;
    for (const VerbInfo& verb : all_verbs()) {
        // Of several words that were typed only a beginning is meant.
        if (typed.find(' ') != std::string_view::npos && !verb.words.starts_with(typed)) continue;
        const Group group = group_of(verb, come);
        add_step(c, group, verb, "scent", verb.example);
        if (verb.argument != Argument::name_at_temperature) continue;
        for (const std::string_view name : additives_here(c)) {
            std::string example(verb.example);
            if (const std::size_t at = example.find("scent"); at != std::string::npos) {
                example.replace(at, std::string_view("scent").size(), name);
            }
            add_step(c, group, verb, name, example);
        }
    }
}

Dimension dimension_of(Argument argument) {
    switch (argument) {
    case Argument::to_temperature:
    case Argument::at_temperature:
    case Argument::name_at_temperature:
        return dimension::point;
    case Argument::duration:
        return dimension::time;
    case Argument::to_length:
        return dimension::length;
    default:
        return dimension::count;
    }
}

void add_materials(Completing& c) {
    add_words(c, {"scent"});
    const std::vector<std::string_view> own = additives_here(c);
    for (const std::string_view name : own)
        c.add(Group::first, {.label = std::string(name),
                             .kind = ProposalKind::name,
                             .detail = "additive of this recipe"});
    add_names(c, {.of = only(BlockKind::additive), .except = own}, Group::then);
}

void add_because(Completing& c) {
    c.add(Group::more, {.label = "because",
                        .kind = ProposalKind::keyword,
                        .words = "why it is done so; the sheet has it too",
                        .text = with_places("because \"…\"", c.snippets()),
                        .snippet = true});
}

/// True where the step's figure begins.
bool wants_figure(const VerbInfo& verb, const TypedWords& tokens) {
    if (tokens.word_length > 0 || !tokens.blank) return false;
    switch (verb.argument) {
    case Argument::to_temperature:
    case Argument::to_length:
        return tokens.all.size() == 1 && tokens.ends_in("to");
    case Argument::at_temperature:
        return tokens.all.size() == 1 && tokens.ends_in("at");
    case Argument::name_at_temperature:
        return tokens.all.size() == 2 && tokens.ends_in("at");
    case Argument::duration:
        return tokens.empty();
    default:
        return false;
    }
}

/// Behind a verb: the word before its figure, the figure's unit, the reason.
void complete_argument(Completing& c, const VerbInfo& verb, std::string_view typed) {
    const TypedWords tokens = tokens_of(typed);
    if (tokens.wants_unit()) {
        return add_units(c, tokens, dimension_of(verb.argument));
    }
    const bool done = verb.argument == Argument::none ? tokens.empty() : tokens.ends_in_unit();
    if (done) {
        if (verb.verb == Verb::add) {
            const VerbInfo& stir = info(Verb::stir);
            c.add(Group::first, {.label = fmt::format(", {}", stir.example),
                                 .kind = ProposalKind::verb,
                                 .detail = std::string(stir.doc),
                                 .text = ", " + example_with_places(stir.example, c.snippets()),
                                 .snippet = true});
        }
        return add_because(c);
    }
    const bool named = verb.argument == Argument::name_at_temperature;
    if (wants_figure(verb, tokens)) {
        return add_step_figures(c, verb, named ? tokens.all[0].text : std::string_view());
    }
    if (tokens.empty() && named) return add_materials(c);
    const bool joint = named ? tokens.all.size() == 1 : tokens.empty();
    if (!joint) return;
    switch (verb.argument) {
    case Argument::to_temperature:
    case Argument::to_length:
        return add_words(c, {"to"});
    case Argument::at_temperature:
    case Argument::name_at_temperature:
        return add_words(c, {"at"});
    case Argument::text:
        c.add(Group::first, {.label = "\"…\"",
                             .kind = ProposalKind::value,
                             .text = with_places("\"…\"", c.snippets()),
                             .snippet = true});
        return;
    default:
        return;
    }
}

} // namespace

std::string step_example(const Completing& c, std::string_view example) {
    std::string text(example);
    constexpr std::string_view celsius = " °C";
    const std::size_t at = text.find(celsius);
    if (at == std::string::npos || !is_in_us_units(c.asked)) return text;
    std::size_t begin = at;
    while (begin > 0 && is_digit(text[begin - 1]))
        --begin;
    const double inside = to_inside(std::stod(text.substr(begin, at - begin)), find_unit("°C"));
    const double degrees = from_inside(inside, find_unit("°F"));
    text.replace(begin, at + celsius.size() - begin, fmt::format("{:.0f} °F", degrees));
    return text;
}

void complete_step(Completing& c) {
    const std::string_view typed = c.place.typed;
    const std::size_t comma = typed.rfind(',');
    const bool second = comma != std::string_view::npos;
    std::string_view clause = second ? typed.substr(comma + 1) : typed;
    clause.remove_prefix(std::min(clause.find_first_not_of(" \t"), clause.size()));
    const VerbInfo* verb = verb_of(clause);
    if (clause.find('"') != std::string_view::npos) return;
    if (verb != nullptr && clause.size() > verb->words.size()) {
        return complete_argument(c, *verb, clause.substr(verb->words.size()));
    }
    if (second) {
        const VerbInfo& stir = info(Verb::stir);
        c.add(Group::first, {.label = std::string(stir.example),
                             .kind = ProposalKind::verb,
                             .detail = std::string(stir.doc),
                             .text = example_with_places(stir.example, c.snippets()),
                             .snippet = true});
        return;
    }
    add_verbs(c);
}

} // namespace waxwright
