#include "plan/pot_names.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace waxwright {

namespace {

std::string numbered(std::string_view name, std::int64_t number, std::int64_t of) {
    return of == 1 ? std::string(name) : fmt::format("{} {}", name, number);
}

} // namespace

std::string PotNames::own(const Filling& filling) const {
    const BlockId pot = lines_[filling.line].in.job.pot;
    if (pot == no_block) return "the pot";
    std::int64_t units = 1;
    for (const Filling& other : time_.fillings) {
        if (lines_[other.line].in.job.pot == pot) units = std::max(units, other.unit);
    }
    return numbered(model_.name(pot), filling.unit, units);
}

std::string PotNames::keep(const Filling& filling) const {
    const BlockId pot = lines_[filling.line].in.keep.pot.block;
    std::int64_t units = 1;
    for (const Filling& other : time_.fillings) {
        if (lines_[other.line].in.keep.pot.block == pot) units = std::max(units, other.keeps);
    }
    return numbered(model_.name(pot), filling.keeps, units);
}

std::string PotNames::at(const Filling& filling, double seconds) const {
    const auto& moved = time_.profiles[filling.profile].moved;
    return moved && seconds >= *moved ? keep(filling) : own(filling);
}

std::string PotNames::washed(const Filling& filling) const {
    if (!filling.washes_keep) return own(filling);
    if (!filling.washes_own) return keep(filling);
    return own(filling) + " and " + keep(filling);
}

} // namespace waxwright
