// A batch sheet as data: what the Markdown and the TOML say. It owns its strings and points at
// nothing. Units: g, ml, mm, °C, minutes, fractions. What is unknown is absent.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "findings/registry.hpp"
#include "units/date.hpp"
#include "units/unit.hpp"

namespace waxwright {

enum class PlanKind : std::uint8_t { wax, additive, oil, scent };
std::string_view word(PlanKind kind);

struct ExactLine {
    PlanKind kind; // wax, oil, additive
    std::string name;
    double grams;
    double share; // of its kind
};
struct ScaleLine {
    PlanKind kind; // wax, additive, scent (or oil in a premix)
    std::string name;
    double grams; // whole divisions
};
struct TemperatureRange {
    double low, high; // °C
};
/// So many of a thing that is counted.
struct Item {
    std::int64_t count;
    std::string name;
};

struct ScalePlan {
    std::string name;      // empty where no scale is named
    UnitId unit = no_unit; // its division's; weights are printed in it, in g where there is none
    double division_g = 0; // 0 where no scale is named
};

struct RecipePlan {
    std::string name;
    std::string title; // the name where it has none
    std::int64_t count = 0;
    std::string vessel;
    double fill_ml = 0;
    double mass_g = 0;
    double first_pour_g = 0;
    double second_pour_g = 0;
    bool to_the_line = false; // a liquid density is missing: pour to the line
    std::optional<double> drop_mm;
    double load_of_wax = 0;
    double load_of_total = 0;
    std::optional<double> limit_of_wax;
    std::optional<double> ceiling_c;
    std::optional<double> flash_c;
    std::optional<double> burn_h;
    std::optional<double> scent_c; // as its steps have it
    std::optional<double> pour_c;
    std::optional<TemperatureRange> scent_at; // as its largest wax wants it
    std::optional<TemperatureRange> pour_at;
    double wax_g = 0, scent_g = 0, additive_g = 0;
    std::string heated; // how its pot is heated, as the language has it; empty where unsaid
    std::vector<ExactLine> exact;
    std::vector<ScaleLine> premix;
    double premix_division_g = 0; // what its lines are whole numbers of
    ScalePlan scale;
    std::int64_t pots_at_once = 1;
    double spare = 0;         // fraction
    std::optional<Item> wick; // in each vessel
    std::vector<Item> extras; // for all vessels
    std::string notes;
    std::vector<std::string> remarks; // what the reckoning had to assume, a sentence each
    std::optional<double> cure_minutes;
    std::optional<Date> ready_on; // where the batch says when it starts
};

struct PotPlan {
    std::size_t recipe = 0; // index of Plan::recipes
    std::string name;       // empty where no pot is named
    std::int64_t pots = 0;
    std::int64_t vessels = 0;
    double mass_g = 0; // exact, of each
    double weighed_g = 0;
    double volume_ml = 0;
    double division_g = 1; // what its lines are whole numbers of
    std::vector<ScaleLine> lines;
};

/// Bytes [begin, end) of a text; empty where there is no such thing in it.
struct Stretch {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;

    bool empty() const { return begin == end; }
};

struct StepPlan {
    std::size_t recipe = 0;
    std::string verb; // "second-pour"
    std::string of;   // "scent" or an additive's name
    std::optional<double> at_c;
    std::optional<double> length_mm;
    std::optional<double> minutes;
    std::string text;      // as a sentence of the bench, without the temperature's second scale
    Stretch temperature{}; // where `text` says at_c, so that both scales can take its place
    Stretch length{};      // where it says length_mm
    std::string because;
};

/// A line of the sheet's 'Mind, in this batch', in the order of the findings.
struct MindLine {
    Rule rule;
    Severity severity;
    std::string text;
    std::string hint;
    std::optional<std::string> because;
    std::vector<std::string> recipes; // whom it is about, where that is not the whole batch
};

struct Plan {
    std::string name; // of the recipe or batch
    std::string title;
    bool is_batch = false;
    std::string lot;
    std::optional<Date> starts;
    bool us_units = false; // temperatures are written in °F: they come first
    std::int64_t count = 0;
    double thermometer_error = 3; // C°, the largest of its recipes
    double room = 20;             // °C
    std::string notes;            // a batch's
    std::vector<RecipePlan> recipes;
    std::vector<PotPlan> pots;
    std::vector<StepPlan> steps;
    std::vector<MindLine> mind;
};

/// One recipe's part of Plan::pots and Plan::steps, which stand in the order of the recipes.
std::span<const PotPlan> pots_of(const Plan& plan, std::size_t recipe);
std::span<const StepPlan> steps_of(const Plan& plan, std::size_t recipe);

} // namespace waxwright
