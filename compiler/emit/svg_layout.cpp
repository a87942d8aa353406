#include "emit/svg_layout.hpp"

#include <algorithm>
#include <cmath>

#include "emit/svg_text.hpp"

namespace waxwright {

namespace {

constexpr double break_width = 11;
constexpr double long_min = 45;  // min: a longer stretch is cut short
constexpr double off_scale = 45; // C° over the hottest: a line that far up is told, not drawn

} // namespace

PictureLayout::PictureLayout(const HeatPicture& picture, std::span<const StepPlan> steps)
    : picture_(picture) {
    scale();
    lay_out();
    number_steps(steps);
}

void PictureLayout::scale() {
    double least = picture_.room_c, most = picture_.room_c;
    for (const HeatStretch& stretch : picture_.stretches) {
        for (const auto& each : {stretch.from_c, stretch.to_c}) {
            if (!each) continue;
            least = std::min(least, *each);
            most = std::max(most, *each);
        }
    }
    const double hottest = most;
    for (const HeatMark& mark : picture_.marks) {
        if (mark.high_c > hottest + off_scale || mark.low_c < least - off_scale) continue;
        least = std::min(least, mark.low_c);
        most = std::max(most, mark.high_c);
    }
    low = std::floor(least / 10) * 10;
    high = std::max(std::ceil((most + 4) / 10) * 10, low + 30);
}

/// Known stretches share the width by their time; unknown and long ones get a fixed one.
void PictureLayout::lay_out() {
    double minutes = 0, cuts = 0;
    for (const HeatStretch& stretch : picture_.stretches) {
        const double length = stretch.ends_min - stretch.begins_min;
        const bool cut = !stretch.known || length > long_min;
        drawn.push_back({&stretch, 0, 0, cut});
        cuts += cut ? 1 : 0;
        minutes += cut ? 0 : length;
    }
    const double room = plot_right - plot_left;
    const double cut_width = cuts > 0 ? std::min(break_width, room * 0.6 / cuts) : 0;
    const double by_minute = minutes > 0 ? (room - cuts * cut_width) / minutes : 0;
    double x = plot_left;
    for (DrawnStretch& each : drawn) {
        const double length = each.stretch->ends_min - each.stretch->begins_min;
        each.left = x;
        x += each.cut ? cut_width : length * by_minute;
        each.right = x;
    }
}

void PictureLayout::number_steps(std::span<const StepPlan> steps) {
    bool unknown = false;
    for (std::size_t i = 0; i < picture_.stretches.size(); ++i) {
        const HeatStretch& stretch = picture_.stretches[i];
        const bool waits =
            i + 1 < picture_.stretches.size() && picture_.stretches[i + 1].step == stretch.step;
        // A step that the pot has to wait for is done in the last of its stretches; cooling of an
        // unknown length is the step itself, and ends it.
        const bool ends_it = !stretch.known && steps[stretch.step].verb != Verb::melt;
        if (!waits) numbered.push_back({stretch.step, i, unknown || ends_it});
        unknown = unknown || !stretch.known;
    }
}

std::string PictureLayout::time_of(std::size_t number) const {
    const NumberedStep& each = numbered[number];
    const double begins = picture_.stretches[each.stretch].begins_min;
    return clock_of(begins) + (each.at_least ? "+" : "");
}

} // namespace waxwright
