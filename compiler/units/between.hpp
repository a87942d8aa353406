// The ends of a figure that is not exact.
#pragma once

namespace waxwright {

struct Between {
    double low;
    double high;
};

} // namespace waxwright
