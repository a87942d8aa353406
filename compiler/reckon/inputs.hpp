// Everything a job hangs on, as a flat value: each figure of its recipe, vessel, pot, scale and
// materials with the place it was written at. reckon() works on this alone. Whoever wants to know
// what another figure would do changes a copy; the model is never written to.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "model/model.hpp"
#include "reckon/job.hpp"

namespace waxwright {

/// Whether a property was given. Nothing may be concluded from one that can't be read: it may have
/// been anything.
enum class Said : std::uint8_t { no, unreadable, yes };

/// A property as its block gives it. `at` is the value's place; of an unsaid one there is none.
template <typename T>
struct Given {
    Said said = Said::no;
    Span at{};
    T value{};

    bool unsaid() const { return said == Said::no; }
    const T* get() const { return said == Said::yes ? &value : nullptr; }
    explicit operator bool() const { return said == Said::yes; }
    const T* operator->() const { return &value; }
};

/// °C. What a flash point counts as: where it is doubtful its low end, as a fire asks for no more.
inline double low_end(const Flash& flash) {
    return flash.counted - flash.doubt;
}

/// A single figure, in the inside units; nothing where it is unsaid or can't be read.
inline std::optional<double> figure(const Given<Figure>& given) {
    return given ? std::optional(given->value()) : std::nullopt;
}

enum class MatterKind : std::uint8_t { wax, additive, oil, leftover };

/// One material of the finished candle, weighed fresh or brought by a leftover. What its kind
/// doesn't have is unsaid. No leftover is one: what is in it stands here.
struct MatterInput {
    MatterKind kind;
    BlockId block;
    Span at;             // where the recipe names it, or the leftover that brings it
    double share;        // in the finished candle, of its kind; of an additive: of the wax
    double fresh;        // the same of what is weighed fresh, as the recipe says it
    double doubt = 0;    // of the fresh share
    double brought = 0;  // fraction of the whole candle that leftovers bring of it
    bool weighed = true; // false for what comes with leftovers only
    Given<Densities> density{}, liquid_density{};
    bool density_assumed = false; // an oil that says none has the usual one
    Given<Range> melts{};
    Given<Figure> sets{}, ceiling{};
    Given<Load> limit{};       // the `max-load` of a wax, the `limit` of an oil or additive
    Given<Load> certificate{}; // an oil's `ifra-cat-12`
    Given<Flash> flash{};
    Given<Range> scent_at{}, pour_at{};
    Given<Figure> heat{}, heat_liquid{}, melting_heat{}; // J/g/K, J/g/K, J/g
};

/// What a vessel is made of; `untold` where a line could not be read.
enum class VesselStuff : std::uint8_t { unsaid, untold, glass, tin, other };

struct VesselInput {
    BlockId block = no_block;
    VesselStuff of = VesselStuff::unsaid;
    Given<Figure> fill{}, brimful{}, headspace{}, bore{}, mouth{}, shock{};
    Given<Inside> inside{};
};

/// How a pot is heated. `untold` is where it can't be known because a line could not be read: no
/// rule says anything about it.
enum class Heated : std::uint8_t { unsaid, water_bath, melter, hotplate, flame, microwave, untold };

struct PotInput {
    BlockId block = no_block;
    Heated heated = Heated::unsaid;
    Given<Figure> brimful{}, headroom{}, clings{}, weighs{}, power{};
    Given<Cools> cools{};
    Given<Bath> bath{};
};

/// What stands in the heat: the pot, or the batch's melter.
struct HeatInput {
    Heated how = Heated::unsaid;
    BlockId pot = no_block;
    Span at{}; // where it is named; the recipe's name where it isn't
};

struct ScaleInput {
    BlockId block = no_block;
    Given<Figure> reads{}, most{};
};

struct WickInput {
    BlockId block;
    std::int64_t count; // in each vessel
    Span at;
    Given<Range> suits{};
    Given<Figure> burns{};
};

/// What the recipe holds back for its second pour: a share of what is melted for a vessel, or a
/// mass for each vessel; and the pots it waits in, where it doesn't wait in its own.
struct KeepInput {
    Given<Load> share{};
    Given<Figure> mass{};
    PotInput pot{}; // no block: it stays where it was melted
    std::int64_t pots = 0;
    Span pot_at{};

