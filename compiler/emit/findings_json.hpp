// Findings for other programs, a JSON object a line. Its keys are the contract of
// docs/findings-json.md.
#pragma once

#include <string>

#include "findings/finding.hpp"
#include "model/model.hpp"

namespace waxwright {

/// Every finding in its order, notes and allowed ones included; "" where there are none. Bytes that
/// are no UTF-8 come out as U+FFFD.
std::string findings_json(const Findings& findings, const Model& model);

} // namespace waxwright
