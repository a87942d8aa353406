#include "check/bench.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "check/limit_reports.hpp"
#include "check/report.hpp"
#include "reckon/compare.hpp"
#include "reckon/melter.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Under so many divisions of the scale a weight is too rough: at 20 it is right to 2.5 % (common
/// practice).
constexpr double least_divisions = 20;

/// In a batch a finding of the bench is told at its line, where the numbers are from.
Span place(const Job& job, Span otherwise) {
    return job.batch == no_block ? otherwise : job.count_at;
}

/// The scale's division and the weights in its unit.
class Scale {
public:
    Scale(const Model& model, const Job& job) {
        const auto* reads = model.get<Figure>(job.scale, Key::reads);
        if (reads != nullptr) unit_ = reads->quantity.unit;
    }

    std::string show(double grams) const { return show_in(grams, unit_, dimension::mass); }
    /// 1, 2 or 5 of a power of ten, no more than `grams`: what scales read.
    std::string show_division(double grams) const {
        const double value = unit_ == no_unit ? grams : from_inside(grams, unit_);
        const double power = std::pow(10, std::floor(std::log10(value)));
        const double digit = value / power;
        const double division = power * (digit >= 5 ? 5 : digit >= 2 ? 2 : 1);
        return show(unit_ == no_unit ? division : to_inside(division, unit_));
    }

private:
    UnitId unit_ = no_unit;
};

/// A line as it stands in the pot, or the premix, that has least of it.
struct LightLine {
    std::string name;
    Span at;
    double exact;
    double weighed;
};

/// A line without a material of its own is all of its kind.
std::string line_name(const Model& model, const Weighing& line) {
    if (line.material != no_block) return quoted(model.name(line.material));
    return line.kind == MatterKind::wax ? "the wax" : "the scent";
}

Span place_of(const Reckoning& reckoning, const Model& model, const Weighing& line) {
    for (const Part& part : reckoning.parts) {
        if (part.material == line.material && part.kind == line.kind) return part.at;
    }
    const Entry* scent = model.entry(reckoning.in.job.recipe, Key::scent);
    return scent != nullptr ? scent->at : reckoning.in.job.scale_at;
}

std::vector<LightLine> light_lines(const Model& model, const Reckoning& reckoning) {
    std::vector<LightLine> light;
    const auto look_at = [&](const std::vector<Weighing>& lines) {
        for (const Weighing& line : lines) {
            if (!under(line.weighed, least_divisions * reckoning.division_g)) continue;
            std::string name = line_name(model, line);
            const auto same = std::find_if(light.begin(), light.end(),
                                           [&](const LightLine& old) { return old.name == name; });
            if (same == light.end()) {
                light.push_back(
                    {std::move(name), place_of(reckoning, model, line), line.exact, line.weighed});
            } else if (line.weighed < same->weighed) {
                same->exact = line.exact;
                same->weighed = line.weighed;
            }
        }
    };
    for (const PotKind& pot : reckoning.pots)
        look_at(pot.lines);
    look_at(reckoning.premix);
    return light;
}

std::string light_hint(const Scale& scale, const std::vector<LightLine>& light) {
    const auto least =
        std::min_element(light.begin(), light.end(),
                         [](const LightLine& a, const LightLine& b) { return a.exact < b.exact; });
    if (!(least->exact > 0)) return "make more at a time";
    return fmt::format("make more at a time, or weigh it on a scale that reads {} or finer",
                       scale.show_division(least->exact / least_divisions));
}

/// At each material of a recipe by itself; at its line of a batch once for all of them.
void check_light(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const std::vector<LightLine> light = light_lines(model, reckoning);
    if (light.empty()) return;
    const Job& job = reckoning.in.job;
    const Scale scale(model, job);
    const std::string behind =
        fmt::format("under {} divisions of `{}`, which reads {}", least_divisions,
                    model.name(job.scale), scale.show(reckoning.division_g));
    if (job.batch == no_block) {
        for (const LightLine& line : light) {
            report(findings, job, Rule::too_light_to_weigh, line.at,
                   fmt::format("{} is weighed out as {}, {}", line.name, scale.show(line.weighed),
                               behind),
                   light_hint(scale, {line}));
        }
        return;
    }
    std::string names;
    for (const LightLine& line : light) {
        names += fmt::format("{}{} ({})", names.empty() ? "" : ", ", line.name,
                             scale.show(line.weighed));
    }
    report(findings, job, Rule::too_light_to_weigh, job.count_at,
           fmt::format("{}: {}", names, behind), light_hint(scale, light));
}

/// The heaviest single weighing.
const Weighing* heaviest(const Reckoning& reckoning) {
    const Weighing* found = nullptr;
    const auto look_at = [&](const std::vector<Weighing>& lines) {
        for (const Weighing& line : lines) {
            if (found == nullptr || line.weighed > found->weighed) found = &line;
        }
    };
    for (const PotKind& pot : reckoning.pots)
        look_at(pot.lines);
    look_at(reckoning.premix);
    return found;
}

