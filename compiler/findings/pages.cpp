#include "findings/pages.hpp"

#include <algorithm>

namespace waxwright {

std::string_view page_of(Rule rule) {
    const auto pages = rule_pages();
    const auto found = std::find_if(pages.begin(), pages.end(), [&](const RulePage& page) {
        return page.name == info(rule).name;
    });
    return found == pages.end() ? std::string_view() : found->text;
}

} // namespace waxwright
