#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "plan/parts.hpp"
#include "plan/wording.hpp"
#include "reckon/number.hpp"
#include "reckon/pots.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// "soy", "soy and coconut", "soy, coconut and palm".
std::string listed(const Model& model, const std::vector<BlockId>& blocks) {
    std::string text;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        if (i > 0) text += i + 1 == blocks.size() ? " and " : ", ";
        text += model.name(blocks[i]);
    }
    return text;
}

/// What the pots ask of the blended scent, as they are weighed out.
double scent_of_pots(const Reckoning& reckoning) {
    double sum = 0;
    for (const PotKind& kind : reckoning.pots) {
        for (const Weighing& weighing : kind.lines) {
            if (weighing.kind == MatterKind::oil) {
                sum += static_cast<double>(kind.pots) * weighing.weighed;
            }
        }
    }
    return sum;
}

/// What has no figure to be checked by. Nothing is concluded from that; the sheet says so.
void remark_on_unchecked(const Model& model, const Reckoning& reckoning,
                         std::vector<std::string>& remarks) {
    const std::span<const Count> wicks = model.count_list(reckoning.in.job.recipe, Key::wick);
    if (!wicks.empty() && model.entry(wicks.front().block, Key::suits) == nullptr) {
        remarks.push_back(fmt::format(
            "Whether {} suits this vessel is not checked: look in its supplier's chart.",
            model.name(wicks.front().block)));
    }
    if (reckoning.in.job.vessel != no_block &&
        model.entry(reckoning.in.job.vessel, Key::shock) == nullptr) {
        remarks.push_back(fmt::format(
            "Whether {} can take wax as hot as it is poured is not checked: ask its supplier.",
            model.name(reckoning.in.job.vessel)));
    }
}

} // namespace

std::vector<std::string> remarks_of(const Model& model, const Reckoning& reckoning,
                                    const ScalePlan& scale) {
    std::vector<std::string> remarks;
    if (!reckoning.no_liquid_density.empty()) {
        remarks.push_back(fmt::format(
            "How heavy melted {} is isn't known: pour to the line, not to a weight. The "
            "weights are of cold wax, so there is rather too much than too little.",
            listed(model, reckoning.no_liquid_density)));
    }
    if (!reckoning.one_liquid_density.empty()) {
        remarks.push_back(
            fmt::format("The liquid density of {} is known at one temperature only; for others it "
                        "is taken to fall by 0.08 % per °C, a rule of thumb.",
                        listed(model, reckoning.one_liquid_density)));
    }
    if (!reckoning.no_additive_density.empty()) {
        remarks.push_back(
            fmt::format("{} has no density of its own and is taken to be as dense as the wax.",
                        listed(model, reckoning.no_additive_density)));
    }
    for (const MatterInput& oil : reckoning.in.oils()) {
        if (!oil.density_assumed) continue;
        remarks.push_back(fmt::format(
            "{} gives no density: 0.95 g/ml is taken, give or take 0.1, as for most scent oils.",
            model.name(oil.block)));
    }
    if (!reckoning.in.leftovers.empty()) {
        remarks.emplace_back("The leftovers are taken to be what the file says, with all of their "
                             "scent still in them: some of it is lost whenever they are melted.");
    }
    if (reckoning.scent_flash && reckoning.in.oils().size() > 1) {
        remarks.emplace_back("The scent's flash point is that of its lowest oil, a rough guide: a "
                             "blend can light lower still.");
    }
    if (reckoning.bounds.unknown) {
        remarks.emplace_back("With its doubtful figures at their worst, this recipe can't be "
                             "worked out, so not all ranges are known: measure what is doubtful.");
    }
    if (scale.division_g <= 0 && scale.unit == no_unit &&
        in_fahrenheit(model, reckoning.in.job.recipe)) {
        remarks.emplace_back("Weights are in grams, as no scale is named: with a scale that reads "
                             "in ounces, or with `--units us`, they are in ounces.");
    }
    remark_on_unchecked(model, reckoning, remarks);
    return remarks;
}

std::string premix_note(const Model& model, const Reckoning& reckoning, const ScalePlan& scale) {
    if (reckoning.premix.empty() || reckoning.pots.empty()) return {};
    double blended = 0;
    for (const Weighing& weighing : reckoning.premix)
        blended += weighing.weighed;
    const double asked = scent_of_pots(reckoning);
    if (std::abs(blended - asked) <= 1e-9 * blended) return {};
    // The finest division of the two shows both as they were weighed.
    double division = reckoning.premix_division;
    for (const PotKind& kind : reckoning.pots)
        division = std::min(division, kind.division);
    // Of a last, small pot that is a share one can smell: it gets a blend of its own.
    constexpr double noticed = 0.02; // of its scent (common practice)
    const double last = reckoning.pots.back().lines.back().weighed;
    if (asked - blended > noticed * last) {
        const double more = asked - blended;
        std::string oils;
        for (const Part& oil : reckoning.parts) {
            if (oil.kind != MatterKind::oil) continue;
            oils += fmt::format("{}{} {}", oils.empty() ? "" : ", ",
                                show_weight(more * oil.share, 0.1, scale.unit),
                                model.name(oil.material));
        }
        return fmt::format("The scent blend weighs {} and the pots take {}: the last "
                           "pot would be short. Blend {} more for it ({}).",
                           show_weight(blended, division, scale.unit),
                           show_weight(asked, division, scale.unit),
                           show_weight(more, division, scale.unit), oils);
    }
    // Too little is shared out to the end; too much must not all go into the last pot.
    return fmt::format("The scent blend weighs {} and the pots take {}. That is rounding: {}.",
                       show_weight(blended, division, scale.unit),
                       show_weight(asked, division, scale.unit),
                       blended < asked ? "the last pot takes what is left"
                                       : "keep what is left over, it is not for the last pot");
}

std::string small_pot_of(const Model& model, const Reckoning& reckoning) {
    constexpr std::int64_t many = 6; // fillings that nobody minds (common practice)
    constexpr std::int64_t few = 3;
    constexpr double ml_per_fluid_ounce = 29.5735295625;
    constexpr double step_ml = 500;
    if (reckoning.in.job.pot == no_block || reckoning.pots.empty()) return {};
    std::int64_t fillings = 0;
    for (const PotKind& kind : reckoning.pots)
        fillings += kind.pots;
    const PotKind& fuller = reckoning.pots.front();
    if (fillings <= many || !(fuller.volume_ml > 0)) return {};
    const std::int64_t vessels = (reckoning.in.job.count + few - 1) / few;
    const double headroom = figure(reckoning.in.pot.headroom).value_or(usual_headroom);
    const double hot = fuller.volume_ml / static_cast<double>(fuller.vessels) *
                       static_cast<double>(vessels) / (1 - headroom);
    const double brimful = std::ceil(hot / step_ml) * step_ml;
    return fmt::format(
        "{} is small for this: {} fillings. One of {} l ({} fl oz) would do it in {}.",
        model.name(reckoning.in.job.pot), fillings, show_number(brimful / 1000, 1),
        show_number(brimful / ml_per_fluid_ounce, 0), few);
}

} // namespace waxwright
