#include "editor/paint.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "units/unit.hpp"

namespace waxwright {

namespace {

/// By what a leaf is alone; a word gets its paint from where it stands.
PaintType plain(const Tree& tree, NodeId node) {
    switch (tree.kind(node)) {
    case Kind::number:
    case Kind::date:
        return PaintType::number;
    case Kind::text:
        return PaintType::string;
    case Kind::plus:
    case Kind::minus:
    case Kind::times:
    case Kind::divided:
        return PaintType::operator_;
    case Kind::across:
    case Kind::deep:
    case Kind::closed_cup:
    case Kind::open_cup:
    case Kind::by_volume:
        return PaintType::keyword;
    case Kind::sign:
    case Kind::word:
        return PaintType::enum_member;
    case Kind::unit: {
        const std::string_view text = tree.text(node);
        const bool known =
            is_reserved(text) || !std::holds_alternative<UnknownUnit>(read_unit(text));
        return known ? PaintType::enum_member : PaintType::none;
    }
    default:
        return PaintType::none;
    }
}

class Painter {
public:
    Painter(const Look& look, FileId file)
        : look_(look), tree_(look.tree(file)), paints_(tree_.nodes.size()) {}

    std::vector<Paint> all() {
        leaves();
        for (const NodeId node : tree_.children(tree_.root()))
            statement(node);
        return std::move(paints_);
    }

private:
    bool is_none(NodeId node) const { return paints_[node].type == PaintType::none; }

    /// Both leaves and uses stand in the order of the text.
    void leaves() {
        const auto uses = look_.notebook.uses_in(tree_.file());
        auto use = uses.begin();
        for (NodeId node = 0; node < tree_.nodes.size(); ++node) {
            paints_[node].type = plain(tree_, node);
            if (tree_.kind(node) == Kind::of_ && is_reserved(tree_.text(node - 1))) {
                paints_[node - 1].type = PaintType::keyword; // `of wax`
            }
            if (tree_.kind(node) != Kind::name && tree_.kind(node) != Kind::unit) continue;
            const Span at = tree_.span(node);
            while (use != uses.end() && use->at.begin < at.begin)
                ++use;
            if (use != uses.end() && use->at == at) paints_[node] = used(use->to);
        }
    }

    Paint used(const Symbol& symbol) const {
        return {.type = symbol.what == Symbol::What::let ? PaintType::variable : PaintType::class_,
                .library = look_.source(symbol.at.file).is_library()};
    }

    void statement(NodeId node) {
        const Children parts = tree_.children(node);
        switch (tree_.kind(node)) {
        case Kind::let:
            paints_[parts[0]] = {.type = PaintType::variable, .declares = true};
            break;
        case Kind::use:
            for (const NodeId item : parts) {
                if (tree_.kind(item) == Kind::name)
                    paints_[item] = {.type = PaintType::namespace_, .library = true};
            }
            break;
        case Kind::block:
            block(node);
            break;
        default:
            break;
        }
    }

    void block(NodeId node) {
        const Children lines = tree_.children(node);
        BlockKind kind = BlockKind::unknown;
        if (tree_.kind(lines[0]) == Kind::head) {
            const Children head = tree_.children(lines[0]);
            paints_[head[0]].type = PaintType::type;
            paints_[head[1]] = {.type = PaintType::class_, .declares = true};
            kind = find_block_kind(tree_.text(head[0]));
        }
        for (const NodeId line : lines) {
            if (tree_.kind(line) == Kind::property) property(line, kind);
            if (tree_.kind(line) == Kind::steps) steps(line);
        }
    }

    /// Words of a value that are no names.
    void property(NodeId node, BlockKind kind) {
        const Children parts = tree_.children(node);
        paints_[parts[0]].type = PaintType::property;
        const std::optional<Key> key = find_key(tree_.text(parts[0]));
        const PropertyInfo* info = key ? find_property(kind, *key) : nullptr;
        for (NodeId leaf = node + 1 - tree_.nodes[node].size; leaf < node; ++leaf) {
            const bool named = tree_.kind(leaf) == Kind::name || tree_.kind(leaf) == Kind::unit;
            if (info == nullptr || !named || !is_none(leaf)) continue;
            paints_[leaf].type = word(*info, tree_.text(leaf));
        }
    }

    static PaintType word(const PropertyInfo& info, std::string_view text) {
        switch (info.shape) {
        case Shape::word:
        case Shape::words:
            return find_choice(text) == Choice::unsaid ? PaintType::none : PaintType::enum_member;
        case Shape::bath: // `2 l hot`
        case Shape::hazards:
        case Shape::limits:  // `5% eye-irrit-2`
        case Shape::factors: // `10 acute`
            return PaintType::enum_member;
        default:
            return PaintType::none;
        }
    }

    void steps(NodeId node) {
        for (const NodeId step : tree_.children(node)) {
            if (tree_.kind(step) != Kind::step) continue;
            for (const NodeId part : tree_.children(step)) {
                if (tree_.kind(part) == Kind::clause) clause(tree_.children(part));
            }
        }
    }

    void clause(const Children& parts) {
        paints_[parts[0]].type = PaintType::function;
        if (parts.size() < 2 || tree_.kind(parts[1]) != Kind::name || !is_none(parts[1])) return;
        const std::string_view second = tree_.text(parts[1]);
        const std::string both = fmt::format("{} {}", tree_.text(parts[0]), second);
        if (std::ranges::any_of(all_verbs(),
                                [&](const VerbInfo& verb) { return verb.words == both; })) {
            paints_[parts[1]].type = PaintType::function;
        } else if (second == waxwright::word(Key::scent)) { // `add scent`: what that line says
            paints_[parts[1]].type = PaintType::property;
        }
    }

    const Look& look_;
    const Tree& tree_;
    std::vector<Paint> paints_;
};

} // namespace

std::vector<Paint> painted(const Look& look, FileId file) {
    return Painter(look, file).all();
}

} // namespace waxwright
