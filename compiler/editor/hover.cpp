#include "editor/features.hpp"

namespace waxwright {

Reply hover(const Asked&, const Json&) {
    return Json();
}

} // namespace waxwright
