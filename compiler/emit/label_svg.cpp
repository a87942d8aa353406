#include "emit/label_svg.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "emit/label_writer.hpp"
#include "emit/svg_text.hpp"

namespace waxwright {

namespace {

// All in mm.
constexpr double widest = 180;      // what fits on paper of either kind
constexpr double between = 4;       // labels of one file
constexpr double step = 2;          // by which a label grows
constexpr double least_column = 46; // of two beside each other
constexpr double seam = 4;          // what a band leaves free where its ends meet

/// The lowest that is so wide, in one column or in two.
WrittenLabel lowest(const Label& label, double width) {
    WrittenLabel best = write_label(label, width, 0);
    for (const double share : {0.4, 0.5, 0.6}) {
        if ((width - 2 * label_edge) * std::min(share, 1 - share) < least_column) continue;
        WrittenLabel other = write_label(label, width, share);
        const bool lower = other.drawn.height < best.drawn.height - 1e-9;
        if (other.fits && (lower || !best.fits)) best = std::move(other);
    }
    return best;
}

/// The narrowest that has room on the vessel, within the least part of what is round it.
std::optional<LabelDrawing> on_vessel(const Label& label) {
    const LabelSizePlan& sizes = label.sizes;
    const double band = std::min(widest, sizes.around_mm - seam);
    const std::pair<double, LabelPlace> parts[] = {{sizes.around_mm / 3, LabelPlace::front},
                                                   {sizes.around_mm / 2, LabelPlace::half},
                                                   {band, LabelPlace::around}};
    double width = sizes.width_mm;
    for (const auto& [most, place] : parts) {
        if (place == LabelPlace::around && !sizes.tall_is_said) break;
        for (; width <= most; width += step) {
            WrittenLabel tried = lowest(label, width);
            if (!tried.fits || tried.drawn.height > sizes.tall_mm) continue;
            tried.drawn.place = place;
            return std::move(tried.drawn);
        }
    }
    return std::nullopt;
}

} // namespace

LabelDrawing draw_label(const Label& label) {
    const LabelSizePlan& sizes = label.sizes;
    if (sizes.around_mm > 0 && sizes.tall_mm > 0)
        if (auto drawn = on_vessel(label)) return std::move(*drawn);
    const double by_width = sizes.height_mm / sizes.width_mm;
    const double most =
        sizes.around_mm > 0 ? std::clamp(sizes.around_mm / 2, sizes.width_mm, widest) : widest;
    for (double width = sizes.width_mm;; width += step) {
        WrittenLabel tried = lowest(label, width);
        const bool has_room = tried.fits && tried.drawn.height <= width * by_width + 1e-9;
        if (has_room || width + step > (tried.fits ? most : widest)) return std::move(tried.drawn);
    }
}

std::string svg_labels(std::span<const Label> labels) {
    std::string groups, titles;
    double width = 0, height = 0;
    for (const Label& label : labels) {
        const LabelDrawing drawn = draw_label(label);
        if (!titles.empty()) {
            height += between;
            titles += ", ";
            groups +=
                fmt::format("<g transform=\"translate(0 {:.2f})\">\n{}</g>\n", height, drawn.group);
        } else {
            groups = drawn.group;
        }
        titles += fmt::format("{} for {}", label.title, name(label.market));
        width = std::max(width, drawn.width);
        height += drawn.height;
    }
    return fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0:.2f}mm\" "
        "height=\"{1:.2f}mm\" viewBox=\"0 0 {0:.2f} {1:.2f}\" role=\"img\" "
        "aria-label=\"Label: {3}\" {2}>\n"
        "<rect width=\"{0:.2f}\" height=\"{1:.2f}\" fill=\"#fff\"/>\n{4}</svg>\n",
        width, height, label_letters, xml_text(titles), groups);
}

} // namespace waxwright
