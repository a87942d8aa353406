// What the pots of a day are called, so that a row says which one it is.
#pragma once

#include <span>
#include <string>

#include "reckon/timeline.hpp"

namespace waxwright {

class PotNames {
public:
    PotNames(const Model& model, std::span<const Reckoning> lines, const Timeline& time)
        : model_(model), lines_(lines), time_(time) {}

    /// The pot a filling is melted in: "pour-can 2" where there are several.
    std::string own(const Filling& filling) const;
    /// What it is in so long after it began, s: what is kept back may wait in another pot.
    std::string at(const Filling& filling, double seconds) const;
    /// The pots that are washed before it.
    std::string washed(const Filling& filling) const;

private:
    std::string keep(const Filling& filling) const;

    const Model& model_;
    std::span<const Reckoning> lines_;
    const Timeline& time_;
};

} // namespace waxwright
