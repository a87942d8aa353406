#include "editor/features.hpp"

namespace waxwright {

Reply semantic_tokens(const Asked&, const Json&) {
    return Json();
}

Reply semantic_tokens_range(const Asked&, const Json&) {
    return Json();
}

Json semantic_token_types() {
    return Json::array();
}

Json semantic_token_modifiers() {
    return Json::array();
}

} // namespace waxwright
