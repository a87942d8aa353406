// The lines of a block that are no properties: steps, allow, a batch's `pour`, a stock's `have`.
#include <cmath>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/block_reader.hpp"

namespace waxwright {

void BlockReader::misplaced(BlockId id, NodeId node, std::string_view what,
                            std::string_view where) {
    const FileId file = model_.blocks[id].file;
    Span at = tree(file).span(node);
    at.end = at.begin + static_cast<std::uint32_t>(what.size());
    findings_.report(Rule::unknown_property, at,
                     fmt::format("{} has no `{}`", with_article(model_.blocks[id].kind), what),
                     fmt::format("it belongs in {}", where));
}

void BlockReader::read_steps_node(BlockId id, NodeId node) {
    const FileId file = model_.blocks[id].file;
    std::vector<Step> steps;
    for (const NodeId step : tree(file).children(node)) {
        const Kind step_kind = tree(file).kind(step);
        if (step_kind == Kind::step) steps_.read_step(id, step, file, steps);
        // Where the end is lost, steps may be lost with it.
        if (step_kind == Kind::broken || step_kind == Kind::unclosed) {
            model_.blocks[id].steps_broken = true;
        }
    }
    if (model_.blocks[id].has_steps) {
        const auto word_at = [&](NodeId steps_node) {
            const std::uint32_t begin = tree(file).span(steps_node).begin;
            return Span{file, begin, begin + 5};
        };
        NodeId first = node;
        for (const NodeId child : tree(file).children(names_.block_nodes[id])) {
            if (tree(file).kind(child) == Kind::steps && child < first) first = child;
        }
        findings_
            .report(Rule::defined_twice, word_at(node), "`steps` is given twice",
                    "take one of them away")
            .related.push_back({word_at(first), "they stand here first"});
        return;
    }
    model_.blocks[id].has_steps = true;
    model_.blocks[id].steps = {static_cast<std::uint32_t>(model_.steps.size()),
                               static_cast<std::uint32_t>(steps.size())};
    model_.steps.insert(model_.steps.end(), steps.begin(), steps.end());
}

void BlockReader::read_allow(BlockId id, NodeId node) {
    const FileId file = model_.blocks[id].file;
    const Children parts = tree(file).children(node);
    const At name{file, parts[0]}, because{file, parts[1]};
    const std::string_view reason =
        values_.stored_text({file, tree(file).last_child(because.node)});
    const std::optional<Rule> rule = find_rule(text(name));
    if (text({file, tree(file).last_child(because.node)}).find_first_not_of("\" \t") ==
        std::string_view::npos) {
        findings_.report(Rule::syntax, span({file, tree(file).last_child(because.node)}),
                         "this is not a reason", "write why it is fine here");
        return;
    }
    if (rule) {
        findings_.allow({*rule, span(name), id, std::string(reason)});
        return;
    }
    std::vector<std::string_view> names;
    for (const RuleInfo& known : all_rules()) {
        names.push_back(known.name);
    }
    std::string hint = did_you_mean(text(name), names);
    if (hint.empty()) hint = "the rule's name is in brackets after its finding";
    Finding& finding =
        findings_.report(Rule::unknown_rule, span(name),
                         fmt::format("there is no rule `{}`", text(name)), std::move(hint));
    offer_nearest(finding, span(name), text(name), names, Spelling::word);
}

void BlockReader::read_pour(BlockId id, NodeId node, std::vector<Count>& pours) {
    const FileId file = model_.blocks[id].file;
    const PropertyInfo info{.block = BlockKind::batch,
                            .key = Key::makes,
                            .shape = Shape::one_of,
                            .refers = BlockKind::recipe,
                            .doc = {}};
    const Value value = counts_.read_counts(info, {file, tree(file).last_child(node)});
    if (const auto* counts = std::get_if<Counts>(&value)) {
        pours.push_back(model_.counts[counts->counts.first]);
        model_.counts.pop_back(); // the last one: it comes again with the block's other lines
    } else {
        model_.blocks[id].pours_broken = true;
    }
}

void BlockReader::read_have(BlockId id, NodeId node, std::vector<Have>& haves) {
    const FileId file = model_.blocks[id].file;
    const Children parts = tree(file).children(node);
    const std::optional<At> operand =
        evaluator_.only_operand({file, parts[0]}, "an amount and a name");
    if (!operand) return;
    std::string_view lot;
    if (parts.size() > 1) lot = values_.stored_text({file, tree(file).last_child(parts[1])});
    if (kind(*operand) != Kind::sum || parts.size() > 1) {
        read_had(*operand, lot, haves);
        return;
    }
    for (const NodeId term : children(*operand)) { // several things joined by +
        if (tree(file).kind(term) != Kind::plus) read_had({file, term}, lot, haves);
    }
}

void BlockReader::read_had(At operand, std::string_view lot, std::vector<Have>& haves) {
    const FileId file = operand.file;
    Have have{.block = no_block, .amount = {.value = 1}, .at = span(operand)};
    const Children inside = children(operand);
    std::optional<Quantity> amount = have.amount;
    At name = operand;
    if (kind(operand) == Kind::item) {
        name = {file, inside[1]};
        amount = evaluator_.figure({file, inside[0]});
    } else if (kind(operand) == Kind::measure && inside.size() == 2 &&
               find_unit(text({file, inside[1]})) == no_unit) {
        name = {file, inside[1]};
        amount = Quantity{.value = read_number(text({file, inside[0]})).value_or(-1)};
    } else if (kind(operand) != Kind::name) {
        findings_.report(Rule::syntax, span(operand),
                         fmt::format("`{}` does not say of what", text(operand)),
                         "write have 6 lb soy, or have 24 dune-tumbler");
        return;
    }
    const Symbol* symbol = lookup_.look_up(name);
    if (!amount || symbol == nullptr || symbol->what == Symbol::What::poisoned) return;
    if (symbol->what == Symbol::What::let) {
        findings_.report(Rule::wrong_kind, span(name),
                         fmt::format("`{}` is a `let`, and a stock holds things", text(name)));
        return;
    }
    have.block = symbol->id;
    have.amount = *amount;
    ensure(have.block);
    if (!check_stock(have, operand)) return;
    have.lot = lot;
    haves.push_back(have);
}

/// `have 5 our-soy`: the number and the thing are the maker's own, and only the unit is asked for.
void BlockReader::report_no_amount(const Have& have, At operand) {
    const std::string_view name = model_.name(have.block);
    const BlockKind kind_of_block = model_.blocks[have.block].kind;
    Finding& finding =
        findings_.report(Rule::missing_unit, have.at,
                         fmt::format("this does not say how much of `{}` there is: {} is held by "
                                     "weight or volume",
                                     name, with_article(kind_of_block)));
    const Children inside = children(operand);
    if (inside.size() != 2 || kind({operand.file, inside[0]}) != Kind::number) {
        finding.hint =
            fmt::format("how much of it? write `have … kg {0}`, or `have … lb {0}`", name);
        return;
    }
    const std::string_view number = text({operand.file, inside[0]});
    const bool wax = kind_of_block == BlockKind::wax || kind_of_block == BlockKind::leftover;
    std::string choices;
    for (const std::string_view symbol : {wax ? "kg" : "g", wax ? "lb" : "oz", wax ? "g" : "ml"}) {
        std::string had = fmt::format("{} {} {}", number, symbol, name);
        choices += fmt::format("{}`have {}`", choices.empty() ? "" : ", ", had);
        finding.fixes.push_back(put(have.at, std::move(had), false));
    }
    finding.hint = fmt::format("{} of what: {}?", number, choices);
}

/// Wax, oils and additives are held by mass or volume, leftovers by mass; vessels, wicks and extras
/// by the piece.
bool BlockReader::check_stock(const Have& have, At operand) {
    const BlockKind kind_of_block = model_.blocks[have.block].kind;
    const bool pieces = bought(kind_of_block) == Bought::by_piece;
    const bool matter = is_matter(kind_of_block);
    if (!pieces && !matter) {
        findings_.report(Rule::wrong_kind, have.at,
                         fmt::format("`{}` is {}, which can't be in stock", model_.name(have.block),
                                     with_article(kind_of_block)));
        return false;
    }
    if (matter && have.amount.dimension == dimension::count) {
        report_no_amount(have, operand);
        return false;
    }
    // A leftover has no density of its own to weigh a volume by.
    const bool volume =
        bought(kind_of_block) == Bought::by_mass && have.amount.dimension == dimension::volume;
    const Dimension wanted_dimension = pieces ? dimension::count : dimension::mass;
    if (!volume && !evaluator_.has_dimension(have.amount, wanted_dimension, operand)) return false;
    if (!evaluator_.in_range(have.amount, Least::zero, have.at)) return false;
    return !pieces || values_.whole_pieces(have.amount, have.at);
}

} // namespace waxwright
