// What becomes of one filling of a pot: step by step, how long it takes and how hot it is. s, °C.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "model/model.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// What a stage is: the wait till the pot is as hot as a step wants it, or the step itself.
enum class StageKind : std::uint8_t { wait, step };

struct Stage {
    std::size_t step; // index of the recipe's steps
    StageKind kind;
    double begins = 0;               // s from when the filling goes on
    double ends = 0;                 // not before it begins
    bool attended = false;           // somebody is at it from its beginning to its end
    bool on_heat = false;            // the pot stands on the heat as it ends
    bool too_hot = false;            // it should get cooler, and stands on the heat
    bool known = true;               // false: it takes longer than this, nobody knows how much
    std::optional<double> from{};    // °C in the pot as it begins, where that is known
    std::optional<double> to{};      // °C as it ends
    std::optional<double> dropped{}; // °C in the pot once the cold scent is in
    std::optional<double> last{};    // °C at which the last vessel of a first pour is poured
};

/// Why a time is not known, so that the sheet can say what would help.
struct Unknowns {
    bool power = false;     // the pot has none
    bool cools = false;     // the pot has none
    bool bath = false;      // nobody says how much water the pot stands in
    bool heats = false;     // a wax lacks `heat`, `heat-liquid` or `melting-heat`
    bool setting = false;   // it cools below the melting point, where no law holds
    bool cold_room = false; // it should get colder than the room
    bool on_heat = false;   // it should get cooler while it stands on the heat
    bool kept = false;      // what was kept back is warmed, and pot and bath with it
};

/// What either doesn't know.
void join(Unknowns& all, const Unknowns& more);

struct HeatProfile {
    std::vector<Stage> stages; // in order; of the steps from the first at the pot to the last pour
    Unknowns unknowns;
    std::optional<double> rate; // 1/s of Newton's law once all is in, where it is known

    std::optional<double> moved; // s at which what is kept back is poured into a pot of its own

    double length() const { return stages.empty() ? 0 : stages.back().ends; }
    /// s for which the filling has the pot it was melted in.
    double in_pot() const { return moved.value_or(length()); }
};

/// The steps of a recipe as a working day has them: those before the pot goes on and those behind
/// its last pour are done for all vessels at once, the others filling by filling.
struct Division {
    std::size_t first_at_pot = 0; // index of the first step at the pot
    std::size_t after_pot = 0;    // index behind the last pour
};
Division divide(std::span<const Step> steps);

/// True for a step that takes the pot off the heat. With scent in it, `hold` is one: no scented wax
/// is kept hot, it stands covered.
bool comes_off_heat(const Step& step, bool scented);

/// Seconds of somebody's hands a step takes for so many vessels: wiping 15 a vessel, a wick 45, a
/// pour 30, poking holes or trimming 15, smoothing or a label 30, a lid 10; adding something to a
/// pot, or drawing from a melter, 60; stirring as long as the recipe says (common practice, all but
/// the last). 0 for what needs no hands.
double work_seconds(const Step& step, double vessels);
inline constexpr double draw_seconds = 60;
/// s of hands that a pot is wiped out in once its last wax is poured, while it is warm (common
/// practice). The pour has them in it.
inline constexpr double wipe_seconds = 120;

/// One filling. `drawn_at` is the temperature of the melter it is drawn from; nothing where the pot
/// melts its own wax. `cold_bath`: the water it stands in is as cold as the room.
HeatProfile heat_profile_of(const Reckoning& reckoning, const PotKind& pot,
                            std::optional<double> drawn_at, bool cold_bath);

/// °C of the pot once the scent, as cold as the room, is in: a heat balance of the two. Nothing
/// without a scent, or where its temperature or load isn't known.
std::optional<double> temperature_after_scent(const Reckoning& reckoning);

/// J to melt so many grams of the recipe's waxes (and of what melts with them, which is taken for
/// wax) from one temperature to another; nothing where a wax lacks a figure.
std::optional<double> joules_for(const Reckoning& reckoning, double grams, double from, double to);

} // namespace waxwright
