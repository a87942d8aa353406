// A plan as a flat list of facts, each with a key: what two versions of it are compared by. Nothing
// is reckoned here; a figure is the plan's own, rounded as the sheet shows it.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "compare/values.hpp"
#include "plan/plan.hpp"

namespace waxwright {

enum class Aspect : std::uint8_t {
#define ASPECT(identifier, slug, words) identifier,
#include "compare/aspects.def"
#undef ASPECT
};
struct AspectInfo {
    std::string_view slug;  // "first-pour"
    std::string_view words; // "First pour into each vessel"
};
const AspectInfo& info(Aspect aspect);

struct Fact {
    Aspect aspect;
    std::string of{};      // which of its kind: a wax's name; empty where there is but one
    std::string filling{}; // of a weight: the fact `filling` whose it is
    SheetValue value;
};

/// What is known of one recipe, by itself or as it is made in a batch.
struct PartFacts {
    std::string name;
    std::string title;
    std::vector<Fact> facts;
    std::vector<StepPlan> steps;
};

/// A sheet: of a recipe, which is its only part, or of a batch.
struct SheetFacts {
    bool is_batch = false;
    bool us_units = false;
    std::string name;
    std::string title;
    std::vector<Fact> facts; // of a batch as a whole
    std::vector<PartFacts> parts;
};

/// The plan should have been made with its money. In US units what is words has inches and fluid
/// ounces in it.
SheetFacts facts_of(const Plan& plan, bool us_units);

} // namespace waxwright
