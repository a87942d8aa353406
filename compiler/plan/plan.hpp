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
#include "model/schema.hpp"
#include "plan/money_plan.hpp"
#include "units/date.hpp"
#include "units/figure_range.hpp"
#include "units/unit.hpp"

namespace waxwright {

enum class PlanKind : std::uint8_t { wax, additive, oil, scent, leftover };
std::string_view word(PlanKind kind);

struct ExactLine {
    PlanKind kind; // wax, leftover, oil, additive
    std::string name;
    double grams;
    double share;    // of its kind; a leftover's: of the whole
    double of_wax{}; // an additive's share of the wax
};
struct ScaleLine {
    PlanKind kind; // wax, leftover, additive, scent (or oil in a premix)
    std::string name;
    double grams;      // whole divisions
    std::string lot{}; // at hand, where it is sure which one is weighed
};
struct TemperatureRange {
    double low, high; // °C
};
/// So many of a thing that is counted.
struct Item {
    std::int64_t count;
    std::string name;
};

/// How far doubtful figures move a recipe's; absent where they don't.
struct DoubtPlan {
    std::optional<FigureRange> mass_g, first_pour_g;
    std::optional<FigureRange> load_of_wax, load_of_total;
    std::optional<FigureRange> wax_g, scent_g, additive_g, leftover_g;
    std::optional<FigureRange> fillings, most_vessels; // whole; vessels of the fullest filling
    std::string widest;   // "how heavy cold soy is": moves the pour most
    bool unknown = false; // at an end of the doubts something can't be worked out
};

struct ScalePlan {
    std::string name;      // empty where no scale is named
    UnitId unit = no_unit; // its division's; weights are printed in it, in g where there is none
    double division_g = 0; // 0 where no scale is named
};

/// The latest test burn, as its maker wrote it down.
struct TestPlan {
    std::string name;
    std::optional<Date> on;
    Choice verdict = Choice::unsaid; // pass or fail
    std::optional<double> samples;
    std::string make; // "1 rush in tumbler with a load of 6 % of the wax": what it says of that
    std::optional<double> flame_mm, glass_c;
    std::optional<double> pool_mm, pool_minutes;
    std::optional<double> wall_mm; // wax left at the wall then, where the bore is known
    std::optional<double> left_mm, left_g;
    bool to_end = false; // down to the depth that must not burn
    double stop_mm = 0;
    Choice cracked = Choice::unsaid, relit = Choice::unsaid, soot = Choice::unsaid;
    std::vector<std::string> other;   // what that candle had other than today's
    std::vector<std::string> assumed; // what it doesn't say, and is taken to be as today
    std::vector<std::string> missing; // what was not measured or looked at
    std::string notes;
};

/// The baths that the pots of a name stand in.
struct BathPlan {
    std::string pot; // empty: the nameless one
    std::int64_t count = 1;
    double ml = 0; // of water in each; 0 where nobody says
    bool hot = false;
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
    double kept_g = 0;             // held back for it; 0 without a second pour
    bool keep_said = false;        // by the recipe, and not only as much as is reckoned
    std::optional<Item> keep_in{}; // the pots it waits in, as many as there are; else it stays
    bool to_the_line = false;      // a liquid density is missing: pour to the line
    std::optional<double> drop_mm;
    double load_of_wax = 0; // of the finished candle, with what leftovers bring
    double load_of_total = 0;
    double leftover = 0;       // fraction of the whole that comes out of leftovers
    bool brings_scent = false; // they have scent in them
    std::optional<double> limit_of_wax;
    std::optional<double> ceiling_c;
    std::optional<double> flash_c;
    std::optional<double> burn_h;
    bool burn_measured = false;    // by a test burn; else it goes by the wick's rate
    std::optional<TestPlan> test;  // absent: there is no test burn
    std::optional<double> scent_c; // as its steps have it
    std::optional<double> pour_c;
    std::optional<TemperatureRange> scent_at; // as its largest wax wants it
    std::optional<TemperatureRange> pour_at;
    double wax_g = 0, scent_g = 0, additive_g = 0; // weighed fresh
    double leftover_g = 0;
    std::string main_wax;           // its ranges count; of a blend the most of it
    std::string cure_wanted;        // "soy cures for 7 to 14 days"; empty where nobody says
    std::string drawn_from;         // the batch's melter, where the pots are drawn from one
    Choice heated = Choice::unsaid; // how its pot is
    std::vector<ExactLine> exact;
    std::vector<ScaleLine> premix;
    double premix_division_g = 0; // what its lines are whole numbers of
    ScalePlan scale;
    std::int64_t pots_at_once = 1;
    std::string small_pot;    // that its pot is small for so many vessels, and what would do
    double spare = 0;         // fraction
    std::optional<Item> wick; // in each vessel
    std::vector<Item> extras; // for all vessels
    std::string notes;
    DoubtPlan doubt;
    std::string premix_note;          // that the blend and the pots are rounded apart; often empty
    std::vector<std::string> remarks; // what the reckoning had to assume, a sentence each
    std::optional<double> cure_minutes;
    std::optional<Date> ready_on; // where the batch says when it starts
    bool ready_at_least = false;  // it may be later
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
    Verb verb = Verb::note;
    std::string of; // "scent" or an additive's name
    std::optional<double> at_c;
    std::optional<double> length_mm;
    std::optional<double> minutes;
    std::string text;      // as a sentence of the bench, without the temperature's second scale
    Stretch temperature{}; // where `text` says at_c, so that both scales can take its place
    Stretch length{};      // where it says length_mm
    std::string brief{};   // the same in a few words, for a row of the day
    Stretch brief_temperature{};
    std::string because;
    // When it begins, from the beginning of the day; of several fillings that of the first. Nothing
    // where there are too many for a line of time.
    std::optional<double> begins_min;
    bool by_filling = false;         // the recipe's other fillings begin it later
    bool at_least = false;           // it may be later: something before it has no known time
    bool once_cold = false;          // it waits till the wax is set and cold
    std::optional<Date> starts;      // the same by the clock, where the batch says when it starts
    std::optional<double> dropped_c; // °C in the pot once the cold scent is in
    std::optional<double> last_c;    // at which the last vessel is poured, where that is too cold
    std::optional<double> arrives_c; // °C it has fallen to by then, where that is under at_c
};

/// One row of the day: steps of one filling, or of all vessels of a recipe, that are done in one
/// go; or the washing of a pot; or a melter that goes on; or water for a bath that boils away.
enum class RowKind : std::uint8_t {
    steps,
    wash,
    top_up,
    melter,
    melter_wiped,
    melter_top_up,
    melter_off,
    melter_pause,
    last_look
};
struct DayRow {
    RowKind kind = RowKind::steps;
    double begins_min = 0;
    double ends_min = 0;
    bool at_least = false;
    bool once_cold = false; // it waits till the wax is set and cold: nobody knows when that is
    std::size_t recipe = 0;
    std::size_t first_step = 0; // index of Plan::steps
    std::size_t steps = 0;      // how many of them
    std::int64_t filling = 0;   // of the recipe's, from 1; 0 for all its vessels
    std::int64_t vessels = 0;
    std::string pot{};       // which pot it is: "pour-can 2"
    std::string meanwhile{}; // what other pots do as it begins: "pour-can 1 melts"
    double grams = 0;        // what its first step puts into the pot; 0 where that is all of it
    double division_g = 1;   // what that is a whole number of
};

/// The day as one line of time.
struct DayPlan {
    std::vector<DayRow> rows;       // in order of time; empty where one filling is all there is
    std::vector<std::string> order; // titles of the recipes as they are worked
    double worked_min = 0;          // when the last hands are off
    double hands_min = 0;           // for how long somebody is at it
    bool at_least = false;
    bool timed = false;    // the times are worth printing: all are known, or by the clock
    bool no_times = false; // too few are known for a line of time: the rows only have the order
    bool too_long = false; // over 12 h from the first step to the last pour
    bool too_many = false; // too many fillings for a line of time
    std::vector<std::string> remarks; // why some times are not known
    std::vector<std::string> faults;  // what can't be done as the steps have it
};

/// What a melter takes: one blend of waxes.
struct MeltPlan {
    std::string name; // the melter's
    std::int64_t fillings = 1;
    double celsius = 0;
    double volume_ml = 0;   // of each filling, hot; 0 where not known
    double refilled_ml = 0; // the most that is in it, with what was left; 0 likewise
    bool in_bath = false;   // its bath is topped up
    double weighed_g = 0;   // of each
    double division_g = 1;
    std::vector<ScaleLine> lines;
    std::vector<std::size_t> recipes; // index of Plan::recipes
    std::optional<double> minutes;    // one filling takes
};

/// A line of the sheet's 'Dangers of this batch' and 'More to mind', in the order of the findings.
struct CautionLine {
    Rule rule;
    Severity severity;
    std::string text;
    std::string hint;
    std::optional<std::string> because;
    std::vector<std::string> recipes; // whom it is about, where that is not the whole batch
    bool finding = true;              // false: no rule found it, the plan minds it
};

/// What the count was worked out from, where it was.
struct FromPlan {
    std::string asked;                 // "10 lb soy"; empty: the stock
    std::vector<std::string> short_of; // what one vessel more would want more of
    std::vector<std::string> left;     // "soy 230 g"
    std::vector<std::string> assumed;  // what was taken to be at hand
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
    std::optional<FromPlan> from; // of a recipe
    std::vector<RecipePlan> recipes;
    std::vector<PotPlan> pots;
    std::vector<StepPlan> steps;
    std::vector<CautionLine> cautions;
    std::vector<MeltPlan> melts; // where the batch has a melter
    std::vector<BathPlan> baths;
    DayPlan day;
    MoneyPlan money;
};

/// The recipes (index of Plan::recipes) in the order in which the day works them.
std::vector<std::size_t> worked_order(const Plan& plan);
/// How many fillings of pots a recipe takes.
std::int64_t fillings_of(const Plan& plan, std::size_t recipe);

/// One recipe's part of Plan::pots and Plan::steps, which stand in the order of the recipes.
std::span<const PotPlan> pots_of(const Plan& plan, std::size_t recipe);
std::span<const StepPlan> steps_of(const Plan& plan, std::size_t recipe);

} // namespace waxwright
