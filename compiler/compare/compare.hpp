// What changed between two versions of a file, as a value: what their sheets show differently, and
// what is found in the one and not in the other. It owns its strings.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compare/facts.hpp"
#include "findings/finding.hpp"
#include "model/model.hpp"

namespace waxwright {

/// What is found of one recipe, without the place.
struct FoundWords {
    Rule rule;
    Severity severity;
    std::string message;
    std::optional<std::string> because; // the reason, where a recipe allows it
    std::string whom;                   // "tide-line", "tide-line in december"; empty: the file

    friend auto operator<=>(const FoundWords&,
                            const FoundWords&) = default; // NOLINT: no null in it
};
/// Of settled findings, one for each recipe that a finding is about.
std::vector<FoundWords> found_words(const Findings& findings, const Model& model);

/// One side of a comparison.
struct Version {
    std::string name;               // as the file was named
    bool has_errors = false;        // then it has no sheets
    std::vector<SheetFacts> sheets; // of the file's own recipes and batches, in their order
    std::vector<FoundWords> found;
};

enum class Fate : std::uint8_t { added, gone, renamed, moved, changed };
std::string_view word(Fate fate); // "new", "gone", "renamed", "moved", "changed"

/// One fact that is other, or only in one of the two.
struct FactChange {
    Aspect aspect;
    std::string of;      // as in Fact
    std::string filling; // likewise
    std::optional<SheetValue> before, after;
};

/// A step that is new, gone, elsewhere in the order, or other in its figures.
struct StepChange {
    Fate fate = Fate::changed;
    std::size_t place_before = 0, place_after = 0; // from 1; 0 where it isn't there
    StepPlan step;                                 // as it is after, of one that is gone as it was
    std::vector<FactChange> figures;
};

/// A recipe, by itself or as it is made in a batch. Of one that is new or gone the facts are those
/// that say what it is.
struct PartChange {
    Fate fate = Fate::changed;
    std::string name, title;
    std::string name_before; // empty where it is the same
    std::string title_before;
    std::vector<FactChange> facts;
    std::vector<StepChange> steps;

    bool any() const { return fate != Fate::changed || !facts.empty() || !steps.empty(); }
};

/// A recipe or batch of the file. A recipe is its own only part.
struct SheetChange {
    Fate fate = Fate::changed;
    bool is_batch = false;
    bool us_units = false;
    std::string name, title;
    std::string name_before;
    std::string title_before;
    std::vector<FactChange> facts; // of a batch as a whole
    std::vector<PartChange> parts; // those in which something is other
};

/// Only in the one version, or in both in other words. `whom` of the words is empty: it is here.
struct FoundChange {
    std::optional<FoundWords> before, after;
    std::vector<std::string> whom; // empty: the file
};

struct Comparison {
    std::string name_before, name_after;
    bool errors_before = false, errors_after = false; // then no sheets are compared
    bool no_sheets = false;                           // neither has a recipe or a batch of its own
    std::vector<SheetChange> sheets;
    std::vector<FoundChange> found;

    /// True if everybody at the bench would do the same by both, as far as anyone can tell.
    bool same() const { return sheets.empty() && found.empty() && !errors_before && !errors_after; }
};

/// Sheets are paired by name; of those that are left, a pair with the same content, or else with
/// the same title, is one that was renamed. What changes in a recipe's own sheet is not told again
/// of the batches that pour it.
Comparison compare(const Version& before, const Version& after);

// Its parts:

/// Facts by their keys, in the order of the aspects. A weight of a filling that only one of the
/// two has is left out: the filling says it.
std::vector<FactChange> compare_facts(const std::vector<Fact>& before,
                                      const std::vector<Fact>& after, bool us_units);
/// Steps by what they do, in their order.
std::vector<StepChange> compare_steps(const std::vector<StepPlan>& before,
                                      const std::vector<StepPlan>& after, bool us_units);
/// Names of recipes and batches that are called something else now.
struct Renaming {
    std::string before, after;
};
/// What both have is left out; what the same rule says of the same recipe in other words is a
/// pair; what is the same of several recipes is told once.
std::vector<FoundChange> compare_found(const std::vector<FoundWords>& before,
                                       const std::vector<FoundWords>& after,
                                       const std::vector<Renaming>& renamed);

} // namespace waxwright
