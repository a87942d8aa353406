// The parts a label is built of; label_build.cpp puts them together.
#pragma once

#include "plan/label.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// What it holds: needs Label::sizes, for the height of the figures.
void add_net(const Model& model, const Reckoning& reckoning, Label& label);
/// The hazard block, with the arithmetic behind it: needs Label::sizes, for a small jar.
void add_hazards(const Model& model, const Reckoning& reckoning, Label& label);
/// The cautions, and whether anybody has burned one.
void add_fire(const Model& model, const Reckoning& reckoning, Label& label);
/// Which rules were applied, and what no arithmetic can know.
void add_rules(Label& label);

} // namespace waxwright
