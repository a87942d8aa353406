#include "editor/features.hpp"

namespace waxwright {

Reply document_symbol(const Asked&, const Json&) {
    return Json();
}

Reply workspace_symbol(const View&, const Json&) {
    return Json();
}

Reply folding_range(const Asked&, const Json&) {
    return Json();
}

} // namespace waxwright
