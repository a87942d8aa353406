#include "editor/features.hpp"

namespace waxwright {

Reply completion(const Asked&, const Json&) {
    return Json();
}

} // namespace waxwright
