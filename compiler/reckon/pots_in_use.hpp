// The pots of each name as the day goes by: when each is free, and what was last in it. s.
#pragma once

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "model/model.hpp"

namespace waxwright {

/// One of the pots of a name, and what was last in it.
struct PotInUse {
    double free = 0;
    double heated_till = 0;          // when its last wax was melted: from then on its bath cools
    std::optional<std::size_t> last; // the line
    bool scented = false;

    /// Wax without a scent in it is wiped out, and that is enough.
    bool had_other_scent(std::size_t line) const { return scented && last && *last != line; }
};
using PotsInUse = std::map<BlockId, std::vector<PotInUse>>;

inline PotInUse* first_free(std::vector<PotInUse>& units) {
    return &*std::min_element(units.begin(), units.end(),
                              [](const PotInUse& a, const PotInUse& b) { return a.free < b.free; });
}

/// From 1; 0 of none.
inline std::int64_t number_of(PotsInUse& units, BlockId pot, const PotInUse* unit) {
    return unit == nullptr ? 0 : unit - units[pot].data() + 1;
}

} // namespace waxwright
