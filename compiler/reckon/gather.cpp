// From the model to the inputs of a job.
#include "reckon/properties.hpp"

#include <algorithm>

namespace waxwright {

namespace {

VesselStuff stuff_of(const Model& model, BlockId vessel) {
    if (model.unreadable(vessel, Key::of)) return VesselStuff::untold;
    const Choice of = model.choice(vessel, Key::of);
    if (of == Choice::unsaid) return VesselStuff::unsaid;
    if (of == Choice::glass) return VesselStuff::glass;
    return of == Choice::tin ? VesselStuff::tin : VesselStuff::other;
}

Heated heated(const Model& model, BlockId pot) {
    if (model.unreadable(pot, Key::heated)) return Heated::untold;
    switch (model.choice(pot, Key::heated)) {
    case Choice::water_bath:
        return Heated::water_bath;
    case Choice::melter:
        return Heated::melter;
    case Choice::hotplate:
        return Heated::hotplate;
    case Choice::flame:
        return Heated::flame;
    case Choice::microwave:
        return Heated::microwave;
    default:
        return Heated::unsaid;
    }
}

HeatInput gather_heat(const Model& model, const Job& job) {
    const Span name_at = model.blocks[job.recipe].name_at;
    // A melter melts the wax for the pots of a batch: it is what stands in the heat.
    if (job.drawn) {
        const auto named = model.count_list(job.batch, Key::melter);
        if (named.empty())
            return {Heated::untold, no_block, model.entry(job.batch, Key::melter)->at};
        const Heated how = heated(model, named[0].block);
        return {how == Heated::unsaid ? Heated::melter : how, named[0].block, named[0].at};
    }
    if (!job.pot_known) return {Heated::untold, no_block, name_at};
    if (job.pot == no_block) return {Heated::unsaid, no_block, name_at};
    return {heated(model, job.pot), job.pot, job.pot_at};
}

VesselInput gather_vessel(const Model& model, BlockId vessel) {
    const Properties of(model, vessel);
    return {.block = vessel,
            .of = stuff_of(model, vessel),
            .fill = of.figure(Key::fill),
            .brimful = of.figure(Key::brimful),
            .headspace = of.figure(Key::headspace),
            .bore = of.figure(Key::bore),
            .mouth = of.figure(Key::mouth),
            .shock = of.figure(Key::shock),
            .inside = of.get<Inside>(Key::inside)};
}

/// The batch's where it says it, else the recipe's. Where either can't be read neither counts.
Given<Figure> of_batch_or_recipe(const Model& model, const Job& job, Key key, BlockId& block) {
    for (const BlockId each : {job.batch, job.recipe}) {
        if (each == no_block) continue;
        Given<Figure> given = Properties(model, each).figure(key);
        if (given.unsaid()) continue;
        block = each;
        return given;
    }
    return {};
}

KeepInput gather_keep(const Model& model, BlockId recipe) {
    const Properties of(model, recipe);
    KeepInput keep{.share = of.get<Load>(Key::keep), .mass = of.figure(Key::keep)};
    const auto named = model.count_list(recipe, Key::keep_in);
    if (named.empty()) return keep;
    keep.pot = gather_pot(model, named[0].block);
    keep.pots = std::max<std::int64_t>(named[0].count, 1);
    keep.pot_at = named[0].at;
    return keep;
}

void gather_steps(const Model& model, Inputs& in) {
    const auto steps = model.steps_of(in.job.recipe);
    in.steps.assign(steps.begin(), steps.end());
    in.steps_broken = model.blocks[in.job.recipe].steps_broken;
}

void gather_wicks(const Model& model, Inputs& in) {
    for (const Count& wick : model.count_list(in.job.recipe, Key::wick)) {
        const Properties of(model, wick.block);
        in.wicks.push_back(
            {wick.block, wick.count, wick.at, of.get<Range>(Key::suits), of.figure(Key::burns)});
    }
    const auto extras = model.count_list(in.job.recipe, Key::extras);
    in.extras.assign(extras.begin(), extras.end());
}

} // namespace

const MatterInput* matter_of(const Inputs& in, BlockId block) {
    for (const MatterInput& matter : in.matter) {
        if (matter.block == block) return &matter;
    }
    return nullptr;
}

Heated warms_kept(const Inputs& in) {
    return in.keep.pot.block == no_block ? in.heat.how : in.keep.pot.heated;
}

PotInput gather_pot(const Model& model, BlockId pot) {
    const Properties of(model, pot);
    return {.block = pot,
            .heated = heated(model, pot),
            .brimful = of.figure(Key::brimful),
            .headroom = of.figure(Key::headroom),
            .clings = of.figure(Key::clings),
            .weighs = of.figure(Key::weighs),
            .power = of.figure(Key::power),
            .cools = of.get<Cools>(Key::cools),
            .bath = of.get<Bath>(Key::bath)};
}

BlockId melter_block(const Model& model, BlockId batch) {
    if (batch == no_block) return no_block;
    const auto named = model.count_list(batch, Key::melter);
    return named.empty() ? no_block : named[0].block;
}

Inputs gather(const Model& model, const Job& job) {
    Inputs in{.job = job};
    in.ounces = model.ounces;
    const Properties recipe(model, job.recipe);
    in.vessel = gather_vessel(model, job.vessel);
    in.pot = gather_pot(model, job.pot);
    in.keep = gather_keep(model, job.recipe);
    in.heat = gather_heat(model, job);
    in.scale = {job.scale, Properties(model, job.scale).figure(Key::reads),
                Properties(model, job.scale).figure(Key::most)};
    gather_matter(model, in);
    in.load = recipe.get<Load>(Key::load);
    mix(in);
    in.headspace = recipe.figure(Key::headspace);
    in.stop_at = recipe.figure(Key::stop_at);
    in.spare = of_batch_or_recipe(model, job, Key::spare, in.spare_of);
    in.thermometer_error = of_batch_or_recipe(model, job, Key::thermometer_error, in.error_of);
    if (job.batch != no_block) in.room = Properties(model, job.batch).figure(Key::room);
    gather_steps(model, in);
    gather_wicks(model, in);
    return in;
}

} // namespace waxwright
