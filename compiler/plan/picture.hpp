// The heat plan of one filling as a curve: temperature against time, with the figures it is held
// against. Minutes from when the pot goes on, °C.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/model.hpp"
#include "plan/plan.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// A stretch of the curve. Over one whose time or temperatures aren't known there is nothing to
/// draw but that it is not known.
struct HeatStretch {
    std::size_t step; // index of the recipe's steps
    double begins_min = 0;
    double ends_min = 0;            // not before it begins
    bool known = true;              // false: it takes longer than this, nobody knows how much
    bool attended = false;          // somebody is at it
    std::optional<double> from_c{}; // once the cold scent is in, where it is added off the heat
    std::optional<double> to_c{};
    std::optional<double> rate{}; // 1/min of Newton's law where it cools, and its time is known
};

/// A horizontal line, or a band where it has a low and a high.
struct HeatMark {
    std::string name;
    double low_c;
    double high_c; // the same for a line
};

struct HeatPicture {
    std::vector<HeatStretch> stretches; // in order of time
    std::vector<HeatMark> marks;        // ceiling, flash point, melting range, scent-at, pour-at
    double room_c = 0;
    double length_min = 0;
};

/// The first of the recipe's kinds of filling, which is the fuller. `drawn_at` is the temperature
/// of the melter it is drawn from. Empty where no pot could be worked out.
HeatPicture picture_of(const Model& model, const Reckoning& reckoning,
                       std::optional<double> drawn_at);

/// The temperature at a time within the stretch: Newton's law where it cools, straight where it
/// doesn't. Nothing outside of it, or where its time or a temperature isn't known.
std::optional<double> celsius_at(const HeatStretch& stretch, double room_c, double minute);

} // namespace waxwright
