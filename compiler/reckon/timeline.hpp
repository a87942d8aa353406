// The day of a batch, or of a recipe by itself: every filling of every pot on one line of time that
// one person can follow. s from the beginning, g.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "reckon/heat_profile.hpp"

namespace waxwright {

/// Past so many fillings nobody follows a line of time; none is made.
inline constexpr std::int64_t most_fillings = 300;

/// One filling of a pot and its profile.
struct Filling {
    std::size_t line;        // index of the reckonings
    std::size_t kind;        // index of its pots
    std::size_t profile;     // index of Timeline::profiles
    std::int64_t number;     // of the recipe's fillings, from 1
    std::int64_t unit;       // which of the pots of that name, from 1
    std::int64_t keeps = 0;  // which of the pots it waits in, from 1; 0 where it stays in its own
    double begins = 0;       // s
    double washes_from = -1; // s; under 0 where nothing has to be wiped and washed before
    bool washes_own = false, washes_keep = false; // which of its two pots
    std::vector<double> top_ups{};                // s from its beginning: of its bath, again
};

/// A step that is done for all vessels of a recipe at once.
struct SharedStep {
    std::size_t line;
    std::size_t step; // index of the recipe's steps
    double begins;
    double ends;
    bool attended;
    bool known = true;     // false: it may have to wait longer, till the wax is cold
    bool next_day = false; // so long after the last pour that it may as well wait
};

/// One melting in the batch's melter: the wax of all recipes that have the same blend.
struct Melting {
    std::vector<std::size_t> lines; // which recipes' wax it is
    double grams = 0;               // of wax in each filling, what clings to the melter included
    double clings = 0;              // g of each filling that stay in the melter
    std::int64_t fillings = 1;
    double celsius = 0;              // how hot it is drawn: the hottest melt step of its recipes
    double volume_ml = 0;            // of each filling, liquid and hot; 0 where that isn't known
    std::optional<double> seconds{}; // that one filling takes to melt; nothing where not known
};

/// One filling of the melter. It goes on once the last wax of the one before is drawn.
struct MelterFilling {
    std::size_t melting; // index of Timeline::meltings
    double begins;
    double ready; // when it is melted, at the earliest
    bool wiped;   // another blend was in it before: it is emptied and wiped first
    double left;  // g of the same wax that are still in it, what clings included
};

/// When the last step of a recipe ends, its cure included.
struct Done {
    double at = 0;
    bool known = true; // false: at the earliest
};

/// A source of heat that can't be off while scent of a line stands at or over its flash point: the
/// melter that keeps wax for other jugs, or what warms the line's wax that was kept back.
struct HeatStaysOn {
    std::size_t line;
    bool melter;

    friend bool operator==(const HeatStaysOn&, const HeatStaysOn&) = default;
};

struct Timeline {
    std::vector<std::size_t> order; // the lines in the order in which they are worked
    std::vector<HeatProfile> profiles;
    std::vector<Filling> fillings; // in the order in which they begin
    std::vector<SharedStep> shared_steps;
    std::vector<Melting> meltings;
    std::vector<MelterFilling> melter;  // in order
    double melter_off = 0;              // as its last wax is drawn
    std::vector<double> melter_pauses;  // likewise, before it is filled again
    std::vector<double> melter_top_ups; // of its bath, between its fillings
    std::vector<Done> done;             // by line
    double worked = 0;                  // when the last hands are off, cures not counted
    double hands_on = 0;                // for how long somebody is at it
    bool too_many = false;              // over `most_fillings`: nothing else is filled in
    Unknowns unknowns;                  // of all profiles together
    std::vector<HeatStaysOn> heat_stays_on;
    std::vector<std::pair<BlockId, std::size_t>> baths; // by the pots' name; a melter's not counted
    double known_till = 0; // times after this are 'at the earliest'; infinite if all are known
};

/// One reckoning for each line of the batch, or the only one of a recipe by itself; the melter has
/// no block where there is none. All vessels are got ready before anything is on the heat, and pots
/// are washed, and candles worked on, only while nothing melts. Unscented
/// recipes are worked first, then the lightest load up to the strongest, so that little of one
/// scent gets into the next. A pot is taken again once its last pour is done (a kept-back second
/// pour keeps it, or the pot that it waits in), and is washed between two scents.
Timeline timeline_of(std::span<const Reckoning> lines, const PotInput& melter);

/// s after its last pour at which wax is taken for set and cold (common practice: it depends on the
/// vessel). Before that no time is given for what wants it cold.
inline constexpr double cold_after = 2 * 3600;
/// And for set, so that warm air can go over its top (common practice).
inline constexpr double set_after = 3600;

/// s of hands a pot, wiped out, is washed and dried in between two scents (common practice).
inline constexpr double wash_seconds = 300;

} // namespace waxwright
