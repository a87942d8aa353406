#include "reckon/label/net_quantity.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "reckon/compare.hpp"
#include "reckon/weigh.hpp"

namespace waxwright {

namespace {

constexpr double ounces_in_pound = 16;
constexpr double grams_in_kilogram = 1000;

/// Decimals that leave so many digits of a value over 0: 226.8 to three is 0, 1134 to three is -1.
int decimals_for(double value, int digits) {
    return digits - 1 - static_cast<int>(std::floor(std::log10(value)));
}

/// The shortest text, without a final zero right of the point (16 CFR 500.19(b)).
std::string plain(double value) {
    return fmt::format("{}", value);
}

double to_digits(double value, int digits) {
    return cut_down(value, decimals_for(value, digits));
}

} // namespace

double cut_down(double value, int decimals) {
    const double step = std::pow(10.0, std::abs(decimals));
    const double steps = decimals >= 0 ? value * step : value / step;
    const double nearest = std::round(steps);
    const double whole = nearly_equal(steps, nearest) ? nearest : std::floor(steps);
    return decimals >= 0 ? whole / step : whole * step;
}

double label_grams(double ounces) {
    const double grams = ounces * label_g_per_oz;
    return to_digits(grams, at_least(grams, 100) ? 3 : 2);
}

double label_ounces(double grams, int decimals) {
    return cut_down(grams * label_oz_per_g, decimals);
}

std::string metric_words(double grams) {
    if (!at_least(grams, grams_in_kilogram)) return plain(grams) + " g";
    return plain(grams / grams_in_kilogram) + " kg";
}

std::string inch_pound_words(double ounces) {
    if (!at_least(ounces, ounces_in_pound)) return plain(ounces) + " oz";
    const double pounds = cut_down(ounces / ounces_in_pound, 0);
    // Back to a hundredth: what a subtraction leaves behind is not printed.
    const double rest = std::round((ounces - pounds * ounces_in_pound) * 100) / 100;
    return rest > 0 ? fmt::format("{} lb {} oz", plain(pounds), plain(rest))
                    : plain(pounds) + " lb";
}

std::optional<DualQuantity> declared_in_both(double ounces, double grams) {
    if (!positive(ounces) || !positive(grams)) return std::nullopt;
    const double of_ounces = ounces * label_g_per_oz;
    DualQuantity result{ounces, grams, over(of_ounces, grams), under(of_ounces, grams), grams, {}};
    if (!result.grams_enforced) result.must_hold = std::max(grams, ounces * an_ounce);
    result.words = fmt::format("Net Wt {} ({})", inch_pound_words(ounces), metric_words(grams));
    return result;
}

std::optional<DualQuantity> declared_in_ounces(double ounces) {
    if (!positive(ounces)) return std::nullopt;
    return declared_in_both(ounces, label_grams(ounces));
}

std::optional<DualQuantity> declared_in_grams(double grams, int decimals) {
    if (!positive(grams)) return std::nullopt;
    return declared_in_both(label_ounces(grams, decimals), grams);
}

namespace {

/// A height by the largest that it is for; 0 for all that is larger.
struct Height {
    double up_to, height;

    friend double height_for(std::span<const Height> rows, double size) {
        while (rows.front().up_to > 0 && over(size, rows.front().up_to))
            rows = rows.subspan(1);
        return rows.front().height;
    }
};
constexpr Height us_heights[] = {
#define US_HEIGHT(up_to, inches) {up_to, inches},
#include "reckon/label/figure_heights.def"
};
constexpr Height eu_heights[] = {
#define EU_HEIGHT(up_to, mm) {up_to, mm},
#include "reckon/label/figure_heights.def"
};

struct ErrorBand {
    double from, to, percent, grams;
};
constexpr ErrorBand bands[] = {
#define ERROR(from, to, percent, grams) {from, to, percent, grams},
#include "reckon/label/errors_eu.def"
#undef ERROR
};

} // namespace

double us_type_height(double panel_square_inches) {
    return height_for(us_heights, panel_square_inches);
}

std::optional<NominalQuantity> nominal_quantity(double grams) {
    for (const ErrorBand& band : bands) {
        if (under(grams, band.from) || over(grams, band.to)) continue;
        const double error = band.percent > 0 ? grams * band.percent / 100 : band.grams;
        return NominalQuantity{
            grams, error, grams - error, grams - 2 * error, grams, height_for(eu_heights, grams)};
    }
    return std::nullopt;
}

bool may_bear_e_mark(const NominalQuantity& quantity, double found) {
    return at_least(found, quantity.least_of_any);
}

} // namespace waxwright
