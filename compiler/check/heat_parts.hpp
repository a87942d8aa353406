// What the files of the family `heat` share. heat.cpp has the wax's limits and the pot,
// heat_scent.cpp the flash point of the scent, heat_order.cpp the order of the steps and
// heat_work.cpp the temperatures to work at.
#pragma once

#include <cstdint>
#include <string>

#include "findings/finding.hpp"
#include "reckon/limits.hpp"

namespace waxwright {

/// The flash point of a wax or oil as rules count it, in the degrees of `like`.
std::string flash_words(const Inputs& in, BlockId material, const Figure& like);
/// "`soy`", "`soy` of this blend".
std::string in_blend(const Model& model, const Inputs& in, BlockId wax);

void check_flash_known(const Model& model, const Reckoning& reckoning, Findings& findings);
void check_second_pour(const Model& model, const Reckoning& reckoning, Findings& findings);
void check_order(const Model& model, const Reckoning& reckoning, Findings& findings);
void check_work(const Model& model, const Reckoning& reckoning, Findings& findings);

} // namespace waxwright
