// The batch sheet for other programs: TOML 1.0. Names and types of the keys are a contract.
#pragma once

#include <string>

#include "plan/plan.hpp"

namespace waxwright {

std::string toml_sheet(const Plan& plan);

} // namespace waxwright
