// A job worked out in numbers: volumes, densities, loads, limits, pots and what goes on the scale.
// What is unknown, or hangs on something a finding has been told about, is absent; nobody has to
// guess. Units: g, ml, mm, °C, fractions.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "reckon/inputs.hpp"
#include "reckon/pots.hpp"
#include "units/figure_range.hpp"

namespace waxwright {

/// The numbers of a job, before anything is shared out over pots and scale. Working them out
/// allocates nothing: doubt does it hundreds of times.
struct Amounts {
    // The vessel
    std::optional<double> brimful_ml;
    std::optional<double> fill_ml;      // absent too where the headspace leaves nothing to fill
    std::optional<double> headspace_mm; // the recipe's or the vessel's, whether or not it counts
    std::optional<double> headspace_ml; // what it leaves empty; all of the vessel if it's that deep
    std::optional<double>
        headspace_reckoned_ml;         // the same as reckoned, more than the vessel or not
    std::optional<double> depth_mm;    // of the empty vessel, where `inside` says it
    std::optional<double> bore_mm;     // said, or at the fill line of `inside`
    bool bore_needed_for_fill = false; // headspace and brimful are there; no bore and no mouth is

    // The mixture
    std::optional<double> additives;   // fraction of the wax; 0 without any
    std::optional<double> load_of_wax; // of the finished candle; 0 without scent
    std::optional<double> load_of_total;
    std::optional<double> fresh_load;      // of the fresh wax: what is weighed
    std::optional<double> fresh_additives; // of the fresh wax
    double leftover = 0;                   // fraction of the whole that comes out of leftovers
    std::optional<double> solid_density;   // g/ml of the mixture
    std::optional<double> pour_density;    // liquid, at the pour; solid waxes may stand in
    std::optional<double> room_density;    // liquid, at the hottest step; the thin side
    BlockId no_liquid_left = no_block; // a wax whose liquid density, drawn on as a line, is down
                                       // to nothing at the pour or the hottest step
    BlockId density_far = no_block;    // a wax whose liquid density was measured more than
                                       // furthest_from_density from one of them

    // Limits of the blend
    std::optional<double> limit_of_wax; // max-load, mass-weighted
    std::optional<double> ceiling;      // °C, lowest
    BlockId ceiling_wax = no_block;
    std::optional<double> melted_at; // °C, the top of the highest melting range
    BlockId melted_wax = no_block;
    std::optional<double> sets;        // °C, mass-weighted
    BlockId largest_wax = no_block;    // its scent-at and pour-at count
    std::optional<double> wax_flash;   // °C as counted, the lowest that is said
    BlockId wax_flash_of = no_block;   // the wax it is of
    std::optional<double> scent_flash; // °C as counted, lowest of the oils; absent if one is unsaid
    BlockId flash_oil = no_block;
    std::optional<double> brought_flash;  // the same of the oils that leftovers bring: these are in
    BlockId brought_flash_oil = no_block; // the wax from the melt on

    // The steps
    std::optional<double> hottest;        // °C, of what is in the pot: not of `warm vessels`
    std::optional<double> pour_at;        // °C
    std::optional<double> scent_at;       // °C
    std::optional<double> second_pour_at; // °C; set if there is such a step, even of no use
    bool second_pour = false;             // there is such a step, its temperature readable or not

    // One vessel
    std::optional<double> mass_g; // finished
    std::optional<double> first_pour_g;
    double second_pour_g = 0;        // up to; 0 without a second pour
    double sunk_g = 0;               // what the second pour has to fill, kept back or not
    double kept_g = 0;               // held back for it: the second pour, or what `keep` says
    double melted_g = 0;             // the first pour and what is kept back
    bool no_shrinkage = false;       // a second pour is asked for and nothing is left for it
    std::optional<double> drop_mm;   // how far the first pour sinks, where the bore and every
                                     // liquid density are known, and it does sink
    std::optional<double> poured_ml; // what the first pour takes up at the pour; over fill_ml
                                     // where a liquid density is missing: the thin side

