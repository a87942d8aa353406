#include "check/report.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "reckon/weigh.hpp"
#include "units/show.hpp"

namespace waxwright {

Finding& report(Findings& findings, const Job& job, Rule rule, Span at, std::string message,
                std::string hint) {
    Finding& finding = findings.report(rule, at, std::move(message), std::move(hint));
    finding.subjects.push_back({job.recipe, job.batch});
    return finding;
}

void report_note(Findings& findings, const Job& job, Rule rule, Span at, std::string message) {
    Finding& finding = findings.report_milder(Severity::note, rule, at, std::move(message));
    finding.subjects.push_back({job.recipe, job.batch});
}

void report_warning(Findings& findings, const Job& job, Rule rule, Span at, std::string message,
                    std::string hint) {
    Finding& finding =
        findings.report_milder(Severity::warning, rule, at, std::move(message), std::move(hint));
    finding.subjects.push_back({job.recipe, job.batch});
}

void relate(const Model& model, Finding& finding, Span at, std::string text) {
    if (model.sources[at.file].is_library()) return;
    finding.related.push_back({at, std::move(text)});
}

std::string quoted(std::string_view name) {
    return fmt::format("`{}`", name);
}

std::string vessels(const Job& job) {
    return job.count == 1 ? "1 vessel" : fmt::format("{} vessels", job.count);
}

namespace {

/// Hundredths of a percent, cut; a hair under a whole one is that one.
double hundredths_down(double fraction) {
    return std::floor(fraction * 1e4 + 1e-6) / 1e4;
}

/// `cut` makes the number of divisions whole.
template <typename Cut>
std::string mass_in_divisions(const Model& model, const Job& job, double grams, Cut cut) {
    const auto* reads = model.get<Figure>(job.scale, Key::reads);
    double division = usual_division(grams, model.ounces);
    if (reads != nullptr && reads->value() > 0) division = reads->value();
    UnitId unit = reads != nullptr ? reads->quantity.unit : no_unit;
    if (reads == nullptr && model.ounces) unit = find_unit("oz");
    return show_in(cut(grams / division) * division, unit, dimension::mass);
}

/// A volume with three figures or as a whole number; `cut` makes it one.
template <typename Cut>
std::string volume_cut(double ml, const Figure* like, Cut cut) {
    const UnitId id = like != nullptr ? plain(like->quantity.unit) : no_unit;
    const bool known = id != no_unit && unit(id).dimension == dimension::volume;
    const double number = known ? from_inside(ml, id) : ml;
    const double scale = number >= 100 ? 1 : number >= 10 ? 10 : 100;
    return fmt::format("{} {}", show_number(cut(number * scale) / scale, 2),
                       known ? plural(id) : "ml");
}

/// A temperature in whole degrees of the unit of `like`, back in °C.
template <typename Cut>
double whole_degrees(double celsius, const Figure& like, Cut cut) {
    const UnitId id = like.quantity.unit;
    return id == no_unit ? cut(celsius) : to_inside(cut(from_inside(celsius, id)), id);
}

} // namespace

std::string mass(const Model& model, const Job& job, double grams) {
    return mass_in_divisions(model, job, grams, [](double n) { return std::round(n); });
}

std::string mass_down(const Model& model, const Job& job, double grams) {
    return mass_in_divisions(model, job, grams, [](double n) { return std::floor(n + 1e-6); });
}

std::string volume_like(double ml, const Figure* like) {
    return volume_cut(ml, like, [](double n) { return std::round(n); });
}

std::string volume_below(double ml, const Figure* like) {
    return volume_cut(ml, like, [](double n) { return std::floor(n + 1e-6); });
}

std::string volume_above(double ml, const Figure* like) {
    return volume_cut(ml, like, [](double n) { return std::ceil(n - 1e-6); });
}

std::string length_above(double mm, const Quantity& like) {
    const UnitId id = plain(like.unit);
    const bool inches = id != no_unit && unit(id).symbol == "in";
    const double step_mm = inches ? 25.4 / 20 : 1; // as a ruler is read
    return show_in(std::ceil(mm / step_mm - 1e-6) * step_mm, like.unit, dimension::length);
}

std::string percent_down(double fraction) {
    return show_percent(hundredths_down(fraction));
}

std::string percent_code(double fraction) {
    return show_number(fraction * 100, 2) + "%";
}

std::string_view basis_words(Basis basis) {
    return basis == Basis::total ? "of the total" : "of the wax";
}

std::string_view basis_code(Basis basis) {
    return basis == Basis::total ? "of total" : "of wax";
}

std::string own_figure(const Model& model, BlockId material, Key key, std::string_view value) {
    const std::string_view name = model.name(material);
    if (!model.in_library(material)) {
        return fmt::format("if the data sheet of its supplier says otherwise, change the `{}` of "
                           "`{}`",
                           word(key), name);
    }
    return fmt::format("if the data sheet of your supplier says otherwise, write your own and use "
                       "that:\n`{} my-{} like {} {{ {}: {}, source: \"…\" }}`",
                       word(model.blocks[material].kind), name, name, word(key), value);
}

std::string degrees_like(double celsius, const Figure& like) {
    return show_in(celsius, like.quantity.unit, dimension::point);
}

std::string degrees_below(double celsius, const Figure& like) {
    const auto down = [](double degrees) { return std::floor(degrees + 1e-9); };
    return degrees_like(whole_degrees(celsius, like, down), like);
}

std::string degrees_above(double celsius, const Figure& like) {
    const auto up = [](double degrees) { return std::ceil(degrees - 1e-9); };
    return degrees_like(whole_degrees(celsius, like, up), like);
}

void offer_cooler(const Model& model, Finding& finding, const Figure& figure, double celsius) {
    const std::string_view written = model.sources.slice(figure.at);
    const std::size_t end = written.find_first_not_of("0123456789.");
    const bool plain =
        end != 0 && end != std::string_view::npos && figure.quantity.unit != no_unit &&
        find_unit(written.substr(written.find_first_not_of(" \t", end))) == figure.quantity.unit;
    if (!plain || celsius >= figure.value()) return;
    const double degrees = std::ceil(from_inside(celsius, figure.quantity.unit) - 1e-9) - 1;
    const Span number{figure.at.file, figure.at.begin,
                      figure.at.begin + static_cast<std::uint32_t>(end)};
    Fix fix = put(number, fmt::format("{:.0f}", degrees), false);
    fix.title = fmt::format("write `{:.0f}{}`", degrees, written.substr(end));
    finding.fixes.push_back(std::move(fix));
}

std::string interval_like(double kelvin, const Figure& like) {
    // The factor tells °F from °C whichever way it was spelled.
    const UnitId id = like.quantity.unit;
    const bool fahrenheit = id != no_unit && unit(id).factor < 1;
    return show_in(kelvin, find_unit(fahrenheit ? "F°" : "C°"), dimension::interval);
}

bool stands_in(const Model& model, BlockId block, Span at) {
    const Span whole = model.blocks[block].whole_at;
    return at.file == whole.file && at.begin > whole.begin && at.end < whole.end;
}

std::optional<Fix> step_behind(const Model& model, const Finding& finding, const Job& job,
                               const Step& step, std::string_view words) {
    const Span whole = model.blocks[job.recipe].whole_at;
    if (!stands_in(model, job.recipe, step.at) || !stands_in(model, job.recipe, finding.at)) {
        return std::nullopt;
    }
    const std::string_view text = model.sources[whole.file].text();
    const std::size_t line = text.rfind('\n', step.at.begin) + 1;
    const std::size_t first = text.find_first_not_of(" \t", line);
    std::size_t end = std::min(text.find('\n', step.at.end), text.size());
    if (text[end - 1] == '\r') --end;
    const std::string_view behind = text.substr(step.at.end, end - step.at.end);
    const std::size_t next = std::min(behind.find_first_not_of(" \t"), behind.size());
    if (behind.substr(next, 1) == "}") {
        end = step.at.end;
    } else if (next < behind.size() && behind[next] != '#') {
        return std::nullopt; // a reason, or another step
    }
    const auto at = static_cast<std::uint32_t>(end);
    return Fix{
        fmt::format("add `{}` behind `{}`", words, model.sources.slice(step.at)),
        {{{whole.file, at, at}, fmt::format("\n{}{}", text.substr(line, first - line), words)}},
        false};
}

} // namespace waxwright
