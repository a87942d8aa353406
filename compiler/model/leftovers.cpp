// Leftovers: that each says once what is in it, and that none is of a candle that it is in.
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "model/block_reader.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// A leftover of a candle with leftovers of a candle with leftovers: nobody can tell any more what
/// is in it, and working it out goes no deeper.
constexpr int deepest_leftovers = 8;

/// Walks from leftovers to the recipes they are of, and on to the leftovers of those.
class Chains {
public:
    Chains(Model& model, Findings& findings)
        : model_(model), findings_(findings), depths_(model.blocks.size(), untouched) {}

    /// How many leftovers deep it is. What closes a loop, or is too deep, is reported and counts as
    /// unreadable from then on.
    int depth_of(BlockId leftover) {
        if (depths_[leftover] != untouched) return depths_[leftover];
        const auto* of = model_.get<Ref>(leftover, Key::of);
        if (of == nullptr) return depths_[leftover] = 1;
        depths_[leftover] = reading;
        path_.push_back(leftover);
        int deepest = 0;
        for (const Share& share : model_.blend(of->block, Key::leftovers)) {
            const BlockId next = share.material;
            if (depths_[next] == reading) {
                report_loop(leftover, next);
            } else if (path_.size() > deepest_leftovers) {
                deepest = deepest_leftovers;
            } else {
                deepest = std::max(deepest, depth_of(next));
            }
        }
        path_.pop_back();
        if (deepest >= deepest_leftovers) report_depth(leftover);
        return depths_[leftover] = deepest >= deepest_leftovers ? 1 : deepest + 1;
    }

private:
    static constexpr int untouched = 0, reading = -1;

    Entry* entry_of(BlockId leftover) {
        const Slice slice = model_.blocks[leftover].entries;
        for (std::uint32_t i = slice.first; i < slice.first + slice.count; ++i) {
            if (model_.entries[i].key == Key::of) return &model_.entries[i];
        }
        return nullptr;
    }

    Span make_unreadable(BlockId leftover) {
        Entry* of = entry_of(leftover);
        of->value = {};
        return of->at;
    }

    void report_loop(BlockId last, BlockId first) {
        std::string loop;
        bool inside = false;
        for (const BlockId each : path_) {
            inside = inside || each == first;
            const auto* of = model_.get<Ref>(each, Key::of);
            if (!inside || of == nullptr) continue;
            loop += fmt::format("`{}` is of `{}`, which has ", model_.name(each),
                                model_.name(of->block));
        }
        if (loop.empty()) return; // it has been told
        findings_.report(Rule::leftover_loop, make_unreadable(last),
                         fmt::format("a leftover can't be of a candle that it is in: {}`{}` in it",
                                     loop, model_.name(first)),
                         "the candle it was left of was another one, if only without these "
                         "leftovers: write what "
                         "is in it, `wax`, `load` and `scent`, in the place of `of`");
    }

    void report_depth(BlockId leftover) {
        findings_.report(Rule::nesting, make_unreadable(leftover),
                         fmt::format("leftovers are of candles with leftovers more than {} deep",
                                     deepest_leftovers),
                         "write what is in it, `wax`, `load` and `scent`, in the place of `of`");
    }

    Model& model_;
    Findings& findings_;
    std::vector<int> depths_;
    std::vector<BlockId> path_;
};

constexpr std::array in_a_leftover = {Key::wax, Key::load, Key::scent, Key::additives};

} // namespace

/// A leftover that is like another one may say in the other way what is in it: its own lines then
/// replace all of the other's.
bool BlockReader::says_otherwise(const std::vector<Entry>& own, Key key) {
    const auto said = [&](Key wanted) {
        return std::any_of(own.begin(), own.end(),
                           [&](const Entry& entry) { return entry.key == wanted; });
    };
    if (key == Key::of) return std::any_of(in_a_leftover.begin(), in_a_leftover.end(), said);
    const bool contents =
        std::find(in_a_leftover.begin(), in_a_leftover.end(), key) != in_a_leftover.end();
    return contents && said(Key::of);
}

/// A leftover is of a recipe, or says its wax itself.
void BlockReader::check_leftover(BlockId id) {
    const Block& block = model_.blocks[id];
    const Entry* of = model_.entry(id, Key::of);
    for (const Key key : in_a_leftover) {
        const Entry* entry = model_.entry(id, key);
        if (of == nullptr || entry == nullptr) continue;
        findings_
            .report(Rule::defined_twice, entry->key_at,
                    fmt::format("`of` and `{}` both say what is in it", word(key)),
                    "with `of` it is what the recipe says; for another candle leave `of` out, and "
                    "write all that is in it")
            .related.push_back({of->key_at, "the other one"});
        return;
    }
    if (of != nullptr || model_.entry(id, Key::wax) != nullptr) return;
    findings_.report(Rule::missing_property, block.name_at,
                     fmt::format("`{}` does not say what is in it", block.name),
                     "write which recipe it was left of, `of: tide-line`; or what is in it: `wax`, "
                     "and `load` and `scent` where it has any");
}

/// What comes out of leftovers leaves some fresh wax: less is no recipe's candle, but a remelt.
void BlockReader::check_fresh(BlockId id) {
    double sum = 0;
    for (const Share& share : model_.blend(id, Key::leftovers))
        sum += share.fraction;
    constexpr double tolerance = 1e-9;
    if (sum < 1 - tolerance) return;
    findings_.report(
        Rule::blend_sum, model_.entry(id, Key::leftovers)->at,
        fmt::format("the leftovers come to {} of the candle and leave nothing for the "
                    "wax of the recipe",
                    show_percent(sum)),
        "write a smaller share; for a candle of leftovers alone, write what is in them "
        "as its `wax`, `load` and `scent`");
}

void BlockReader::check_leftover_loops() {
    Chains chains(model_, findings_);
    for (BlockId id = 0; id < model_.blocks.size(); ++id) {
        const bool left_out = model_.in_library(id) || findings_.too_many(model_.blocks[id].file);
        if (model_.blocks[id].kind == BlockKind::leftover && !left_out) chains.depth_of(id);
    }
}

} // namespace waxwright