    bool unsaid() const { return share.unsaid() && mass.unsaid(); }
};

/// A material of a leftover, as its recipe or itself says it.
struct LeftoverPart {
    std::size_t matter; // index of Inputs::matter
    double share;       // of its kind; of an additive: of the wax
    double doubt = 0;
};

/// What comes out of leftovers in the place of fresh wax, scent and additives.
struct LeftoverInput {
    BlockId block;
    Span at;
    double share;                                        // of the whole candle
    double doubt = 0;                                    // of the share
    bool known = false;                                  // all that is in it could be read
    BlockId says = no_block;                             // itself, or the recipe it is of
    Given<Load> load{};                                  // on its own fresh wax
    std::vector<LeftoverPart> parts{};                   // of its fresh wax, scent, additives
    std::vector<std::pair<std::size_t, double>> inner{}; // index of Inputs::matter, fraction of it:
                                                         // what leftovers had brought to it
    double inner_share = 0;                              // all of those
};

/// What mix() works out of the fresh mixture and the leftovers. Fractions; absent where unknown.
struct Mixed {
    double leftover = 0;              // of the whole candle
    std::optional<double> load;       // of the wax, in the finished candle
    std::optional<double> fresh_load; // of the fresh wax: what is weighed
    std::optional<double> fresh_additives;
    double brought_wax = 0, brought_scent = 0; // of the whole candle
};

struct Inputs {
    Job job;
    VesselInput vessel{};
    PotInput pot{};
    KeepInput keep{};
    HeatInput heat{};
    ScaleInput scale{};
    std::vector<MatterInput> matter{}; // waxes, additives, oils, each in the order written
    std::uint32_t waxes_count = 0, additives_count = 0;
    Said waxes_said = Said::no, additives_said = Said::no, oils_said = Said::no;
    Given<Load> load{};                     // of the fresh wax
    std::vector<LeftoverInput> leftovers{}; // each once, in the order written
    Said leftovers_said = Said::no;
    Mixed mixed{};                                    // mix() keeps it
    Given<Figure> headspace{};                        // the recipe's own
    Given<Figure> spare{}, thermometer_error{};       // the batch's before the recipe's
    Given<Figure> room{}, stop_at{};                  // the batch's; the recipe's
    BlockId spare_of = no_block, error_of = no_block; // the block that says it
    std::vector<Step> steps{};
    std::vector<WickInput> wicks{};
    std::vector<Count> extras{}; // for each vessel
    bool ounces = false;         // what no scale is named for is weighed in ounces
    bool steps_broken = false;   // a step could not be read, and may have been anything

    std::span<const MatterInput> waxes() const { return {matter.data(), waxes_count}; }
    std::span<const MatterInput> additives() const {
        return {matter.data() + waxes_count, additives_count};
    }
    std::span<const MatterInput> oils() const {
        return std::span(matter).subspan(waxes_count + additives_count);
    }
    bool has_leftovers() const { return leftovers_said != Said::no; }
    /// Fraction; C°, 0 where it was said and can't be read; °C.
    double spare_share() const { return figure(spare).value_or(0); }
    double error_of_thermometer() const {
        return figure(thermometer_error).value_or(thermometer_error.unsaid() ? usual_error : 0);
    }
    double room_temperature() const { return figure(room).value_or(usual_room); }

    static constexpr double usual_error = 3; // C°, common practice
    static constexpr double usual_room = 20; // °C
};

/// True where leftovers bring scent: the wax has it in it from the melt on.
bool brings_scent(const Inputs& in);

/// The material of that block, if the mixture has it.
const MatterInput* matter_of(const Inputs& in, BlockId block);

/// How what is kept back is warmed: as the pot is that it waits in.
Heated warms_kept(const Inputs& in);

/// Works out what of everything is in the finished candle (`share` of each material, `mixed`) from
/// what is weighed fresh and what the leftovers bring. To be called again once a load, a fresh
/// share or a leftover's figure is another one. Without leftovers the finished candle is the fresh
/// mixture.
void mix(Inputs& in);

/// The load of wax that a load comes to, `scented` telling whether there is an oil: 0 without both.
/// Nothing where it can't be read, or one is without the other.
std::optional<double> said_load(const Given<Load>& load, bool scented,
                                std::optional<double> additives);

/// What a job hangs on. Absent blocks give absent figures; nothing is filled in.
Inputs gather(const Model& model, const Job& job);
/// The pot's figures, for a batch's melter too.
PotInput gather_pot(const Model& model, BlockId pot);
/// The pot a batch names as its melter, or no_block.
BlockId melter_block(const Model& model, BlockId batch);

} // namespace waxwright
