// Which of a job's figures are doubtful (`0.92 g/ml +- 0.02`), and the same inputs with them at the
// ends of their doubts.
#pragma once

#include <string>
#include <vector>

#include "reckon/inputs.hpp"

namespace waxwright {

/// One end for each doubtful figure: -1, 1, or 0 where it stands as it is written.
using Ends = std::vector<signed char>;

/// A doubtful figure: where it is kept, and how it is shown.
struct UncertainInput {
    double* value;
    double* also = nullptr;  // moves with it: the other end of a range that is one figure
    double* doubt = nullptr; // kept beside it; 0 while it is moved, as it is sure then
    double half_width = 0;
    BlockId block = no_block;
    Key key{};                   // of the block; of a step: Key::notes, which has no figure
    std::vector<double*> rest{}; // the other shares of a whole, which make up for it
    Quantity written{};          // as it stands, with its doubt
    bool amount = false;         // moves results, and not only limits
    bool swings = false;         // its sense may hang on other figures
};

/// A copy of a job's inputs whose doubtful figures can be moved.
class UncertainInputs {
public:
    explicit UncertainInputs(const Inputs& in);
    // The figures are kept by their addresses in the copy.
    UncertainInputs(const UncertainInputs&) = delete;
    UncertainInputs& operator=(const UncertainInputs&) = delete;

    const std::vector<UncertainInput>& all() const { return all_; }
    /// The inputs with the figures at these ends; good until the next call.
    const Inputs& at(const Ends& ends);

private:
    void set(double* place, double value);
    void move(const UncertainInput& figure, double by);

    Inputs in_;
    std::vector<UncertainInput> all_;
    std::vector<std::pair<double*, double>> before_; // what was moved, as it was
};

/// True if any figure that the job hangs on is doubtful; quick, as most recipes have none.
bool any_doubt(const Inputs& in);

/// "`density` of `soy`", "the temperature of a step".
std::string name_of(const Model& model, const UncertainInput& figure);
/// The same for whoever stands at the stove, without the language's keys: "how heavy melted soy
/// is".
std::string said_plainly(const Model& model, const UncertainInput& figure);

} // namespace waxwright
