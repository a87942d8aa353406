// TypedWords of a value that is half typed, and the units and lets that go on from there.
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"
#include "model/phrase_text.hpp"

namespace waxwright {

namespace {

bool is_unit_sign(std::string_view text, std::size_t at) {
    return text[at] == '%' || text.substr(at, 2) == "°" || text.substr(at, 2) == "º";
}

/// `g/ml`, `°C`, `tin-8oz`, `%`: how long what can be a unit or a name is.
std::size_t word_length(std::string_view text) {
    std::size_t length = 0;
    while (length < text.size()) {
        const bool slash = length > 0 && text[length] == '/';
        if (is_unit_sign(text, length)) {
            length += text[length] == '%' ? 1U : 2U;
        } else if (is_name_letter(text[length]) || slash) {
            ++length;
        } else {
            break;
        }
    }
    return length;
}

} // namespace

bool TypedWords::has(std::string_view word) const {
    return std::ranges::find(all, word, &TypedWord::text) != all.end();
}

bool TypedWords::wants_unit() const {
    return ends_in(TypedWord::What::number) && (blank || word_length > 0);
}

bool TypedWords::ends_in_doubt() const {
    const bool figure = ends_in(TypedWord::What::number) && all.size() > 1;
    return figure && (all[all.size() - 2].text == "+-" || all[all.size() - 2].text == "±");
}

bool TypedWords::ends_in_unit() const {
    if (all.size() < 2 || all.back().what != TypedWord::What::word) return false;
    if (all[all.size() - 2].what != TypedWord::What::number) return false;
    return std::holds_alternative<UnitReading>(read_unit(all.back().text));
}

TypedWords tokens_of(std::string_view typed) {
    TypedWords tokens;
    std::size_t end = 0; // of the last one
    for (std::size_t at = 0; at < typed.size();) {
        if (is_blank(typed[at])) {
            ++at;
            continue;
        }
        const std::string_view rest = typed.substr(at);
        TypedWord token{TypedWord::What::sign, rest.substr(0, 1)};
        if (rest.starts_with("+-") || rest.starts_with("±")) token.text = rest.substr(0, 2);
        if (is_digit(rest[0])) {
            const std::size_t length = rest.find_first_not_of("0123456789./:");
            token = {TypedWord::What::number, rest.substr(0, length)};
        } else if (rest[0] == '"') {
            token.text = rest.substr(0, std::max<std::size_t>(rest.find('"', 1), 1));
            if (token.text.size() < rest.size()) token.text = rest.substr(0, token.text.size() + 1);
        } else if (const std::size_t length = word_length(rest); length > 0) {
            token = {TypedWord::What::word, rest.substr(0, length)};
        }
        tokens.all.push_back(token);
        at += token.text.size();
        end = at;
    }
    tokens.blank = end < typed.size();
    if (!tokens.blank && tokens.ends_in(TypedWord::What::word)) {
        const TypedWord word = tokens.all.back();
        tokens.all.pop_back();
        tokens.word_length = word.text.size();
        const auto begin = static_cast<std::size_t>(word.text.data() - typed.data());
        tokens.blank = begin > 0 && is_blank(typed[begin - 1]);
    }
    return tokens;
}

void add_words(Completing& c, std::initializer_list<std::string_view> words, Group group) {
    for (const std::string_view word : words)
        c.add(group, {.label = std::string(word), .kind = ProposalKind::keyword});
}

bool is_in_us_units(const Asked& asked) {
    int us = 0;
    const Tree& tree = asked.tree();
    for (NodeId node = 0; node < tree.nodes.size(); ++node) {
        if (tree.kind(node) != Kind::unit) continue;
        const UnitId id = find_unit(tree.text(node));
        if (id == no_unit) continue;
        us += unit(id).system == System::us ? 1 : 0;
        us -= unit(id).system == System::metric ? 1 : 0;
    }
    return us > 0;
}

namespace {

/// Those of a dimension, each once, as it is printed after a number.
std::vector<std::string> units_for(Dimension dimension, bool us_first) {
    std::vector<std::string> both[2]; // what the file has most, the others
    for (UnitId id = 0; id < all_units().size(); ++id) {
        const Unit& each = unit(id);
        if (each.dimension != dimension || plain(id) != id) continue;
        const bool first = each.system == System::both || (each.system == System::us) == us_first;
        const bool imperial = each.system == System::imperial;
        both[first && !imperial ? 0 : 1].emplace_back(plural(id));
    }
    if (dimension == dimension::mass_rate && us_first) both[0].emplace_back("oz/h");
    if (both[0].empty() && both[1].empty()) {
        const std::string_view example = example_unit(dimension);
        if (!example.empty()) both[0].emplace_back(example);
    }
    both[0].insert(both[0].end(), both[1].begin(), both[1].end());
    return both[0];
}

} // namespace

void add_units(Completing& c, const TypedWords& tokens, Dimension dimension, Group group,
               std::string_view behind) {
    const auto length = static_cast<std::uint32_t>(tokens.word_length);
    for (const std::string& word : units_for(dimension, is_in_us_units(c.asked))) {
        Proposal item{.label = word + std::string(behind), .kind = ProposalKind::unit};
        item.detail = name_of(dimension);
        item.at = c.from(c.asked.offset - length);
        c.add(group, std::move(item));
    }
}

void add_money(Completing& c, std::string_view behind) {
    const Currency dollar = c.asked.look().notebook.loaded.files[c.asked.file].dollar;
    std::vector<std::string_view> codes{code_of(dollar)};
    for (const std::string_view sign : {"EUR", "GBP"}) { // the other signs that may be written
        if (codes.front() != sign) codes.push_back(sign);
    }
    for (const std::string_view code : codes) {
        c.add(Group::first, {.label = fmt::format("{}{}", code, behind),
                             .kind = ProposalKind::unit,
                             .detail = "a currency"});
    }
}

namespace {

/// What a `let` of no single figure stands for: of a load its basis is written; of a blend the
/// first thing in it is of this kind.
struct LetContent {
    bool load = false;
    BlockKind blend_of = BlockKind::unknown;
};
LetContent content_of(const Look& look, const Let& let, int deep = 0) {
    constexpr int deepest = 8; // accords of accords; a loop ends too
    LetContent content;
    if (let.value == Tree::no_node || deep > deepest) return content;
    const Tree& tree = look.tree(let.file);
    for (NodeId node = let.value + 1 - tree.nodes[let.value].size; node <= let.value; ++node) {
        if (tree.kind(node) == Kind::of_) content.load = true;
    }
    const Span at = tree.span(let.value);
    for (const NameUse& use : look.notebook.uses_in(let.file)) {
        if (use.at.begin < at.begin || use.at.end > at.end) continue;
        if (use.to.what == Symbol::What::block) {
            content.blend_of = look.model().blocks[use.to.id].kind;
        } else if (use.to.what == Symbol::What::let) {
            content.blend_of = content_of(look, look.notebook.lets[use.to.id], deep + 1).blend_of;
        }
        if (content.blend_of != BlockKind::unknown) break;
    }
    return content;
}

/// Of a let that nothing uses the figure was never worked out: its first unit has to do.
std::optional<Dimension> dimension_of(const Look& look, LetId id) {
    if (const auto& figure = look.notebook.let_figures[id]) return figure->dimension;
    const Let& let = look.notebook.lets[id];
    if (let.used || let.value == Tree::no_node) return std::nullopt;
    const Tree& tree = look.tree(let.file);
    for (NodeId node = let.value + 1 - tree.nodes[let.value].size; node <= let.value; ++node) {
        if (tree.kind(node) != Kind::unit) continue;
        const auto unit = read_unit(tree.text(node));
        const auto* reading = std::get_if<UnitReading>(&unit);
        return reading == nullptr ? std::nullopt : std::optional(reading->dimension);
    }
    return std::nullopt;
}

bool fits(const Look& look, LetId id, const PropertyInfo& info) {
    const LetContent content = content_of(look, look.notebook.lets[id]);
    switch (info.shape) {
    case Shape::load:
    case Shape::kept:
        return content.load;
    case Shape::blend:
    case Shape::shares:
        return content.blend_of == info.refers;
    default:
        return !content.load && dimension_of(look, id) == info.dimension;
    }
}

} // namespace

void add_lets(Completing& c, const PropertyInfo& info) {
    const Look& look = c.asked.look();
    const std::vector<FileId> files = files_seen_from(look, c.asked.file);
    for (LetId id = 0; id < look.notebook.lets.size(); ++id) {
        const Let& let = look.notebook.lets[id];
        if (std::ranges::find(files, let.file) == files.end()) continue;
        if (let.told || let.name.empty() || !fits(look, id, info)) continue;
        Proposal item{.label = std::string(let.name), .kind = ProposalKind::let};
        const std::string_view value =
            let.value == Tree::no_node ? "" : look.tree(let.file).text(let.value);
        item.detail = fmt::format("let, {}", value.substr(0, value.find('\n')));
        c.add(Group::first, std::move(item));
    }
}

} // namespace waxwright
