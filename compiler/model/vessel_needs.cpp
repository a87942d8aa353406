#include "model/vessel_needs.hpp"

namespace waxwright {

VesselNeeds vessel_needs(const std::function<bool(Key)>& has) {
    if (has(Key::fill)) return {.no_more = {Key::headspace}};
    const bool wide = has(Key::inside) || has(Key::bore);
    if (has(Key::brimful) || has(Key::inside)) {
        return {.headspace = !has(Key::headspace), .bore = !wide, .no_more = {Key::fill}};
    }
    if (has(Key::headspace)) return {.one_of = {Key::brimful, Key::inside}, .no_more = {Key::fill}};
    return {.one_of = {Key::fill, Key::brimful, Key::inside}};
}

} // namespace waxwright
