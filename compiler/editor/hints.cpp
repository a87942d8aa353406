#include "editor/features.hpp"

namespace waxwright {

Reply inlay_hint(const Asked&, const Json&) {
    return Json();
}

} // namespace waxwright
