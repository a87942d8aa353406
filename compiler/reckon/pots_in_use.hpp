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
    std::optional<std::size_t> last; // the line
    bool scented = false;

    /// Wax without a scent in it is wiped out, and that is enough.
    bool had_other_scent(std::size_t line) const { return scented && last && *last != line; }
};
using PotsInUse = std::map<BlockId, std::vector<PotInUse>>;

/// The one that can be filled first from then on, washing counted.
inline PotInUse* first_free(std::vector<PotInUse>& pots, std::size_t line, double from,
                            double washing) {
    const auto ready = [&](const PotInUse& pot) {
        return std::max(pot.free, from) + (pot.had_other_scent(line) ? washing : 0);
    };
    return &*std::min_element(pots.begin(), pots.end(), [&](const PotInUse& a, const PotInUse& b) {
        return ready(a) < ready(b);
    });
}

/// The baths of a name of pots: one that is used again and again, and another for each that is on
/// the heat at the same time.
class Baths {
public:
    /// Whether one that is free by then came off the heat no longer ago than that.
    bool has_hot(double begins, double seconds) const {
        return std::any_of(off_.begin(), off_.end(), [&](double off) {
            return off <= begins + hair && begins - off <= seconds;
        });
    }
    /// Takes the one that came off last.
    void take(double begins, double off) {
        auto best = off_.end();
        for (auto each = off_.begin(); each != off_.end(); ++each) {
            if (*each <= begins + hair && (best == off_.end() || *each > *best)) best = each;
        }
        if (best == off_.end()) {
            off_.push_back(off);
        } else {
            *best = off;
        }
    }
    std::size_t size() const { return off_.size(); }

private:
    static constexpr double hair = 1e-6; // s: sums of seconds are not exact
    std::vector<double> off_;            // when each last came off
};

/// From 1; 0 of none.
inline std::int64_t number_of(PotsInUse& units, BlockId pot, const PotInUse* unit) {
    return unit == nullptr ? 0 : unit - units[pot].data() + 1;
}

} // namespace waxwright
