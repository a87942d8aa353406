#include "emit/label_fit.hpp"

#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace waxwright {

namespace {

/// "65 mm deep by `inside`"
std::string height_words(const LabelSizePlan& sizes) {
    return sizes.tall_is_said ? fmt::format("{:.0f} mm deep by `inside`", std::floor(sizes.tall_mm))
                              : fmt::format("{:.0f} mm high, as reckoned from what is in it",
                                            std::floor(sizes.tall_mm));
}

/// Where else its words may stand, as far as a source goes.
std::vector<std::string> elsewhere(Market market) {
    if (market == Market::us)
        return {
            "The cautions stand on what is sold, where a buyer sees them, and nothing covers "
            "them (ASTM F2058, by its abstract): a tie-on tag or the box it is sold in may bear "
            "them, a label under its base doesn't show them."};
    return {
        fmt::format("Where a package is so small or so shaped that no label has room on it, the "
                    "rest may stand on a fold-out label, a tie-on tag or an outer package, and "
                    "pictograms, name and maker with telephone number stay on the vessel (from "
                    "memory of {} Annex I 1.5.1; whether yours is so small, a person who is "
                    "trained in the rules judges).",
                    market == Market::gb ? "GB CLP" : "CLP"),
        "A fold-out is marked as one, and the cautions that are always there stand outside "
        "on it too (EN 15494:2019, by a test house's newsletter).",
        "A label under the base isn't read as the candle stands, which is how its words are to "
        "be read (from memory of Article 31)."};
}

} // namespace

std::string drawn_size(const LabelDrawing& drawn) {
    constexpr double hair = 1e-6;
    return fmt::format("{:.0f} × {:.0f} mm", std::ceil(drawn.width - hair),
                       std::ceil(drawn.height - hair));
}

std::vector<std::string> fit_words(const Label& label, const LabelDrawing& drawn) {
    const LabelSizePlan& sizes = label.sizes;
    if (sizes.around_mm <= 0 || sizes.tall_mm <= 0)
        return {"Whether the vessel has room for it isn't known: nobody says its `bore`, or what "
                "it holds."};
    const std::string vessel = fmt::format("the vessel is {:.0f} mm round and {}",
                                           std::floor(sizes.around_mm), height_words(sizes));
    const double share = std::ceil(100 * drawn.width / sizes.around_mm);
    switch (drawn.place) {
    case LabelPlace::front:
        return {fmt::format("It has room on the front: {}.", vessel)};
    case LabelPlace::half:
        return {fmt::format("It goes {:.0f} % of the way round: {}.", share, vessel)};
    case LabelPlace::around:
        return {fmt::format("It is a band that goes {:.0f} % of the way round, so that not all of "
                            "it is seen at once: {}.",
                            share, vessel)};
    case LabelPlace::apart:
        break;
    }
    std::vector<std::string> words = {
        sizes.tall_is_said
            ? fmt::format("It has no room on it: {}.", vessel)
            : fmt::format("Whether it has room isn't sure: {}. Measure it, and write "
                          "`inside`: then the label is drawn for it.",
                          vessel)};
    for (std::string& each : elsewhere(label.market))
        words.push_back(std::move(each));
    return words;
}

std::string which_markets_html() {
    std::string html;
    bool open = false;
    for (const char c : which_markets) {
        if (c != '`')
            html += c;
        else
            html += std::exchange(open, !open) ? "</code>" : "<code>";
    }
    return html;
}

} // namespace waxwright
