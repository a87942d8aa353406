// What stands on a label and where, for a width that is given.
#pragma once

#include "emit/label_svg.hpp"

namespace waxwright {

inline constexpr double label_edge = 2.2; // mm, free around all that is printed

struct WrittenLabel {
    LabelDrawing drawn;
    /// False where a figure of the net quantity is wider than the label, or, in the United States,
    /// not in its lower 30 % (from memory of 16 CFR 500.6).
    bool fits;
};

/// A label `width` mm wide, as high as its words need and its sizes ask. In two columns the left
/// one has a share of the width; `left_share` 0: there is one column.
WrittenLabel write_label(const Label& label, double width, double left_share);

} // namespace waxwright
