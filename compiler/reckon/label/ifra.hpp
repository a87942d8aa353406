// How much of a blend of oils the IFRA limits of category 12 (no contact with skin, candles among
// them: from memory of the IFRA Guidance) allow. A limit is a percent of the finished product (IFRA
// Standards library). Category numbers mean something else before the 49th Amendment.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace waxwright {

struct OilInBlend {
    std::string name;
    double share = 0;                    // of the blend, by mass, over 0
    std::optional<double> limit;         // fraction of the finished candle; 1 is no limit
    std::vector<std::string> restricted; // substances of it that IFRA restricts
};

struct BlendLimit {
    /// The highest load of total: min of limit/share over the oils. Nothing if none has a limit, or
    /// none is reached at 100 %.
    std::optional<double> load;
    std::string by;                     // the oil that sets it
    std::vector<std::string> not_known; // oils without a limit
    /// Restricted substances of more than one oil: their sums are not looked at by the oils' own
    /// limits, so that `load` may be too much for them.
    std::vector<std::string> unchecked;
};

BlendLimit blend_limit(std::span<const OilInBlend> oils);

} // namespace waxwright
