#include "editor/features.hpp"

namespace waxwright {

Reply definition(const Asked&, const Json&) {
    return Json();
}

Reply references(const Asked&, const Json&) {
    return Json();
}

Reply document_highlight(const Asked&, const Json&) {
    return Json();
}

Reply prepare_rename(const Asked&, const Json&) {
    return Json();
}

Reply rename(const Asked&, const Json&) {
    return Json();
}

} // namespace waxwright
