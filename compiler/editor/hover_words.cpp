// Words of the language: what each is, from the tables they are in.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "editor/completion_place.hpp"
#include "editor/hover_parts.hpp"
#include "findings/pages.hpp"

namespace waxwright {

namespace {

/// A table of statements, since the schema has none: the words that begin one.
struct Statement {
    Kind kind;
    std::string_view word;
    std::string_view about;
};
constexpr Statement statements[] = {
    {Kind::language, "language", "the edition of the language that the file is written in"},
    {Kind::use, "use", "brings in modules of the standard library, or files of your own"},
    {Kind::currency, "currency", "the money that `$` stands for in this file"},
    {Kind::let, "let", "gives a name to a figure, a load or a blend"},
    {Kind::steps, "steps", "what is done, step by step"},
    {Kind::allow, "allow", "switches a warning or a note off for this recipe, with a reason"},
    {Kind::because, "because", "the reason; it stands on the sheet"},
    {Kind::pour, "pour", "a recipe that the batch makes, and how many of it"},
    {Kind::have, "have", "what is on the shelf, and its lot"},
    {Kind::lot, "lot", "the lot, as it stands on the pack"},
};

void replace(std::string& words, std::string_view sign, std::string_view by) {
    if (const std::size_t at = words.find(sign); at != std::string::npos) {
        words.replace(at, sign.size(), by);
    }
}

/// "`glass`, `tin`": words with blanks between them.
std::string listed(std::string_view words) {
    std::string list;
    for (std::size_t at = 0; at < words.size();) {
        const std::size_t end = std::min(words.find(' ', at), words.size());
        list += fmt::format("{}`{}`", list.empty() ? "" : ", ", words.substr(at, end - at));
        at = end + 1;
    }
    return list;
}

/// "`8 mm` or `12 g`": examples with semicolons between them.
std::string examples(const PropertyInfo& property) {
    const std::string_view all = examples_of(property);
    std::string list;
    for (std::size_t at = 0; at < all.size();) {
        const std::size_t end = std::min(all.find("; ", at), all.size());
        list += fmt::format("{}`{}`", list.empty() ? "" : " or ", all.substr(at, end - at));
        at = end + 2;
    }
    return list;
}

void describe(BlockKind kind, const PropertyInfo& property, Card& card) {
    card.say(fmt::format("`{}` of {}: {}", word(property.key), with_article(kind), property.doc));
    std::string words(info(property.shape).words);
    replace(words, "{dimension}", name_of(property.dimension));
    replace(words, "{kind}", with_article(property.refers));
    replace(words, "{words}", listed(property.words));
    const std::string example = examples(property);
    card.item(fmt::format("{}{}{}", words, example.empty() ? "" : ", for example ", example));
    if (property.needed) card.item("must be there");
    if (!property.fallback.empty())
        card.item(fmt::format("unsaid, it counts as {}", property.fallback));
}

/// The property of the spot by the schema, whether its value can be read or not.
std::optional<Span> tell_property(const Spot& spot, Span at, Card& card) {
    const NodeId node = spot.within(Kind::property);
    const BlockId id = spot.block();
    if (node == Tree::no_node || id == no_block) return std::nullopt;
    const BlockKind kind = spot.model().blocks[id].kind;
    const auto key = find_key(spot.tree().text(spot.tree().children(node)[0]));
    const PropertyInfo* property = key ? find_property(kind, *key) : nullptr;
    if (property == nullptr) return std::nullopt;
    describe(kind, *property, card);
    return at;
}

std::optional<Span> tell_kind(std::string_view text, Span at, Card& card) {
    const BlockKind kind = find_block_kind(text);
    if (kind == BlockKind::unknown) return std::nullopt;
    std::string needed, more;
    for (const PropertyInfo& property : properties_of(kind)) {
        std::string& list = property.needed ? needed : more;
        list += fmt::format("{}`{}`", list.empty() ? "" : ", ", word(property.key));
    }
    card.say(fmt::format("`{}` begins {}.", text, with_article(kind)));
    if (!needed.empty()) card.item(fmt::format("properties that must be there: {}", needed));
    if (!more.empty()) card.item(fmt::format("properties that may be there: {}", more));
    return at;
}

void describe(const VerbInfo& verb, Card& card) {
    card.say(fmt::format("`{}`: {}", verb.words, verb.doc));
    if (verb.example != verb.words) card.item(fmt::format("for example `{}`", verb.example));
}

std::optional<Span> tell_verb(const Spot& spot, Span at, Card& card) {
    const NodeId clause = spot.within(Kind::clause);
    const BlockId id = spot.block();
    if (clause == Tree::no_node || id == no_block) return std::nullopt;
    const auto steps = spot.model().steps_of(id);
    const auto step = std::ranges::find(steps, spot.tree().span(clause), &Step::at);
    if (step == steps.end()) return std::nullopt;
    describe(info(step->verb), card);
    return at;
}

/// The first paragraph of a rule's page, on one line.
std::string first_paragraph(Rule rule) {
    const std::string_view page = page_of(rule);
    const std::size_t begin = page.find("\n\n");
    if (begin == std::string_view::npos) return {};
    std::string text(page.substr(begin + 2, page.find("\n\n", begin + 2) - begin - 2));
    std::ranges::replace(text, '\n', ' ');
    return text;
}

std::optional<Span> tell_rule(std::string_view text, Span at, Card& card) {
    const std::optional<Rule> rule = find_rule(text);
    if (!rule) return std::nullopt;
    const RuleInfo& row = info(*rule);
    card.say(fmt::format("`{}`, {}: {}", row.name,
                         row.severity == Severity::error ? "an error"
                                                         : fmt::format("a {}", word(row.severity)),
                         row.about));
    if (const std::string paragraph = first_paragraph(*rule); !paragraph.empty())
        card.say(paragraph);
    return at;
}

/// What a used module or file declares: its own blocks by kind.
std::optional<Span> tell_used(const Spot& spot, Card& card) {
    constexpr std::size_t most_named = 12;
    const auto& uses = spot.asked.look().notebook.loaded.files[spot.asked.file].uses;
    const auto use =
        std::ranges::find_if(uses, [&](const Use& each) { return spot.covers(each.at); });
    if (use == uses.end()) return std::nullopt;
    std::map<BlockKind, std::vector<std::string_view>> by_kind;
    for (const Block& block : spot.model().blocks) {
        if (block.file == use->file && block.kind != BlockKind::unknown)
            by_kind[block.kind].push_back(block.name);
    }
    const bool library = spot.asked.look().source(use->file).is_library();
    card.say(fmt::format("{}, {}", Card::code(spot.model().sources.slice(use->at)),
                         library ? "a module of the standard library" : "a file of your own"));
    for (const auto& [kind, names] : by_kind) {
        const std::size_t shown = std::min(names.size(), most_named);
        std::string list;
        for (const std::string_view name : std::span(names).first(shown))
            list += fmt::format("{}`{}`", list.empty() ? "" : ", ", name);
        card.item(fmt::format("{} {}: {}{}", names.size(), word(kind), list,
                              shown < names.size() ? ", …" : ""));
    }
    return use->at;
}

std::optional<Span> tell_statement(const Spot& spot, NodeId node, Card& card) {
    const Tree& tree = spot.tree();
    const auto found = std::ranges::find(statements, tree.kind(node), &Statement::kind);
    if (found == std::end(statements)) return std::nullopt;
    const Span whole = tree.span(node);
    const Span at{whole.file, whole.begin,
                  whole.begin + static_cast<std::uint32_t>(found->word.size())};
    if (!tree.text(node).starts_with(found->word)) return std::nullopt;
    if (node == spot.inner() && !spot.covers(at)) return std::nullopt;
    card.say(fmt::format("`{}`: {}", found->word, found->about));
    return at;
}

/// `like`, which is no node of its own, between the names of a head.
std::optional<Span> tell_like(const Spot& spot, Card& card) {
    constexpr std::string_view like = "like";
    const Tree& tree = spot.tree();
    const Children parts = tree.children(spot.inner());
    if (tree.kind(spot.inner()) != Kind::head || parts.size() < 3) return std::nullopt;
    const std::uint32_t from = tree.span(parts[1]).end;
    const std::size_t found = tree.whole_text().find(like, from);
    const auto begin = static_cast<std::uint32_t>(found);
    const Span at{spot.asked.file, begin, begin + static_cast<std::uint32_t>(like.size())};
    if (found == std::string_view::npos || !spot.covers(at)) return std::nullopt;
    card.say(
        fmt::format("`{}`: takes over all that the other one says and this one doesn't", like));
    return at;
}

std::optional<Span> tell_choice(const Spot& spot, Card& card) {
    const Entry* entry = spot.entry();
    if (entry == nullptr) return std::nullopt;
    const bool chosen = std::holds_alternative<Word>(entry->value) ||
                        std::holds_alternative<Words>(entry->value) ||
                        std::holds_alternative<Hazards>(entry->value) ||
                        std::holds_alternative<ClassLimits>(entry->value) ||
                        std::holds_alternative<MFactors>(entry->value);
    if (!chosen) return std::nullopt;
    return tell_property(spot, spot.tree().span(spot.inner()), card);
}

/// The verb whose words these are, or begin with them where the line has the rest.
const VerbInfo* verb_written(std::string_view typed, std::string_view line) {
    const VerbInfo* found = nullptr;
    for (const VerbInfo& verb : all_verbs()) {
        const bool here = verb.words.starts_with(typed) && line.starts_with(verb.words);
        if (here && (found == nullptr || verb.words.size() > found->words.size())) found = &verb;
    }
    return found;
}

} // namespace

/// A line without its value is no node of the tree.
std::optional<Span> tell_unread(const Spot& spot, Card& card) {
    const std::string_view text = spot.tree().whole_text();
    std::uint32_t end = spot.asked.offset;
    while (end < text.size() && is_name_letter(text[end]))
        ++end;
    const TypingPlace place = place_at(text, end);
    const Span at{spot.asked.file, place.begin, end};
    if (place.typed.empty() || at.begin >= at.end) return std::nullopt;
    if (place.room == TypingPlace::Room::steps) {
        const VerbInfo* verb = verb_written(place.typed, text.substr(at.begin));
        if (verb == nullptr) return std::nullopt;
        describe(*verb, card);
        return at;
    }
    const auto key = find_key(place.typed);
    if (place.room != TypingPlace::Room::block || !key) return std::nullopt;
    const PropertyInfo* property = find_property(place.kind, *key);
    if (property == nullptr) return std::nullopt;
    describe(place.kind, *property, card);
    return at;
}

std::optional<Span> tell_word(const Spot& spot, Card& card) {
    const Tree& tree = spot.tree();
    const NodeId inner = spot.inner();
    const NodeId outer = spot.above(1);
    const Span at = tree.span(inner);
    if (tree.kind(outer) == Kind::use) return tell_used(spot, card);
    if (tree.kind(outer) == Kind::language || tree.kind(outer) == Kind::currency)
        return tell_statement(spot, outer, card);
    switch (tree.kind(inner)) {
    case Kind::word:
        if (tree.kind(outer) == Kind::property) return tell_property(spot, at, card);
        if (tree.kind(outer) == Kind::head) return tell_kind(tree.text(inner), at, card);
        if (tree.kind(outer) == Kind::clause) return tell_verb(spot, at, card);
        if (tree.kind(outer) == Kind::allow) return tell_rule(tree.text(inner), at, card);
        return std::nullopt;
    case Kind::unit: // `10 acute`: the word behind a number
        return tell_choice(spot, card);
    case Kind::name:
        if (tree.kind(outer) == Kind::clause) return tell_verb(spot, at, card);
        return tell_choice(spot, card);
    case Kind::head:
        return tell_like(spot, card);
    default:
        return tell_statement(spot, inner, card);
    }
}

} // namespace waxwright
