// How far doubtful figures, `0.92 g/ml +- 0.02`, move what is worked out. There is no second
// arithmetic for it: the same reckoning is done on a copy of the inputs with the doubtful ones at
// the ends of their doubts.
//
// Nearly every result goes one way, up or down, with each figure taken by itself, so that its
// extremes lie at corners: every figure at one end or the other. Which end is found by moving each
// figure alone (2 n reckonings for n of them), and then one reckoning at the corner gives the
// value. For those that go one way:
// - a volume with its brimful and inside measures, and against headspace and the bore above it;
// - 1/ρ = Σ wi/ρi falls with each ρi, and with each temperature by which a liquid thins; with one
//   wi it is a quotient of two straight lines, which has no turning point;
// - a mass is a volume times such a density; a load on either basis is a quotient of straight lines
//   in the load and the additives; what goes round a pot is again a quotient of those.
// Two things are not so. Which way a load, a share or a temperature moves a mass can hang on
// another doubtful figure: where one of them is doubtful, figures are moved again, one by one, as
// long as that leads further. And what is whole, or a switch (fillings, `no-shrinkage`): it is read
// off where the smooth figures behind it are at their extremes. Totals hold what clings to each
// filling; where the doubt adds a filling, a corner shows it, but not what a point between might
// add by one filling's clings.
#pragma once

#include <utility>
#include <vector>

#include "reckon/limits.hpp"
#include "reckon/reckoning.hpp"
#include "reckon/uncertain.hpp"

namespace waxwright {

/// What is measured at a corner: first these of the amounts, then how far each check of the limits
/// is beyond its limit. NaN for the unknown.
enum class Measured : std::uint8_t {
    mass,
    first_pour,
    load_of_wax,
    load_of_total,
    wax,
    scent,
    additive,
    leftover,
    vessels_in_pot, // without rounding to whole ones
    limits          // the first of the limits
};

/// The extremes of amounts and limits over the doubts of a job; worked out once, for the bounds on
/// the sheet and for the findings.
class Corners {
public:
    Corners(const Inputs& in, const Amounts& as_written);

    bool any() const { return !uncertain_.all().empty(); }
    const std::vector<UncertainInput>& figures() const { return uncertain_.all(); }
    /// The checks of the limits as written.
    const LimitChecks& limits() const { return limits_; }

    /// Of one measure, the corner at which it is greatest (`way` 1) or least (-1). Where a figure
    /// doesn't move it by itself, the end of `otherwise` is taken.
    Ends corner(std::size_t measure, int way, const Ends& otherwise = {});
    /// The measures there; good until the next call that works one out.
    std::span<const double> at(const Ends& ends);
    double as_written(std::size_t measure) const { return as_written_[measure]; }
    /// True if it is known as written, and not with some figure at an end.
    bool breaks(std::size_t measure) const;
    /// How far one figure by itself moves a measure, from end to end.
    double influence(std::size_t figure, std::size_t measure) const;

    /// The inputs at a corner; good until the next call of anything here.
    const Inputs& inputs_at(const Ends& ends) { return uncertain_.at(ends); }

private:
    void measure(const Ends& ends, std::vector<double>& into);
    Ends searched(std::size_t measure, int way, const Ends& ends);
    void search_on(std::size_t measure, int way, Ends& ends);
    double single(std::size_t figure, int way, std::size_t measure) const;
    bool counts(std::size_t figure, std::size_t measure) const;

    UncertainInputs uncertain_;
    std::size_t amount_figures_ = 0; // those that move amounts
    LimitChecks limits_;
    LimitChecks limits_there_; // room to find them in again
    std::vector<double> as_written_;
    std::vector<double> singles_; // each figure low, high: a row of measures each
    std::vector<double> there_;
    std::vector<std::pair<Ends, std::vector<double>>> known_;
};

/// How far the doubts move the amounts; all empty where there are none.
Bounds bounds(const Model& model, const Amounts& as_written, Corners& corners);

} // namespace waxwright
