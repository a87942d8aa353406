#include "editor/amounts.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "plan/parts.hpp"
#include "plan/wording.hpp"
#include "reckon/weigh.hpp"

namespace waxwright {

namespace {

bool is_about(const Finding& finding, BlockId recipe) {
    const auto by_itself = [&](const Subject& subject) {
        return subject.recipe == recipe && subject.batch == nobody;
    };
    return std::ranges::any_of(finding.subjects, by_itself) ||
           std::ranges::any_of(finding.also, [&](const Also& also) {
               return std::ranges::any_of(also.subjects, by_itself);
           });
}

bool has_error(const Look& look, BlockId recipe) {
    const Span whole = look.model().blocks[recipe].whole_at;
    return std::ranges::any_of(look.workshop.findings.all(), [&](const Finding& finding) {
        if (finding.severity != Severity::error) return false;
        const bool within = finding.at.file == whole.file && finding.at.begin < whole.end &&
                            finding.at.end > whole.begin;
        return within || is_about(finding, recipe);
    });
}

const Task* task_of(const Look& look, BlockId recipe) {
    const std::vector<Task>& all = look.workshop.recipes;
    const auto found = std::ranges::find(all, recipe, [](const Task& t) { return t.job.recipe; });
    return found == all.end() ? nullptr : &*found;
}

/// The parts of a property's value, of a recipe's own line.
class Line {
public:
    Line(const Look& look, const InNumbers& numbers, const Entry& entry)
        : look_(look), tree_(look.tree(entry.at.file)), numbers_(numbers), entry_(entry) {}

    void add_to(std::vector<Taken>& all) const {
        const NodeId value = value_node();
        if (value == Tree::no_node) return;
        const NodeId operand = tree_.children(tree_.children(value)[0])[0];
        if (tree_.kind(operand) == Kind::sum) {
            for (const NodeId part : tree_.children(operand))
                add_item(part, all);
        } else if (tree_.kind(operand) == Kind::name) {
            add_whole(all);
        } else {
            add_item(operand, all);
        }
    }

private:
    NodeId value_node() const {
        const NodeId block = look_.notebook.block_nodes[numbers_.recipe];
        for (const NodeId line : tree_.children(block)) {
            if (tree_.kind(line) != Kind::property) continue;
            const Children parts = tree_.children(line);
            if (parts.size() == 2 && tree_.span(parts[1]) == entry_.at) return parts[1];
        }
        return Tree::no_node;
    }

    /// The name of an item: `80% soy`, `rest soy`.
    void add_item(NodeId item, std::vector<Taken>& all) const {
        const Kind kind = tree_.kind(item);
        if (kind != Kind::item && kind != Kind::rest) return;
        const Span name = tree_.span(tree_.last_child(item));
        const std::vector<Part>& parts = numbers_.reckoning.parts;
        const auto part = std::ranges::find(parts, name, &Part::at);
        if (part == parts.end()) return;
        const Model& model = look_.model();
        if (model.name(part->material) != model.sources.slice(name)) return; // of an accord
        all.push_back({tree_.span(item), part->grams,
                       fmt::format("`{}`", tree_.text(tree_.last_child(item)))});
    }

    /// A value that is one name. Where the recipe's own load stands beside it, that says it.
    void add_whole(std::vector<Taken>& all) const {
        const Amounts& amounts = numbers_.reckoning;
        const Entry* load = look_.model().entry(numbers_.recipe, Key::load);
        if (entry_.key == Key::wax) {
            all.push_back({entry_.at, amounts.wax_g, "wax"});
        } else if (entry_.key == Key::scent && (load == nullptr || !load->own)) {
            all.push_back({entry_.at, amounts.scent_g, "scent"});
        }
    }

    const Look& look_;
    const Tree& tree_;
    const InNumbers& numbers_;
    const Entry& entry_;
};

} // namespace

std::string InNumbers::weight(double grams) const {
    return show_weight(grams, pour_division(plan.scale, grams), plan.scale.unit);
}

std::string InNumbers::weight_in_each(double grams) const {
    const double each = reckoning.mass_g.value_or(0) * grams / reckoning.total_g();
    const UnitId id = plan.scale.unit;
    const bool ounces = id != no_unit && unit(id).system == System::us;
    const double fine = usual_division(each, ounces);
    return show_weight(each, std::min(pour_division(plan.scale, each), fine), plan.scale.unit);
}

std::optional<Reckoning> reckoning_in(const Look& look, BlockId recipe) {
    const Task* task = task_of(look, recipe);
    return task == nullptr ? std::nullopt : std::optional(reckoning_of(look.workshop, *task));
}

std::optional<InNumbers> in_numbers(const Look& look, BlockId recipe) {
    if (has_error(look, recipe)) return std::nullopt;
    std::optional<Reckoning> reckoning = reckoning_in(look, recipe);
    if (!reckoning || !reckoning->shared_out() || !reckoning->complete) return std::nullopt;
    RecipePlan plan = recipe_part(look.model(), *reckoning);
    return InNumbers{recipe, std::move(*reckoning), std::move(plan)};
}

std::vector<Taken> taken_by(const Look& look, const InNumbers& numbers) {
    std::vector<Taken> all;
    const Model& model = look.model();
    const Slice slice = model.blocks[numbers.recipe].entries;
    for (std::uint32_t i = slice.first; i < slice.first + slice.count; ++i) {
        const Entry& entry = model.entries[i];
        if (!entry.own) continue;
        if (entry.key == Key::load) {
            all.push_back({entry.at, numbers.reckoning.scent_g, "scent"});
        } else if (entry.key == Key::wax || entry.key == Key::scent ||
                   entry.key == Key::additives || entry.key == Key::leftovers) {
            Line(look, numbers, entry).add_to(all);
        }
    }
    std::ranges::sort(all, {}, [](const Taken& each) { return each.at.begin; });
    return all;
}

std::optional<Quantity> figure_of(const Look& look, LetId id) {
    const Notebook& notebook = look.notebook;
    const Let& let = notebook.lets[id];
    if (notebook.let_figures[id]) return notebook.let_figures[id];
    // One that is all of a property's value was read as that, and not as a figure by its name.
    if (let.value == Tree::no_node) return std::nullopt;
    const Tree& tree = look.tree(let.file);
    const Children phrases = tree.children(let.value);
    if (phrases.size() != 1) return std::nullopt;
    const Children parts = tree.children(phrases[0]);
    if (parts.size() != 1) return std::nullopt;
    const auto figures = notebook.figures_in(let.file);
    const auto found = std::ranges::find(figures, tree.span(parts[0]), &Figure::at);
    return found == figures.end() ? std::nullopt : std::optional(found->quantity);
}

} // namespace waxwright
