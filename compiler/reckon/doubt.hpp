// Doubtful figures, `0.92 g/ml +- 0.02`: how far they move what is worked out. There is no second
// arithmetic for it: each figure is a knob of the model, and the same reckoning is done again with
// the knobs turned to the ends of their doubts.
//
// Nearly every result goes one way, up or down, with each figure taken by itself, so that its
// extremes lie at corners: every knob at one end or the other. Which end is found by turning each
// knob alone (2 n reckonings for n of them), and then one reckoning at the corner gives the value.
// For those that go one way:
// - a volume with its brimful and inside measures, and against headspace and the bore above it;
// - 1/ρ = Σ wi/ρi falls with each ρi, and with each temperature by which a liquid thins; with one
//   wi it is a quotient of two straight lines, which has no turning point;
// - a mass is a volume times such a density; a load on either basis is a quotient of straight lines
//   in the load and the additives; what goes round a pot is again a quotient of those.
// Two things are not so. Which way a load, a share or a temperature moves a mass can hang on
// another doubtful figure: where one of them is doubtful, knobs are turned again, one by one, as
// long as that leads further. And what is whole, or a switch (fillings, `no-shrinkage`): it is read
// off where the smooth figures behind it are at their extremes. Totals hold what clings to each
// filling; where the doubt adds a filling, a corner shows it, but not what a point between might
// add by one filling's clings.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "reckon/reckoning.hpp"

namespace waxwright {

/// A doubtful figure in the model: where it is kept, and how it is shown.
struct Knob {
    double* value;
    double* also = nullptr;  // moves with it: a flash point as written and as counted
    double* doubt = nullptr; // kept beside it; 0 while it is turned, as it is sure then
    double half_width = 0;
    BlockId block = no_block;
    Key key{};                   // of the block; of a step: Key::notes, which has no figure
    std::vector<double*> rest{}; // the other shares of a whole, which make up for it
    Quantity written{};          // as it stands, with its doubt
    bool amount = false;         // moves results, and not only limits
    bool swings = false;         // its sense may hang on other figures
};

/// One end for each knob: -1, 1, or 0 where it stands as it is written.
using Ends = std::vector<signed char>;

/// The doubtful figures that a job hangs on. The model is as it was whenever no call is running.
class Doubts {
public:
    Doubts(Model& model, const Job& job);

    const std::vector<Knob>& knobs() const { return knobs_; }
    bool any() const { return !knobs_.empty(); }
    /// Keeps only the knobs that move amounts.
    void only_amounts();

    /// Calls `use` with the model and the reckoning as they are with the knobs at these ends.
    void with(const Ends& ends, const std::function<void(const Reckoning&)>& use) const;

private:
    class Turned;

    Model& model_;
    Job job_;
    std::vector<Knob> knobs_;
};

/// What is looked at of a model and its reckoning: always as many numbers, NaN for the unknown.
using Measures = std::function<void(const Reckoning&, std::vector<double>&)>;

/// The extremes of measures over the doubts of a job.
class Extremes {
public:
    /// `centre` is the reckoning with all knobs as written.
    Extremes(const Doubts& doubts, const Reckoning& centre, Measures measures);

    /// Of one measure, the corner at which it is greatest (`way` 1) or least (-1). Where a knob
    /// doesn't move it by itself, the one of `otherwise` is taken.
    Ends corner(std::size_t measure, int way, const Ends& otherwise = {});
    /// The measures there.
    const std::vector<double>& at(const Ends& ends);
    double centre(std::size_t measure) const { return centre_[measure]; }
    /// True if it is known as written, and not with some knob at an end.
    bool breaks(std::size_t measure) const;
    /// How far one knob by itself moves a measure, from end to end.
    double influence(std::size_t knob, std::size_t measure) const;

private:
    Ends searched(std::size_t measure, int way, const Ends& ends);
    void search_on(std::size_t measure, int way, Ends& ends);

    const Doubts& doubts_;
    Measures measures_;
    std::vector<double> centre_;
    std::vector<std::vector<double>> singles_; // each knob low, high
    std::vector<std::pair<Ends, std::vector<double>>> known_;
};

/// How far the doubts of its figures move a reckoning; all empty where there are none.
Bounds bounds(Model& model, const Reckoning& reckoning);

/// "`density` of `soy`", "the temperature of a step".
std::string name_of(const Model& model, const Knob& knob);

} // namespace waxwright
