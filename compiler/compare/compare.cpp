#include "compare/compare.hpp"

#include <algorithm>
#include <iterator>
#include <unordered_map>
#include <utility>

#include "compare/pairs.hpp"

namespace waxwright {

namespace {

/// Of a recipe that is new or gone: enough to know which it is.
bool says_what_it_is(Aspect aspect) {
    switch (aspect) {
    case Aspect::lot:
    case Aspect::starts:
    case Aspect::count:
    case Aspect::vessel:
    case Aspect::first_pour:
    case Aspect::load_of_wax:
    case Aspect::load_of_total:
    case Aspect::wick:
    case Aspect::cost:
        return true;
    default:
        return false;
    }
}

std::vector<FactChange> only_in_one(const std::vector<Fact>& facts, Fate fate) {
    std::vector<FactChange> changes;
    for (const Fact& fact : facts) {
        if (!says_what_it_is(fact.aspect)) continue;
        FactChange change{fact.aspect, fact.of, {}, std::nullopt, std::nullopt};
        (fate == Fate::gone ? change.before : change.after) = fact.value;
        changes.push_back(std::move(change));
    }
    return changes;
}

/// Tells how what has another name or title now was called.
template <typename Change, typename Named>
void put_names(Change& change, const Named& before, const Named& after) {
    change.name = after.name;
    change.title = after.title;
    if (before.name != after.name) {
        change.fate = Fate::renamed;
        change.name_before = before.name;
        const bool titled = before.title != before.name || after.title != after.name;
        if (titled && before.title != after.title) change.title_before = before.title;
    } else if (before.title != after.title) {
        change.facts.push_back(
            {Aspect::title, {}, {}, text_value(before.title), text_value(after.title)});
    }
}

void append(std::vector<FactChange>& to, std::vector<FactChange>&& more) {
    std::move(more.begin(), more.end(), std::back_inserter(to));
}

PartChange compare_part(const PartFacts& before, const PartFacts& after, bool us_units) {
    PartChange change;
    put_names(change, before, after);
    append(change.facts, compare_facts(before.facts, after.facts, us_units));
    change.steps = compare_steps(before.steps, after.steps, us_units);
    return change;
}

/// Of a batch: how many, and no more. What it is, the recipe's own sheet says.
PartChange whole_part(const PartFacts& part, Fate fate, bool of_batch) {
    PartChange change;
    change.fate = fate;
    change.name = part.name;
    change.title = part.title;
    change.facts = only_in_one(part.facts, fate);
    if (of_batch) {
        std::erase_if(change.facts,
                      [](const FactChange& fact) { return fact.aspect != Aspect::count; });
    }
    return change;
}

bool alike(const std::optional<SheetValue>& a, const std::optional<SheetValue>& b) {
    return a.has_value() == b.has_value() && (!a || shown(*a, false) == shown(*b, false));
}

bool alike(const FactChange& a, const FactChange& b) {
    return a.aspect == b.aspect && a.of == b.of && a.filling == b.filling &&
           alike(a.before, b.before) && alike(a.after, b.after);
}

bool alike(const StepChange& a, const StepChange& b) {
    return a.fate == b.fate && a.place_before == b.place_before && a.place_after == b.place_after &&
           a.step.verb == b.step.verb && a.step.of == b.step.of &&
           std::equal(a.figures.begin(), a.figures.end(), b.figures.begin(), b.figures.end(),
                      [](const FactChange& x, const FactChange& y) { return alike(x, y); });
}

template <typename Change>
void leave_out(std::vector<Change>& from, const std::vector<Change>& told) {
    std::erase_if(from, [&](const Change& change) {
        return std::any_of(told.begin(), told.end(),
                           [&](const Change& each) { return alike(change, each); });
    });
}

/// The changes of recipes in their own sheets, by name; of those, a batch tells only what is other.
using OwnChanges = std::unordered_map<std::string, const PartChange*>;

void add_part(PartChange part, const OwnChanges& own, SheetChange& sheet) {
    const auto found = own.find(part.name);
    if (found != own.end() && found->second->fate == part.fate && part.fate != Fate::added &&
        part.fate != Fate::gone) {
        leave_out(part.facts, found->second->facts);
        leave_out(part.steps, found->second->steps);
        if (part.fate == Fate::renamed) { // said once
            part.fate = Fate::changed;
            part.name_before.clear();
            part.title_before.clear();
        }
    }
    if (part.any()) sheet.parts.push_back(std::move(part));
}

class Comparer {
public:
    Comparer(const Version& before, const Version& after) : before_(before), after_(after) {}

