// Inlay hints: behind the lines of a recipe that say how much of what, the weight for all its
// candles; behind a `let` that is worked out, what it comes to.
#include <algorithm>

#include <fmt/format.h>

#include "editor/amounts.hpp"
#include "editor/features.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

bool touch(Span a, Span b) {
    return a.file == b.file && a.begin <= b.end && b.begin <= a.end;
}

Json hint(const View& view, Span behind, const std::string& value, const std::string& tooltip) {
    return {{"position", view.range(behind)["end"]},
            {"label", fmt::format("= {}", value)},
            {"tooltip", tooltip},
            {"paddingLeft", true}};
}

void add_weights(const Asked& asked, Span range, Json& hints) {
    const Look& look = asked.look();
    for (const Task& task : look.workshop.recipes) {
        const Block& block = look.model().blocks[task.job.recipe];
        if (!touch(block.whole_at, range)) continue;
        const auto numbers = in_numbers(look, task.job.recipe);
        if (!numbers) continue;
        for (const Taken& taken : taken_by(look, *numbers)) {
            if (!touch(taken.at, range)) continue;
            std::string what = taken.what;
            std::erase(what, '`');
            hints.push_back(hint(asked.view, taken.at, numbers->weight(taken.grams),
                                 fmt::format("{} for all {} of {}, with spare and what clings",
                                             what, numbers->plan.count, block.name)));
        }
    }
}

/// True of a value that has to be worked out: arithmetic, or another name. One that is written out
/// needs no hint.
bool is_worked_out(const Tree& tree, NodeId value) {
    const Children phrases = tree.children(value);
    if (phrases.empty()) return false;
    const Children parts = tree.children(phrases[0]);
    if (parts.empty()) return false;
    const Kind kind = tree.kind(parts[0]);
    return kind == Kind::sum || kind == Kind::product || kind == Kind::group || kind == Kind::name;
}

void add_lets(const Asked& asked, Span range, Json& hints) {
    const Notebook& notebook = asked.look().notebook;
    for (LetId id = 0; id < notebook.lets.size(); ++id) {
        const Let& let = notebook.lets[id];
        if (let.file != asked.file || let.value == Tree::no_node) continue;
        const Span at = asked.tree().span(let.value);
        if (!touch(at, range) || !is_worked_out(asked.tree(), let.value)) continue;
        const std::optional<Quantity> figure = figure_of(asked.look(), id);
        if (!figure) continue;
        hints.push_back(
            hint(asked.view, at, show(*figure), fmt::format("what {} comes to", let.name)));
    }
}

} // namespace

Reply inlay_hint(const Asked& asked, const Json& params) {
    const Span range =
        span_of(asked.file, asked.source(), params.at("range"), asked.view.client.encoding);
    Json hints = Json::array();
    add_weights(asked, range, hints);
    add_lets(asked, range, hints);
    return hints;
}

} // namespace waxwright
