#include "plan/picture.hpp"

#include <algorithm>

#include "reckon/heat.hpp"
#include "reckon/heat_profile.hpp"

namespace waxwright {

namespace {

constexpr double a_minute = 60; // s

HeatStretch stretch_of(const Stage& stage, double room) {
    HeatStretch made{.step = stage.step,
                     .begins_min = stage.begins / a_minute,
                     .ends_min = stage.ends / a_minute,
                     .known = stage.known,
                     .attended = stage.attended,
                     .from_c = stage.from,
                     .to_c = stage.to};
    const bool cools = stage.from && stage.to && *stage.to < *stage.from;
    if (cools && stage.dropped) made.from_c = stage.dropped; // on the heat it is warmed up again
    if (stage.known && made.from_c && made.to_c) {
        made.rate = cooling_rate(*made.from_c, *made.to_c, room, made.ends_min - made.begins_min);
    }
    return made;
}

/// From the lowest low to the highest high of the waxes; nothing where one of them lacks it.
std::optional<HeatMark> melting(const Model& model, const Reckoning& reckoning) {
    std::optional<HeatMark> mark;
    for (const MatterInput& wax : reckoning.in.waxes()) {
        const auto* melts = model.get<Range>(wax.block, Key::melts);
        if (melts == nullptr) return std::nullopt;
        if (!mark) mark = HeatMark{"melting range", melts->low.value, melts->high};
        mark->low_c = std::min(mark->low_c, melts->low.value);
        mark->high_c = std::max(mark->high_c, melts->high);
    }
    return mark;
}

std::vector<HeatMark> marks_of(const Model& model, const Reckoning& reckoning) {
    std::vector<HeatMark> marks;
    if (reckoning.ceiling) marks.push_back({"ceiling", *reckoning.ceiling, *reckoning.ceiling});
    if (reckoning.scent_flash) {
        marks.push_back({"scent can light from", *reckoning.scent_flash, *reckoning.scent_flash});
    }
    if (const auto mark = melting(model, reckoning)) marks.push_back(*mark);
    if (reckoning.largest_wax == no_block) return marks;
    const auto* scent = model.get<Range>(reckoning.largest_wax, Key::scent_at);
    const auto* pour = model.get<Range>(reckoning.largest_wax, Key::pour_at);
    if (scent != nullptr) marks.push_back({"scent goes in at", scent->low.value, scent->high});
    if (pour != nullptr) marks.push_back({"pour at", pour->low.value, pour->high});
    return marks;
}

} // namespace

HeatPicture picture_of(const Model& model, const Reckoning& reckoning,
                       std::optional<double> drawn_at) {
    HeatPicture picture;
    picture.room_c = reckoning.in.room_temperature();
    picture.marks = marks_of(model, reckoning);
    if (reckoning.pots.empty()) return picture;
    const HeatProfile profile = heat_profile_of(reckoning, reckoning.pots.front(), drawn_at, true);
    for (const Stage& stage : profile.stages)
        picture.stretches.push_back(stretch_of(stage, picture.room_c));
    picture.length_min = profile.length() / a_minute;
    return picture;
}

std::optional<double> celsius_at(const HeatStretch& stretch, double room_c, double minute) {
    if (!stretch.known || !stretch.from_c || !stretch.to_c) return std::nullopt;
    if (minute < stretch.begins_min || minute > stretch.ends_min) return std::nullopt;
    const double gone = minute - stretch.begins_min;
    if (stretch.rate) return cooled(*stretch.from_c, room_c, *stretch.rate, gone);
    const double length = stretch.ends_min - stretch.begins_min;
    if (!(length > 0)) return stretch.to_c;
    return *stretch.from_c + (*stretch.to_c - *stretch.from_c) * gone / length;
}

} // namespace waxwright
