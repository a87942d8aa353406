#include <fmt/format.h>

#include "plan/parts.hpp"
#include "reckon/burning.hpp"
#include "reckon/melter.hpp"
#include "units/quantity.hpp"
#include "units/show.hpp"

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
    case MatterKind::leftover:
        return PlanKind::leftover;
    }
    return PlanKind::wax;
}

std::string name_of(const Model& model, BlockId block) {
    return block == no_block ? std::string() : std::string(model.name(block));
}

ScalePlan scale_part(const Model& model, BlockId scale) {
    const auto* reads = model.get<Figure>(scale, Key::reads);
    if (reads == nullptr) return {{}, model.ounces ? find_unit("oz") : no_unit, 0};
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
        lines.push_back({plan_kind(part.kind), name_of(model, part.material), part.grams, share,
                         additive ? part.share : 0});
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
    plan.leftover = reckoning.leftover;
    plan.brings_scent = brings_scent(reckoning.in);
    plan.limit_of_wax = reckoning.limit_of_wax;
    plan.ceiling_c = reckoning.ceiling;
    plan.flash_c = reckoning.scent_flash;
    plan.scent_c = reckoning.scent_at;
    plan.pour_c = reckoning.pour_at;
    plan.scent_at = wanted(model, reckoning.largest_wax, Key::scent_at);
    plan.pour_at = wanted(model, reckoning.largest_wax, Key::pour_at);
    plan.main_wax = name_of(model, reckoning.largest_wax);
}

void fill_in_weights(const Model& model, const Reckoning& reckoning, RecipePlan& plan) {
    plan.fill_ml = reckoning.fill_ml.value_or(0);
    plan.mass_g = reckoning.mass_g.value_or(0);
    plan.first_pour_g = reckoning.first_pour_g.value_or(0);
    plan.second_pour_g = reckoning.second_pour_g;
    plan.kept_g = reckoning.kept_g;
    plan.keep_said = !reckoning.in.keep.unsaid();
    const KeepInput& keep = reckoning.in.keep;
    if (keep.pots > 0 && reckoning.kept_g > 0) {
        plan.keep_in = Item{keep.pots, name_of(model, keep.pot.block)};
    }
    plan.to_the_line = !reckoning.no_liquid_density.empty();
    plan.drop_mm = reckoning.drop_mm;
    plan.wax_g = reckoning.wax_g;
    plan.scent_g = reckoning.scent_g;
    plan.additive_g = reckoning.additive_g;
    plan.leftover_g = reckoning.leftover_g;
    plan.exact = exact_lines(model, reckoning);
    for (const Weighing& weighing : reckoning.premix) {
        plan.premix.push_back({PlanKind::oil, name_of(model, weighing.material), weighing.weighed});
    }
    plan.premix_division_g = reckoning.premix_division;
}

DoubtPlan doubt_part(const Bounds& bounds) {
    DoubtPlan plan;
    plan.mass_g = bounds.mass_g;
    plan.first_pour_g = bounds.first_pour_g;
    plan.load_of_wax = bounds.load_of_wax;
    plan.load_of_total = bounds.load_of_total;
    plan.wax_g = bounds.wax_g;
    plan.scent_g = bounds.scent_g;
    plan.additive_g = bounds.additive_g;
    plan.leftover_g = bounds.leftover_g;
    plan.fillings = bounds.fillings;
    plan.most_vessels = bounds.most_vessels;
    plan.widest = bounds.widest;
    plan.unknown = bounds.unknown;
    return plan;
}

/// "soy cures for 7 to 14 days"; empty where it doesn't say.
std::string cure_wanted(const Model& model, BlockId wax) {
    const auto* wanted = wax == no_block ? nullptr : model.get<Range>(wax, Key::cures);
    if (wanted == nullptr) return {};
    return fmt::format(
        "{} cures for {}", model.name(wax),
        range_words(wanted->low.value, wanted->high, wanted->low.unit, dimension::time));
}

} // namespace

RecipePlan recipe_part(const Model& model, const Reckoning& reckoning) {
    const Job& job = reckoning.in.job;
    RecipePlan plan;
    plan.name = model.name(job.recipe);
    plan.title = model.text(job.recipe, Key::title);
    if (plan.title.empty()) plan.title = plan.name;
    plan.count = job.count;
    plan.vessel = name_of(model, job.vessel);
    plan.scale = scale_part(model, job.scale);
    plan.pots_at_once = job.pots_at_once;
    plan.spare = reckoning.in.spare_share();
    plan.notes = model.text(job.recipe, Key::notes);
    for (const Count& wick : model.count_list(job.recipe, Key::wick)) {
        plan.wick = Item{wick.count, name_of(model, wick.block)};
    }
    for (const Count& extra : model.count_list(job.recipe, Key::extras)) {
        plan.extras.push_back({extra.count * job.count, name_of(model, extra.block)});
    }
    fill_in_limits(model, reckoning, plan);
    fill_in_weights(model, reckoning, plan);
    plan.cure_wanted = cure_wanted(model, reckoning.largest_wax);
    if (job.drawn) plan.drawn_from = name_of(model, melter_block(model, job.batch));
    if (const auto burns = burn_hours(model, reckoning)) {
        plan.burn_h = burns->hours;
        plan.burn_measured = burns->measured;
    }
    plan.test = test_part(model, reckoning);
    if (!job.drawn) plan.heated = model.choice(job.pot, Key::heated);
    plan.doubt = doubt_part(reckoning.bounds);
    plan.premix_note = premix_note(model, reckoning, plan.scale);
    plan.remarks = remarks_of(model, reckoning, plan.scale);
    plan.small_pot = small_pot_of(model, reckoning);
    return plan;
}

void add_pots(const Model& model, const Reckoning& reckoning, std::size_t recipe, Plan& plan) {
    for (const PotKind& kind : reckoning.pots) {
        PotPlan pot;
        pot.recipe = recipe;
        pot.name = name_of(model, reckoning.in.job.pot);
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

} // namespace waxwright