    // All of it
    std::optional<double> usable_ml;      // of one pot
    std::optional<double> keep_usable_ml; // of the pot that what is kept back waits in
    double clings_g = 0;                  // left in each pot, and in what its wax waits in
    std::int64_t vessels_a_pot = 0;       // the most a pot fills; 0 without a named pot
    bool pot_too_small = false;
    Spread spread{};                               // empty where the pots are not worked out
    double wax_g = 0, scent_g = 0, additive_g = 0; // fresh; spare and clings included
    double leftover_g = 0;                         // so

    bool shared_out() const { return spread.fuller_pots > 0; }
    /// All of the mixture, g.
    double total_g() const { return wax_g + scent_g + additive_g + leftover_g; }
};

Amounts amounts_of(const Inputs& in);

/// One thing that is weighed: its fraction of its kind as the recipe says it (for additives: of the
/// fresh wax; for leftovers: of the whole) and its mass for the whole job, spare and what clings
/// included.
struct Part {
    MatterKind kind;
    BlockId material;
    Span at; // where the recipe names it
    double share;
    double grams = 0;
};

/// One weighing of a pot, or of the scent's own blend.
struct Weighing {
    MatterKind kind;  // oil stands for the whole scent, unless it is of the premix
    BlockId material; // no_block for a scent of several oils, or a blend drawn from a melter
    double exact;     // g
    double weighed;   // g, whole divisions
};

/// Fillings that are alike.
struct PotKind {
    std::int64_t pots;
    std::int64_t vessels; // in each
    double grams;         // exact, of each
    double volume_ml; // of each, liquid, at the hottest step (the thin side where that's unsaid)
    // Nothing is weighed (no lines, 0) where the scale is named but can't be read.
    double weighed;              // g, whole divisions: the sum of its lines
    double division;             // g: the scale's, or 0.1 or 1 where there is none
    std::vector<Weighing> lines; // waxes, leftovers, additives, scent, each in the order written
};

/// How far doubtful figures (`+-`) move the results; absent where they don't. See corners.hpp.
struct Bounds {
    std::optional<FigureRange> mass_g, first_pour_g; // one vessel
    std::optional<FigureRange> load_of_wax, load_of_total;
    std::optional<FigureRange> wax_g, scent_g, additive_g, leftover_g; // all of it
    std::optional<FigureRange> fillings;                               // of pots, all kinds
    std::optional<FigureRange> most_vessels;                           // in the fullest filling
    bool unknown = false; // at an end of the doubts something can't be worked out
    std::string widest;   // the figure that moves the first pour most
};

struct Reckoning : Amounts {
    Inputs in;
    std::vector<Part> parts;                  // waxes, leftovers, additives, oils
    std::vector<BlockId> no_liquid_density;   // waxes whose solid density stands in
    std::vector<BlockId> one_liquid_density;  // waxes whose expansion is the rule of thumb
    std::vector<BlockId> no_additive_density; // additives that take the wax's mean
    double division_g = 0;                    // of the scale, or 0 where there is none
    std::vector<PotKind> pots;                // the fuller kind first; empty where not worked out
    std::vector<Weighing> premix;             // only with several oils
    double premix_division = 0;               // g
    bool complete = false;                    // every weight is worked out

    Bounds bounds; // by bounds() of corners.hpp; reckon() leaves it empty
};

/// Pure: the same inputs give the same reckoning.
Reckoning reckon(Inputs in);

/// How much of the wax, or of the total, one oil (`share` of the scent) or additive is.
std::optional<double> portion(const Amounts& amounts, MatterKind kind, double share, Basis basis);

/// What another load would weigh for the job on each basis: fresh scent in g for all vessels.
/// Nothing where the rest of the recipe can't be worked out.
std::optional<double> scent_on_basis(const Inputs& in, double fraction, Basis basis);
/// g/ml of the waxes alone, liquid at a temperature, on the thin side where a liquid density is
/// missing.
std::optional<double> wax_room_density(const Inputs& in, double celsius);
/// g of the scent in a ml, by volume additivity over its oils.
std::optional<double> scent_density(const Inputs& in);

} // namespace waxwright