    Comparison run() {
        Comparison result;
        result.name_before = before_.name;
        result.name_after = after_.name;
        result.errors_before = before_.has_errors;
        result.errors_after = after_.has_errors;
        result.no_sheets = before_.sheets.empty() && after_.sheets.empty() && !before_.has_errors &&
                           !after_.has_errors;
        if (!before_.has_errors && !after_.has_errors) result.sheets = sheets();
        result.found = compare_found(before_.found, after_.found, renamings_);
        return result;
    }

private:
    std::vector<SheetChange> sheets();
    SheetChange compare_sheet(const SheetFacts& before, const SheetFacts& after);
    static SheetChange whole_sheet(const SheetFacts& sheet, Fate fate);

    const Version& before_;
    const Version& after_;
    std::unordered_map<std::string, std::string> part_names_; // of recipes that were renamed
    std::vector<Renaming> renamings_;
    OwnChanges own_by_name_;
};

SheetChange Comparer::whole_sheet(const SheetFacts& sheet, Fate fate) {
    SheetChange change;
    change.fate = fate;
    change.is_batch = sheet.is_batch;
    change.us_units = sheet.us_units;
    change.name = sheet.name;
    change.title = sheet.title;
    change.facts = only_in_one(sheet.facts, fate);
    for (const PartFacts& part : sheet.parts)
        change.parts.push_back(whole_part(part, fate, sheet.is_batch));
    return change;
}

SheetChange Comparer::compare_sheet(const SheetFacts& before, const SheetFacts& after) {
    SheetChange change;
    change.is_batch = after.is_batch;
    change.us_units = after.us_units;
    put_names(change, before, after);
    append(change.facts, compare_facts(before.facts, after.facts, after.us_units));
    if (!after.is_batch) {
        PartChange part = compare_part(before.parts.front(), after.parts.front(), after.us_units);
        change.facts.clear(); // its title is its part's too
        if (part.any()) change.parts.push_back(std::move(part));
        return change;
    }
    const Pairs<PartFacts> pairs(before.parts, after.parts, part_names_);
    for (std::size_t i = 0; i < after.parts.size(); ++i) {
        const std::size_t old = pairs.of_after[i];
        add_part(old == nowhere ? whole_part(after.parts[i], Fate::added, true)
                                : compare_part(before.parts[old], after.parts[i], after.us_units),
                 own_by_name_, change);
    }
    for (std::size_t i = 0; i < before.parts.size(); ++i) {
        if (pairs.of_before[i] == nowhere) {
            add_part(whole_part(before.parts[i], Fate::gone, true), own_by_name_, change);
        }
    }
    return change;
}

std::vector<SheetChange> Comparer::sheets() {
    const Pairs<SheetFacts> pairs(before_.sheets, after_.sheets, {});
    for (std::size_t i = 0; i < after_.sheets.size(); ++i) {
        if (pairs.of_after[i] == nowhere) continue;
        const SheetFacts& old = before_.sheets[pairs.of_after[i]];
        const SheetFacts& now = after_.sheets[i];
        if (old.name == now.name) continue;
        renamings_.push_back({old.name, now.name});
        if (!now.is_batch) part_names_.emplace(old.name, now.name);
    }
    std::vector<SheetChange> changes(after_.sheets.size());
    // Recipes first: of what changes in them the batches know.
    for (const bool batches : {false, true}) {
        for (std::size_t i = 0; i < after_.sheets.size(); ++i) {
            const SheetFacts& now = after_.sheets[i];
            if (now.is_batch != batches) continue;
            const std::size_t old = pairs.of_after[i];
            changes[i] = old == nowhere ? whole_sheet(now, Fate::added)
                                        : compare_sheet(before_.sheets[old], now);
            if (!batches && !changes[i].parts.empty()) {
                own_by_name_.emplace(now.name, &changes[i].parts.front());
            }
        }
    }
    for (std::size_t i = 0; i < before_.sheets.size(); ++i) {
        if (pairs.of_before[i] == nowhere) {
            changes.push_back(whole_sheet(before_.sheets[i], Fate::gone));
        }
    }
    std::erase_if(changes, [](const SheetChange& change) {
        return change.fate == Fate::changed && change.facts.empty() && change.parts.empty();
    });
    return changes;
}

} // namespace

std::string_view word(Fate fate) {
    switch (fate) {
    case Fate::added:
        return "new";
    case Fate::gone:
        return "gone";
    case Fate::renamed:
        return "renamed";
    case Fate::moved:
        return "moved";
    case Fate::changed:
        break;
    }
    return "changed";
}

Comparison compare(const Version& before, const Version& after) {
    return Comparer(before, after).run();
}

} // namespace waxwright
