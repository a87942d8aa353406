#include "plan/wording.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string_view>

#include <fmt/format.h>

#include "reckon/weigh.hpp"
#include "units/figures.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr double ml_per_fluid_ounce = 29.5735295625;
constexpr double mm_per_inch = 25.4;

/// Decimals that show a number as it is: 0.05 has two. A third of something gets four.
int decimals_of(double number) {
    constexpr int most = 4;
    double scaled = number;
    for (int decimals = 0; decimals < most; ++decimals, scaled *= 10) {
        if (std::abs(scaled - std::round(scaled)) < 1e-6 * scaled) return decimals;
    }
    return most;
}

} // namespace

double pour_division(const ScalePlan& scale, double grams) {
    if (scale.division_g > 0) return scale.division_g;
    return usual_division(grams, scale.unit != no_unit);
}

double down_to_divisions(double grams, double division_g) {
    constexpr double same = 1e-9; // what is lost when decimals become doubles
    return std::floor(grams / division_g * (1 + same)) * division_g;
}

std::string show_weight(double grams, double division_g, UnitId id) {
    const UnitId printed = plain(id);
    const bool in_grams = printed == no_unit;
    const double number = in_grams ? grams : from_inside(grams, printed);
    const double division = in_grams ? division_g : from_inside(division_g, printed);
    const std::string_view symbol = in_grams ? std::string_view("g") : unit(printed).symbol;
    return figures(number, decimals_of(division), Zeros::kept).append(" ").append(symbol);
}

std::string show_pour(double grams, const ScalePlan& scale) {
    const double division = pour_division(scale, grams);
    return show_weight(down_to_divisions(grams, division), division, scale.unit);
}

std::string show_pour_ends(double grams, const std::optional<FigureRange>& ends,
                           const ScalePlan& scale) {
    if (!ends) return {};
    const std::string figure = show_pour(grams, scale);
    // All three by one division, or the ends could look finer than the figure.
    const double division = pour_division(scale, grams);
    const auto shown = [&](double value) {
        return show_weight(down_to_divisions(value, division), division, scale.unit);
    };
    std::string low = shown(ends->low);
    std::string high = shown(ends->high);
    if (low == figure && high == figure) return {};
    low.resize(low.rfind(' ')); // the unit stands behind the figure
    high.resize(high.rfind(' '));
    return fmt::format(", {} to {}", low, high);
}

std::string show_percent_ends(double fraction, const std::optional<FigureRange>& ends) {
    if (!ends) return {};
    const std::string low = show_number(ends->low * 100, 2);
    const std::string high = show_number(ends->high * 100, 2);
    const std::string figure = show_number(fraction * 100, 2);
    return low == figure && high == figure ? std::string() : fmt::format(" ({} to {})", low, high);
}

namespace {

/// Of one vessel, each as the scale shows it, so that what is printed adds up.
struct KeptBack {
    double division;
    double kept;
    double poured;

    explicit KeptBack(const RecipePlan& recipe)
        : division(pour_division(recipe.scale, recipe.first_pour_g)),
          kept(down_to_divisions(recipe.kept_g, division)) {
        const double finished =
            down_to_divisions(recipe.mass_g, pour_division(recipe.scale, recipe.mass_g));
        poured = std::max(finished - down_to_divisions(recipe.first_pour_g, division), 0.0);
    }
    double left_over() const { return std::max(kept - poured, 0.0); }
};

} // namespace

std::string show_kept_back(const RecipePlan& recipe) {
    const KeptBack back(recipe);
    return show_weight(back.poured, back.division, recipe.scale.unit);
}

std::string show_kept_for_each(const RecipePlan& recipe) {
    return (recipe.keep_said ? show_kept(recipe) : "up to " + show_kept_back(recipe)) + " a vessel";
}

std::string show_kept(const RecipePlan& recipe) {
    const KeptBack back(recipe);
    return show_weight(back.kept, back.division, recipe.scale.unit);
}

std::string show_left_over(const RecipePlan& recipe) {
    const KeptBack back(recipe);
    return show_weight(back.left_over(), back.division, recipe.scale.unit);
}

bool has_left_over(const RecipePlan& recipe) {
    const KeptBack back(recipe);
    return back.left_over() > back.division / 2;
}

std::string show_duration(double seconds) {
    const double minutes = seconds / 60;
    const double hours = minutes / 60;
    const double days = hours / 24;
    const auto is_whole = [](double number) {
        return std::abs(number - std::round(number)) < 1e-9;
    };
    if (days >= 2 && is_whole(days)) return show_number(days, 0) + " days";
    if (hours >= 1 && is_whole(hours)) return show_number(hours, 0) + " h";
    if (hours >= 1 && is_whole(minutes)) {
        return fmt::format("{} h {} min", show_number(std::floor(hours), 0),
                           show_number(minutes - std::floor(hours) * 60, 0));
    }
    if (minutes >= 1 && is_whole(minutes)) return show_number(minutes, 0) + " min";
    if (minutes < 10) return show_number(seconds, 0) + " s";
    return show_number(minutes, 1) + " min";
}

std::string show_volume(double ml, bool us_units) {
    if (us_units) return show_number(ml / ml_per_fluid_ounce, 1) + " fl oz";
    return show_number(ml, ml < 100 ? 1 : 0) + " ml";
}

namespace {

/// A length as an inch rule has it, 1/4 or 2 3/8, where it is a whole number of sixteenths; else
/// with two decimals.
std::string show_inches(double mm) {
    const double sixteenths = mm / mm_per_inch * 16;
    const double whole = std::round(sixteenths);
    if (std::abs(sixteenths - whole) > 1e-6 || whole > 16000 || whole < 1) {
        return show_number(mm / mm_per_inch, 2);
    }
    const auto count = static_cast<int>(whole);
    const int part = std::gcd(count % 16, 16);
    std::string inches = count >= 16 ? std::to_string(count / 16) : std::string();
    if (count % 16 == 0) return inches;
    return fmt::format("{}{}{}/{}", inches, inches.empty() ? "" : " ", count % 16 / part,
                       16 / part);
}

} // namespace

std::string show_length(double mm, bool us_units) {
    return us_units ? show_inches(mm) + " in" : show_number(mm, 1) + " mm";
}

} // namespace waxwright