/// A pot is weighed with what is in it; of one that doesn't say what it weighs, the content alone
/// has to be more than the scale carries.
void check_heavy(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    const auto most = model.figure(job.scale, Key::most);
    const Weighing* line = heaviest(reckoning);
    if (!most || line == nullptr) return;
    const Scale scale(model, job);
    const double content = reckoning.pots.front().weighed;
    const double pot = model.figure(job.pot, Key::weighs).value_or(0);
    if (over(line->weighed, *most)) {
        const std::string name = line_name(model, *line);
        report(findings, job, Rule::over_scale, place(job, job.scale_at),
               fmt::format("{} of {} is more than `{}` carries ({})", scale.show(line->weighed),
                           name, model.name(job.scale), scale.show(*most)),
               "weigh it in parts and tick each, or take a scale that carries more");
    } else if (over(pot + content, *most)) {
        report(findings, job, Rule::over_scale, place(job, job.scale_at),
               fmt::format("`{}` with {} in it is {}, more than `{}` carries ({})",
                           model.name(job.pot), scale.show(content), scale.show(pot + content),
                           model.name(job.scale), scale.show(*most)),
               "weigh into a lighter jug, line by line, or put fewer vessels into a pot");
    }
}

} // namespace

namespace {

/// The pot that what is kept back of the fullest filling waits in.
void report_keep_pot_too_small(const Model& model, const Reckoning& r, const LimitCheck& check,
                               Findings& findings) {
    const Job& job = r.in.job;
    const PotInput& pot = r.in.keep.pot;
    const Figure& brimful = pot.brimful.value;
    const double share = check.limit / brimful.value();
    std::string hint =
        "a pot is filled to its `brimful` less its `headroom` (20 % unless it says otherwise)";
    if (share > 0) {
        hint += fmt::format(": take one of {} or more, or keep less back",
                            volume_above(check.value / share, &brimful));
    }
    Finding& finding =
        report(findings, job, check.rule, place(job, r.in.keep.pot_at),
               fmt::format("{} of melted wax is kept back for {} of one filling, and `{}` takes {}",
                           volume_like(check.value, &brimful),
                           r.spread.fuller_vessels == 1
                               ? std::string("the 1 vessel")
                               : fmt::format("the {} vessels", r.spread.fuller_vessels),
                           model.name(pot.block), volume_like(check.limit, &brimful)),
               std::move(hint));
    relate(model, finding, model.blocks[pot.block].name_at, "the pot it waits in");
}

} // namespace

void report_pot_too_small(const Model& model, const Reckoning& r, const LimitCheck& check,
                          Findings& findings) {
    if (check.item == kept_of_filling) return report_keep_pot_too_small(model, r, check, findings);
    const Job& job = r.in.job;
    const Figure& brimful = r.in.pot.brimful.value;
    const double grams = check.value * *r.room_density;
    std::string hint =
        "a pot is filled to its `brimful` less its `headroom` (20 % unless it says otherwise)";
    if (check.limit > 0) {
        const double usable_part = check.limit / brimful.value();
        hint += fmt::format(": take one of {} or more",
                            volume_above(check.value / usable_part, &brimful));
    }
    Finding& finding =
        report(findings, job, check.rule, place(job, job.pot_at),
               fmt::format("one vessel needs {} of melted wax, {} of it, and `{}` takes {}",
                           mass(model, job, grams), volume_like(check.value, &brimful),
                           model.name(job.pot), volume_like(check.limit, &brimful)),
               std::move(hint));
    relate(model, finding, model.blocks[job.pot].name_at, "the pot");
}

void check_bench(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    // Without a pot all is one nameless potful, and nothing is known of the bench.
    if (job.pot == no_block) return;
    // The recipe has been told, and the batch's sheet repeats it.
    const Count line{job.recipe, job.count, job.count_at};
    if (job.batch != no_block && as_by_itself(model, job.batch, line)) return;
    if (job.scale == no_block || !(reckoning.division_g > 0) || !reckoning.complete) return;
    check_light(model, reckoning, findings);
    check_heavy(model, reckoning, findings);
}

void check_melter(const Model& model, const PotInput& melter, std::span<const Reckoning> lines,
                  Findings& findings) {
    if (lines.empty()) return;
    std::vector<std::size_t> order(lines.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    for (const Melting& melting : melter_of(melter, lines, order).meltings) {
        const Reckoning& first = lines[melting.lines.front()];
        const Job& job = first.in.job;
        const auto most = figure(first.in.scale.most);
        if (!most || !first.complete) continue;
        const Scale scale(model, job);
        for (const MatterInput& wax : first.in.waxes()) {
            const double grams = melting.grams * wax.share;
            if (!over(grams, *most)) continue;
            report(findings, job, Rule::over_scale, first.in.heat.at,
                   fmt::format("{} of `{}` for `{}` is more than `{}` carries ({})",
                               mass(model, job, grams), model.name(wax.block),
                               model.name(melter.block), model.name(job.scale), scale.show(*most)),
                   "weigh it in parts and tick each, or take a scale that carries more");
        }
    }
}

} // namespace waxwright
