// The ends of a figure that is not exact.
#pragma once

namespace waxwright {

struct FigureRange {
    double low;
    double high;
};

} // namespace waxwright
