#include "reckon/label/label_elements.hpp"

#include <algorithm>

namespace waxwright {

namespace {

template <class Value>
void add_once(std::vector<Value>& into, Value value) {
    if (std::ranges::count(into, value) == 0) into.push_back(value);
}

constexpr struct {
    Statement by, covered;
} covers[] = {
    {Statement::H410, Statement::H400},
    {Statement::H314, Statement::H318},
};

constexpr int corrosion = 5, skull = 6, exclamation = 7;

bool is_irritation(Statement statement) {
    return statement == Statement::H315 || statement == Statement::H319;
}

/// True if a class's exclamation mark is left off beside what else there is.
bool yields(Statement statement, std::span<const Statement> all, std::span<const int> others) {
    if (std::ranges::count(others, skull) != 0) return true;
    if (is_irritation(statement) && std::ranges::count(others, corrosion) != 0) return true;
    return (is_irritation(statement) || statement == Statement::H317) &&
           std::ranges::count(all, Statement::H334) != 0;
}

} // namespace

std::vector<Statement> statements_for(std::span<const HazardClass> classes) {
    std::vector<Statement> result;
    for (const HazardClass hazard : classes)
        add_once(result, facts(hazard).statement);
    std::sort(result.begin(), result.end());
    const auto has = [&](Statement one) { return std::ranges::count(result, one) != 0; };
    for (const auto& pair : covers)
        if (has(pair.by)) std::erase(result, pair.covered);
    return result;
}

Signal signal_for(std::span<const HazardClass> classes) {
    Signal gravest = Signal::none;
    for (const HazardClass hazard : classes)
        gravest = std::max(gravest, facts(hazard).signal);
    return gravest;
}

std::vector<int> pictograms_for(std::span<const HazardClass> classes) {
    std::vector<int> result;
    std::vector<Statement> statements;
    for (const HazardClass hazard : classes) {
        const ClassFacts& of = facts(hazard);
        statements.push_back(of.statement);
        if (of.pictogram != 0 && of.pictogram != exclamation) add_once(result, of.pictogram);
    }
    const std::vector<int> others = result;
    for (const HazardClass hazard : classes) {
        const ClassFacts& of = facts(hazard);
        if (of.pictogram == exclamation && !yields(of.statement, statements, others))
            add_once(result, exclamation);
    }
    std::sort(result.begin(), result.end());
    return result;
}

Precaution covering(Precaution one, std::span<const HazardClass> classes) {
    const bool covered =
        one == Precaution::P332_P313 && std::ranges::any_of(classes, [](HazardClass hazard) {
            return std::ranges::count(facts(hazard).precautions, Precaution::P333_P313) != 0;
        });
    return covered ? Precaution::P333_P313 : one;
}

namespace {

/// In turn the first of each class, then the second, and so on, while there is room. `all`: the
/// classes of the label.
void add_in_turn(std::vector<Precaution>& into, std::span<const HazardClass> classes,
                 std::span<const HazardClass> all) {
    std::size_t longest = 0;
    for (const HazardClass hazard : classes)
        longest = std::max(longest, facts(hazard).precautions.size());
    for (std::size_t turn = 0; turn < longest; ++turn)
        for (const HazardClass hazard : classes) {
            const auto of = facts(hazard).precautions;
            if (turn < of.size() && into.size() < most_precautions)
                add_once(into, covering(of[turn], all));
        }
}

} // namespace

std::vector<Precaution> precautions_for(std::span<const HazardClass> classes,
                                        std::span<const HazardClass> first) {
    std::vector<Precaution> result;
    if (classes.empty()) return result;
    result = {Precaution::P102, Precaution::P501};
    add_in_turn(result, first, classes);
    add_in_turn(result, classes, classes);
    std::sort(result.begin(), result.end());
    return result;
}

} // namespace waxwright
