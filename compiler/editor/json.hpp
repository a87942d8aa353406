// JSON as the editor's messages have it.
#pragma once

#include <nlohmann/json.hpp>

namespace waxwright {

using Json = nlohmann::json;

} // namespace waxwright
