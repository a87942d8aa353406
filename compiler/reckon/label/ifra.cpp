#include "reckon/label/ifra.hpp"

#include <map>
#include <set>

#include "reckon/compare.hpp"
#include "reckon/loads.hpp"

namespace waxwright {

namespace {

std::vector<std::string> in_several(std::span<const OilInBlend> oils) {
    std::map<std::string, std::set<std::string>> holders;
    for (const OilInBlend& oil : oils)
        for (const std::string& substance : oil.restricted)
            holders[substance].insert(oil.name);
    std::vector<std::string> result;
    for (const auto& [substance, of] : holders)
        if (of.size() > 1) result.push_back(substance);
    return result;
}

} // namespace

BlendLimit blend_limit(std::span<const OilInBlend> oils) {
    BlendLimit result;
    for (const OilInBlend& oil : oils) {
        if (!oil.limit) {
            result.not_known.push_back(oil.name);
            continue;
        }
        const double load = load_at_limit(*oil.limit, oil.share);
        if (at_least(load, 1) || (result.load && !under(load, *result.load))) continue;
        result.load = load;
        result.by = oil.name;
    }
    result.unchecked = in_several(oils);
    return result;
}

} // namespace waxwright
