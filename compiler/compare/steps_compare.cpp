#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>
#include <tuple>

#include "compare/compare.hpp"
#include "compare/pairs.hpp"

namespace waxwright {

namespace {

/// What a step does: two steps with one key are the same, done at another time or in another way.
using StepKey = std::tuple<Verb, std::string_view, std::string_view>;

StepKey key_of(const StepPlan& step) {
    return {step.verb, step.of,
            step.verb == Verb::note ? std::string_view(step.text) : std::string_view()};
}

std::vector<StepKey> keys_of(const std::vector<StepPlan>& steps) {
    std::vector<StepKey> keys;
    keys.reserve(steps.size());
    for (const StepPlan& step : steps)
        keys.push_back(key_of(step));
    return keys;
}

/// Which step of before each of after is.
class StepPairs {
public:
    StepPairs(std::vector<StepKey> before, std::vector<StepKey> after)
        : before_(std::move(before)), after_(std::move(after)), of_after(after_.size(), nowhere),
          of_before(before_.size(), nowhere), moved(after_.size(), false) {
        pair_ends();
        pair_middle();
        pair_moved();
    }

private:
    std::vector<StepKey> before_, after_;

public:
    std::vector<std::size_t> of_after;  // index of before, or nowhere
    std::vector<std::size_t> of_before; // index of after, or nowhere
    std::vector<bool> moved;            // of after: its pair stands elsewhere in the order

private:
    void put(std::size_t old, std::size_t now) {
        of_after[now] = old;
        of_before[old] = now;
    }

    /// What both begin and end with.
    void pair_ends() {
        const std::size_t most = std::min(before_.size(), after_.size());
        while (begin_ < most && before_[begin_] == after_[begin_]) {
            put(begin_, begin_);
            ++begin_;
        }
        while (end_ < most - begin_ &&
               before_[before_.size() - 1 - end_] == after_[after_.size() - 1 - end_]) {
            put(before_.size() - 1 - end_, after_.size() - 1 - end_);
            ++end_;
        }
    }

    /// The longest sequence of steps that both have in that order.
    void pair_middle() {
        constexpr std::size_t most_cells = 4'000'000; // recipes have a dozen steps, not thousands
        const std::size_t rows = before_.size() - begin_ - end_;
        const std::size_t columns = after_.size() - begin_ - end_;
        if (rows == 0 || columns == 0 || rows > most_cells / columns) return;
        const std::size_t width = columns + 1;
        std::vector<std::uint32_t> longest((rows + 1) * width, 0); // from this cell on
        for (std::size_t row = rows; row-- > 0;) {
            for (std::size_t column = columns; column-- > 0;) {
                const bool same = before_[begin_ + row] == after_[begin_ + column];
                const std::uint32_t down = longest[(row + 1) * width + column];
                const std::uint32_t right = longest[row * width + column + 1];
                longest[row * width + column] =
                    same ? longest[(row + 1) * width + column + 1] + 1 : std::max(down, right);
            }
        }
        for (std::size_t row = 0, column = 0; row < rows && column < columns;) {
            if (before_[begin_ + row] == after_[begin_ + column]) {
                put(begin_ + row++, begin_ + column++);
            } else if (longest[(row + 1) * width + column] >= longest[row * width + column + 1]) {
                ++row;
            } else {
                ++column;
            }
        }
    }

    /// What is left of one key on both sides stands elsewhere now.
    void pair_moved() {
        std::multimap<StepKey, std::size_t> left;
        for (std::size_t i = 0; i < before_.size(); ++i) {
            if (of_before[i] == nowhere) left.emplace(before_[i], i);
        }
        for (std::size_t i = 0; i < after_.size(); ++i) {
            if (of_after[i] != nowhere) continue;
            const auto found = left.find(after_[i]);
            if (found == left.end()) continue;
            put(found->second, i);
            moved[i] = true;
            left.erase(found);
        }
    }

    std::size_t begin_ = 0, end_ = 0;
};

std::vector<Fact> facts_of_step(const StepPlan& step) {
    std::vector<Fact> facts;
    const auto put = [&](Aspect aspect, SheetValue value) {
        facts.push_back({aspect, {}, {}, std::move(value)});
    };
    if (step.at_c) put(Aspect::temperature, figure_value(ValueKind::temperature, *step.at_c));
    if (step.minutes) {
        // Of these it is reckoned, and the sheet has whole minutes.
        const bool reckoned = step.verb == Verb::melt || step.verb == Verb::cool;
        put(Aspect::duration,
            figure_value(ValueKind::minutes, reckoned ? std::round(*step.minutes) : *step.minutes));
    }
    if (step.length_mm) put(Aspect::length, figure_value(ValueKind::length, *step.length_mm));
    if (!step.because.empty()) put(Aspect::reason, text_value(step.because));
    return facts;
}

} // namespace

std::vector<StepChange> compare_steps(const std::vector<StepPlan>& before,
                                      const std::vector<StepPlan>& after, bool us_units) {
    const StepPairs pairs(keys_of(before), keys_of(after));
    std::vector<StepChange> changes;
    for (std::size_t i = 0; i < after.size(); ++i) {
        const std::size_t old = pairs.of_after[i];
        if (old == nowhere) {
            changes.push_back({Fate::added, 0, i + 1, after[i], {}});
            continue;
        }
        std::vector<FactChange> figures =
            compare_facts(facts_of_step(before[old]), facts_of_step(after[i]), us_units);
        if (!pairs.moved[i] && figures.empty()) continue;
        changes.push_back({pairs.moved[i] ? Fate::moved : Fate::changed, old + 1, i + 1, after[i],
                           std::move(figures)});
    }
    for (std::size_t i = 0; i < before.size(); ++i) {
        if (pairs.of_before[i] == nowhere) {
            changes.push_back({Fate::gone, i + 1, 0, before[i], {}});
        }
    }
    return changes;
}

} // namespace waxwright
