// The label of a recipe for a market as data: what is printed on it, and what its maker has to know
// beside it. It owns its strings and points at nothing. Units: g, ml, mm; fractions are by mass, of
// the finished candle. What is unknown is absent. Nothing here says that a label is enough.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/market.hpp"
#include "units/date.hpp"

namespace waxwright {

/// What the label says is in the candle.
struct LabelNet {
    std::string words;    // "Net Wt 7.9 oz (223 g)", "220 g"; empty: the recipe says no `net`
    double claimed_g = 0; // as the recipe says it; 0 where it says none
    std::optional<double> low_g; // what is poured into one, at the low end of its doubts
    std::optional<double> high_g;
    std::string enforced;       // us: which of the two figures is, "8 oz"; empty where they agree
    double average_g = 0;       // what a lot holds on average, at the least
    double tolerable_g = 0;     // eu, gb: the tolerable negative error; 0 elsewhere, and beyond it
    double least_of_most_g = 0; // eu, gb: few may hold less
    double least_of_any_g = 0;  // eu, gb: none may hold less and bear the e-mark
    /// It may be borne by this quantity. It is never printed by itself: whoever prints it has lots
    /// weighed as the directive wants it.
    bool e_mark_open = false;
    double figure_height_mm = 0; // at the least, of the figures in `words`; 0 where there are none
};

/// A sentence of the hazard block: H, P or the supplier's.
struct LabelSentence {
    std::string code; // "H317", "P302+P352"; empty in a text of the supplier that begins with none
    std::string text; // without the code
    bool may_go = false; // it may be left off: at most 125 ml of contents
};

enum class HazardSource : std::uint8_t {
    worked_out,     // by the arithmetic, from what is in it
    supplier,       // the supplier's own texts, at no more than the load they are stated for
    not_worked_out, // something in it isn't known: `instead` stands in the block's place
    other_law,      // us: it goes by other rules, which aren't worked out; there is no such block
};

struct LabelHazards {
    HazardSource source = HazardSource::not_worked_out;
    /// not_worked_out: "not worked out: ask the supplier for the label at 6 % of total". Never
    /// printed as an empty block: nothing known isn't nothing there.
    std::string instead;
    std::vector<int> pictograms;    // n of GHS0n, ascending
    std::string signal;             // "WARNING", "DANGER", or empty
    std::vector<std::string> named; // substances that bring about the classes
    std::vector<LabelSentence> hazards, precautions;
    std::string euh208; // "Contains … May produce an allergic reaction.", or empty
    bool none = false;  // worked out or stated, and nothing comes onto the label
};

/// Which drawing stands beside a caution; each has one.
enum class CautionSign : std::uint8_t {
    within_sight,      // never leave it burning unattended
    children_and_pets, // out of their reach
    things_that_burn,  // not on or near them
    trim,
    longest_burn,
    apart,
    draught,
    debris,    // keep the pool clear of matches and trimmings
    not_moved, // while it burns
    stop,      // stop when so much wax is left
};

struct FireCaution {
    CautionSign sign;
    std::string text;
    bool required; // one of the three that are always there
};

enum class FireHead : std::uint8_t {
    safety_alert,    // us: the safety alert symbol, and WARNING behind it at once (ASTM F2058)
    general_warning, // eu, gb: the general warning sign (EN 15494)
};

struct LabelFire {
    FireHead head = FireHead::general_warning;
    std::string word; // "WARNING" behind the safety alert symbol; empty behind the general sign
    std::vector<FireCaution> cautions; // the three required first, in the order to be printed
};

/// The least sizes that the rules ask for.
struct LabelSizePlan {
    double contents_ml = 0; // of one candle: wax and what is in it, not the vessel to its brim
    double width_mm = 52, height_mm = 74;
    double pictogram_mm = 10, better_pictogram_mm = 16; // each side
    double x_height_mm = 0;      // eu: applied already, though it is asked for from 2028-01-01 on
                                 // only; 0 where no rule has one
    double symbol_mm = 5;        // beside cautions, each (EN 15494)
    bool contents_known = false; // else those of up to 0.5 l, and nothing may be left off
    double most_ml = 0;          // contents_ml at the high end of its doubts: what sizes go by, and
                                 // what may be left off
    // What the vessel has room for, outside; 0 where that isn't known.
    double around_mm = 0;     // once round it, at the height of the wax
    double tall_mm = 0;       // from its base to its mouth
    bool tall_is_said = true; // `inside` says how deep it is; else reckoned from what is in it
};

/// A table of the arithmetic, for a person to follow: a heading and lines of plain text.
struct LabelWorking {
    std::string title; // "Skin Sens. 1", "net quantity"
    std::vector<std::string> lines;
};

struct Label {
    std::string recipe;   // its name
    std::string title;    // what the candle is called
    std::string identity; // what it is: "Scented candle", "Candle"
    Market market = Market::eu;
    LabelNet net;
    std::string lot; // a batch's
    std::optional<Date> made_on, ready_on;
    std::vector<std::string> maker;   // name, address, phone: a line each; an empty one is a blank
    std::vector<std::string> missing; // "the telephone number of the maker": what has to be written
                                      // in by hand; the label has a blank for each
    LabelHazards hazards;
    LabelFire fire;
    LabelSizePlan sizes;
    bool ufi_blank = false;    // eu: it wants a UFI, and has a blank for it
    bool not_burned = false;   // NOT TEST BURNED, across it
    bool ask_supplier = false; // ASK THE SUPPLIER: what they say leaves a sentence open
    std::int64_t count = 0;    // candles that want one

    // Not printed on it.
    std::vector<std::string> rules;     // which text of which rule was applied, a sentence each
    std::vector<std::string> knows_not; // what no arithmetic can know, a sentence each
    std::vector<std::string> notes;     // what was taken for granted, and what to ask
    std::vector<LabelWorking> worked;
};

/// What stands across a label whose candle nobody has burned.
inline constexpr std::string_view not_burned_words = "NOT TEST BURNED";
/// What stands across a label whose supplier doesn't say what the oil's own contents give.
inline constexpr std::string_view ask_supplier_words = "ASK THE SUPPLIER";

} // namespace waxwright
