// Where things stand on a picture: its scales, and the stretches of its curve on paper. mm, °C.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "plan/picture.hpp"
#include "plan/plan.hpp"

namespace waxwright {

inline constexpr double picture_width = 148;
inline constexpr double plot_left = 26, plot_right = 97, plot_top = 25, plot_bottom = 116;

/// A stretch of the curve on paper.
struct DrawnStretch {
    const HeatStretch* stretch;
    double left, right;
    bool cut; // its width says nothing of its time: that is not known, or long
};

/// A step that the pot goes through, and the stretch at whose beginning it is done.
struct NumberedStep {
    std::size_t step;    // index of the recipe's steps
    std::size_t stretch; // index of the picture's
    bool at_least;       // something before it takes a time that is not known
};

class PictureLayout {
public:
    PictureLayout(const HeatPicture& picture, std::span<const StepPlan> steps);

    double low = 0, high = 100; // °C at the edges of the plot, whole tens
    std::vector<DrawnStretch> drawn;
    std::vector<NumberedStep> numbered;

    /// False for a figure so far off that it is told and not drawn.
    bool in_scale(const HeatMark& mark) const { return mark.low_c >= low && mark.high_c <= high; }
    double y_of(double celsius) const {
        return plot_bottom - (celsius - low) / (high - low) * (plot_bottom - plot_top);
    }
    /// "0:42", "0:42+" where that is the earliest.
    std::string time_of(std::size_t number) const;

private:
    void scale();
    void lay_out();
    void number_steps(std::span<const StepPlan> steps);

    const HeatPicture& picture_;
};

} // namespace waxwright
