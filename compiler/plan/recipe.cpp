#include <algorithm>
#include <cmath>

#include "plan/parts.hpp"
#include "reckon/melter.hpp"
#include "reckon/volumes.hpp"
#include "units/date.hpp"
#include "units/quantity.hpp"

namespace waxwright {

namespace {

PlanKind plan_kind(MatterKind kind) {
    switch (kind) {
    case MatterKind::wax:
        return PlanKind::wax;
    case MatterKind::additive:
        return PlanKind::additive;
    case MatterKind::oil:
        return PlanKind::oil;
    }
    return PlanKind::wax;
}

std::string name_of(const Model& model, BlockId block) {
    return block == no_block ? std::string() : std::string(model.name(block));
}

ScalePlan scale_part(const Model& model, BlockId scale) {
    const auto* reads = model.get<Figure>(scale, Key::reads);
    if (reads == nullptr) return {};
    return {name_of(model, scale), plain(reads->quantity.unit), reads->value()};
}

std::optional<TemperatureRange> wanted(const Model& model, BlockId wax, Key key) {
    const auto* range = model.get<Range>(wax, key);
    if (range == nullptr) return std::nullopt;
    return TemperatureRange{range->low.value, range->high};
}

/// The shares of waxes and oils are of their kind already; an additive's is of the wax.
std::vector<ExactLine> exact_lines(const Model& model, const Reckoning& reckoning) {
    std::vector<ExactLine> lines;
    for (const Part& part : reckoning.parts) {
        const bool additive = part.kind == MatterKind::additive;
        const double share =
            additive && reckoning.additive_g > 0 ? part.grams / reckoning.additive_g : part.share;
        lines.push_back({plan_kind(part.kind), name_of(model, part.material), part.grams, share});
    }
    return lines;
}

/// In a pot an oil stands for the whole scent, and a wax drawn from a melter for the whole blend;
/// what is the only one of its kind keeps its name.
std::vector<ScaleLine> pot_lines(const Model& model, const std::vector<Weighing>& weighings) {
    std::vector<ScaleLine> lines;
    for (const Weighing& weighing : weighings) {
        const bool scent = weighing.kind == MatterKind::oil;
        const PlanKind kind = scent ? PlanKind::scent : plan_kind(weighing.kind);
        const bool blended = weighing.material == no_block;
        lines.push_back({kind,
                         blended ? std::string(word(kind)) : name_of(model, weighing.material),
                         weighing.weighed});
    }
    return lines;
}

void fill_in_limits(const Model& model, const Reckoning& reckoning, RecipePlan& plan) {
    plan.load_of_wax = reckoning.load_of_wax.value_or(0);
    plan.load_of_total = reckoning.load_of_total.value_or(0);
    plan.limit_of_wax = reckoning.limit_of_wax;
    plan.ceiling_c = reckoning.ceiling;
    plan.flash_c = reckoning.scent_flash;
    plan.scent_c = reckoning.scent_at;
    plan.pour_c = reckoning.pour_at;
    plan.scent_at = wanted(model, reckoning.largest_wax, Key::scent_at);
    plan.pour_at = wanted(model, reckoning.largest_wax, Key::pour_at);
}

void fill_in_weights(const Model& model, const Reckoning& reckoning, RecipePlan& plan) {
    plan.fill_ml = reckoning.fill_ml.value_or(0);
    plan.mass_g = reckoning.mass_g.value_or(0);
    plan.first_pour_g = reckoning.first_pour_g.value_or(0);
    plan.second_pour_g = reckoning.second_pour_g;
    plan.to_the_line = !reckoning.no_liquid_density.empty();
    plan.drop_mm = reckoning.drop_mm;
    plan.wax_g = reckoning.wax_g;
    plan.scent_g = reckoning.scent_g;
    plan.additive_g = reckoning.additive_g;
    plan.exact = exact_lines(model, reckoning);
    for (const Weighing& weighing : reckoning.premix) {
        plan.premix.push_back({PlanKind::oil, name_of(model, weighing.material), weighing.weighed});
    }
    plan.premix_division_g = reckoning.premix_division;
}

} // namespace

RecipePlan recipe_part(const Model& model, const Reckoning& reckoning) {
    const Job& job = reckoning.job;
    RecipePlan plan;
    plan.name = model.name(job.recipe);
    plan.title = model.text(job.recipe, Key::title);
    if (plan.title.empty()) plan.title = plan.name;
    plan.count = job.count;
    plan.vessel = name_of(model, job.vessel);
    plan.scale = scale_part(model, job.scale);
    plan.pots_at_once = job.pots_at_once;
    plan.spare = job.spare;
    plan.notes = model.text(job.recipe, Key::notes);
    for (const Count& wick : model.count_list(job.recipe, Key::wick)) {
        plan.wick = Item{wick.count, name_of(model, wick.block)};
    }
    for (const Count& extra : model.count_list(job.recipe, Key::extras)) {
        plan.extras.push_back({extra.count * job.count, name_of(model, extra.block)});
    }
    fill_in_limits(model, reckoning, plan);
    fill_in_weights(model, reckoning, plan);
    plan.burn_h = burn_hours(model, reckoning);
    plan.drawn_from = name_of(model, melter_block(model, job.batch));
    plan.heated = model.choice(reckoning.job.pot, Key::heated);
    plan.remarks = remarks_of(model, reckoning, plan.scale);
    return plan;
}

void add_pots(const Model& model, const Reckoning& reckoning, std::size_t recipe, Plan& plan) {
    for (const PotKind& kind : reckoning.pots) {
        PotPlan pot;
        pot.recipe = recipe;
        pot.name = name_of(model, reckoning.job.pot);
        pot.pots = kind.pots;
        pot.vessels = kind.vessels;
        pot.mass_g = kind.grams;
        pot.weighed_g = kind.weighed;
        pot.volume_ml = kind.volume_ml;
        pot.division_g = kind.division;
        pot.lines = pot_lines(model, kind.lines);
        plan.pots.push_back(std::move(pot));
    }
}

namespace {

/// g/s of one wick: as the latest test burn of the recipe weighed it, else as the wick's supplier
/// says. A burn without a date counts as the earliest; of two of one day the later written counts.
std::optional<double> burning_rate(const Model& model, BlockId recipe, const Count& wick) {
    std::optional<double> rate = model.figure(wick.block, Key::burns);
    std::string latest;
    for (const BlockId burn : model.test_burns) {
        const auto* of = model.get<Ref>(burn, Key::of);
        const std::optional<double> measured = model.figure(burn, Key::burns);
        if (of == nullptr || of->block != recipe || !measured) continue;
        const auto* on = model.get<DateAt>(burn, Key::on);
        const std::string day = on != nullptr ? show(on->date) : std::string();
        if (day < latest) continue;
        latest = day;
        rate = *measured / static_cast<double>(wick.count); // the whole candle was weighed
    }
    return rate;
}

/// Volume of the lowest `depth` mm of the vessel: of its inside where that is measured, else of a
/// cylinder of the bore.
std::optional<double> lowest_ml(const Model& model, const Reckoning& reckoning, double depth) {
    if (const auto* inside = model.get<Inside>(reckoning.job.vessel, Key::inside)) {
        const double high = std::min(depth, inside->depth);
        const double there =
            diameter_at(inside->mouth, inside->base, inside->depth, inside->depth - high);
        return taper_ml(there, inside->base, high);
    }
    if (!reckoning.bore_mm) return std::nullopt;
    return cylinder_ml(*reckoning.bore_mm, depth);
}

} // namespace

std::optional<double> burn_hours(const Model& model, const Reckoning& reckoning) {
    const std::span<const Count> wicks = model.count_list(reckoning.job.recipe, Key::wick);
    if (wicks.empty() || wicks.front().count < 1) return std::nullopt;
    const std::optional<double> rate =
        burning_rate(model, reckoning.job.recipe, wicks.front()); // g/s
    constexpr double usual_stop_mm = 12;
    const double stop = model.figure(reckoning.job.recipe, Key::stop_at).value_or(usual_stop_mm);
    const std::optional<double> slice_ml = lowest_ml(model, reckoning, stop);
    if (!rate || !slice_ml || !reckoning.solid_density || !reckoning.mass_g) return std::nullopt;
    const double left = *slice_ml * *reckoning.solid_density;
    const double an_hour = *rate * 3600 * static_cast<double>(wicks.front().count);
    const double hours = (*reckoning.mass_g - left) / an_hour;
    if (hours <= 0) return 0;
    return std::floor(hours / 5 * (1 + 1e-9)) * 5; // 45 h worked out as 44.999… are 45 h
}

} // namespace waxwright
