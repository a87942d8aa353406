// What the families share: telling a finding of a job, and the words its numbers are told in.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Reports a finding about the job's recipe, and about its batch where it is a line of one. The
/// reference is good till the findings are sorted.
Finding& report(Findings& findings, const Job& job, Rule rule, Span at, std::string message,
                std::string hint = {});
/// The same for a rule that is told as a note here, and as more elsewhere.
void report_note(Findings& findings, const Job& job, Rule rule, Span at, std::string message);
/// The same for a rule that is told as a warning here, and as a note or an error elsewhere.
void report_warning(Findings& findings, const Job& job, Rule rule, Span at, std::string message,
                    std::string hint);
/// Adds a second place, unless it is in the standard library, which nobody needs to look into.
void relate(const Model& model, Finding& finding, Span at, std::string text);

std::string quoted(std::string_view name); // in backticks
std::string vessels(const Job& job);       // "6 vessels"
/// A mass in whole divisions of the job's scale and in its unit; where there is none in g, to 0.1 g
/// under 20 g. mass_down is never more than `grams`: it is printed as a limit to keep to.
std::string mass(const Model& model, const Job& job, double grams);
std::string mass_down(const Model& model, const Job& job, double grams);
/// A volume in the unit that `like` was written in, if that was one of volume; else in ml. Cut down
/// or up where it is printed as something to keep to.
std::string volume_like(double ml, const Figure* like);
std::string volume_below(double ml, const Figure* like);
std::string volume_above(double ml, const Figure* like);
/// A length in the unit of `like`, up to the next millimetre, or 0.05 in: something to keep to.
std::string length_above(double mm, const Quantity& like);
/// "9.5 %", never more than `fraction` itself: it is printed as a limit to keep to.
std::string percent_down(double fraction);
/// A fraction as the language takes it: "12%".
std::string percent_code(double fraction);
std::string_view basis_words(Basis basis); // "of the wax", "of the total"
std::string_view basis_code(Basis basis);  // "of wax", "of total"

/// How to go against a figure of a material where its supplier says otherwise: the block to write
/// for one of the standard library, the figure to change for one's own.
std::string own_figure(const Model& model, BlockId material, Key key, std::string_view value);

/// A temperature in the unit that `like`, another one, was written in.
std::string degrees_like(double celsius, const Figure& like);
/// The same cut to whole degrees, down or up: it is printed as something to keep under or over.
std::string degrees_below(double celsius, const Figure& like);
std::string degrees_above(double celsius, const Figure& like);
/// Offers a cooler temperature in the place of `figure`: the most whole degrees of its own unit
/// that are under `celsius`. Never certain, and only where the figure is a number and a unit.
void offer_cooler(const Model& model, Finding& finding, const Figure& figure, double celsius);
/// A difference of temperatures in the degrees of `like`.
std::string interval_like(double kelvin, const Figure& like);

/// True where the block itself has it, and not another that it is like.
bool stands_in(const Model& model, BlockId block, Span at);
/// A fix, never certain, that writes one more step behind another, on a line of its own. None where
/// the finding or the steps are not in the recipe's own block: they are other recipes' too.
std::optional<Fix> step_behind(const Model& model, const Finding& finding, const Job& job,
                               const Step& step, std::string_view words);

} // namespace waxwright
