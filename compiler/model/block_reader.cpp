#include "model/block_reader.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace waxwright {

void BlockReader::read_all() {
    // Steps and entries are most of a large model: their room is counted, not doubled and copied as
    // it fills.
    std::size_t steps = 0, properties = 0;
    for (const auto& file : loaded_.files) {
        for (const Node& node : file.tree.nodes) {
            steps += node.kind == Kind::clause ? 1 : 0;
            properties += node.kind == Kind::property ? 1 : 0;
        }
    }
    model_.steps.reserve(steps);
    model_.entries.reserve(properties + properties / 4); // some are taken over by `like`
    for (BlockId id = 0; id < model_.blocks.size(); ++id) {
        if (model_.in_library(id) || findings_.too_many(model_.blocks[id].file)) continue;
        ensure(id);
        if (model_.blocks[id].kind == BlockKind::test_burn) model_.test_burns.push_back(id);
    }
    const auto of = [this](BlockId burn) {
        const auto* ref = model_.get<Ref>(burn, Key::of);
        return ref != nullptr ? ref->block : no_block;
    };
    std::stable_sort(model_.test_burns.begin(), model_.test_burns.end(),
                     [&](BlockId a, BlockId b) { return of(a) < of(b); });
    check_lets();
    check_leftover_loops();
    lookup_.report_unknown_names();
}

/// A let that nobody uses is still read, so that its mistakes are found.
void BlockReader::check_lets() {
    for (LetId id = 0; id < names_.lets.size(); ++id) {
        const Let& let = names_.lets[id];
        if (let.used || model_.sources[let.file].is_library()) continue;
        if (findings_.too_many(let.file)) continue;
        if (!let.told) {
            findings_.report(Rule::unused_name, let.name_at,
                             fmt::format("`{}` is never used", let.name),
                             "take it away, or use it");
        }
        const Children phrases = tree(let.file).children(let.value);
        const Children parts = children({let.file, phrases[0]});
        const At operand{let.file, parts[0]};
        if (phrases.size() > 1 || kind(operand) == Kind::text || kind(operand) == Kind::date) {
            continue;
        }
        bool blend = kind(operand) == Kind::item || kind(operand) == Kind::rest;
        if (kind(operand) == Kind::sum) {
            for (const NodeId part : children(operand)) {
                const Kind part_kind = tree(let.file).kind(part);
                blend = blend || part_kind == Kind::item || part_kind == Kind::rest;
            }
        }
        if (blend) {
            blends_.let_blend(id);
        } else if (kind(operand) == Kind::name) {
            lookup_.look_up(operand);
        } else {
            evaluator_.figure(operand);
        }
    }
}

} // namespace waxwright
