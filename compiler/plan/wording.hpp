// Figures as they are said at the bench: weights as the scale shows them, times.
#pragma once

#include <optional>
#include <string>

#include "plan/plan.hpp"

namespace waxwright {

/// What goes into one vessel is weighed to this: the scale's division, or without a scale 0.1 g
/// under 20 g and 1 g from there on.
double pour_division(const ScalePlan& scale, double grams);
/// What goes into a vessel is rounded down to whole divisions, in g: what all are given never comes
/// to more than is in the pot, and what is left of that is less than a division a vessel.
double down_to_divisions(double grams, double division_g);
/// In the unit (no_unit: g), with the decimals a division has in it: 18 g to 0.1 g is "18.0 g".
std::string show_weight(double grams, double division_g, UnitId unit);
/// What goes into one vessel, rounded down to its division.
std::string show_pour(double grams, const ScalePlan& scale);
/// ", 375 to 392", the ends of what goes into one vessel, in the unit of the figure they stand
/// behind; empty where they round to that.
std::string show_pour_ends(double grams, const std::optional<FigureRange>& ends,
                           const ScalePlan& scale);
/// " (6.5 to 7.5)" behind a percent.
std::string show_percent_ends(double fraction, const std::optional<FigureRange>& ends);
/// What is kept back for one vessel's second pour: the finished candle less the first pour, each as
/// it is shown, so that the three figures of a sheet add up.
std::string show_kept_back(const RecipePlan& recipe);
/// "up to 7 g a vessel", or "9 g a vessel" where the recipe says what is kept back.
std::string show_kept_for_each(const RecipePlan& recipe);
/// What `keep` holds back for a vessel, as the scale shows it; and what is left of that over.
std::string show_kept(const RecipePlan& recipe);
std::string show_left_over(const RecipePlan& recipe);
/// True if more is kept back than the second pour takes, by what the scale shows.
bool has_left_over(const RecipePlan& recipe);
/// "90 s", "2 min", "1 h 30 min", "24 h", "14 days".
std::string show_duration(double seconds);
/// "300 ml", under 100 ml with a decimal; in US units "10.1 fl oz".
std::string show_volume(double ml, bool us_units);
/// "6.4 mm"; in US units "1/4 in", as a rule has it, else with two decimals.
std::string show_length(double mm, bool us_units);

} // namespace waxwright
