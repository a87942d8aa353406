// How far a vessel is filled may be said in two ways; what is still wanting of either.
#pragma once

#include <functional>
#include <vector>

#include "model/schema.hpp"

namespace waxwright {

struct VesselNeeds {
    std::vector<Key> one_of{};  // how much it holds: one of these, the plainest first
    bool headspace = false;     // how far below its brim the wax ends
    bool bore = false;          // how wide it is inside, for the room that the headspace takes
    std::vector<Key> no_more{}; // what would say the same in another way
};
/// `has` tells whether the vessel says a key, itself or by `like`.
VesselNeeds vessel_needs(const std::function<bool(Key)>& has);

} // namespace waxwright
