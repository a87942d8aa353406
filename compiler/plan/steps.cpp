#include <algorithm>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "plan/parts.hpp"
#include "plan/sentence.hpp"
#include "plan/wording.hpp"
#include "reckon/heat_profile.hpp"
#include "reckon/limits.hpp"
#include "units/show.hpp"

namespace waxwright {

bool can_light(const Reckoning& reckoning, const Step& step) {
    if (!reckoning.scent_flash || !step.temperature()) return true;
    const double error = reckoning.in.error_of_thermometer();
    const double margin = step.adds_scent ? std::max(flash_margin, error) : error;
    return step.temperature()->value() + margin >= *reckoning.scent_flash * (1 - 1e-9);
}

namespace {

/// What heats it goes out too: it stands under no pot then, and another pot's scent may be next.
std::string_view off_heat_words(const Reckoning& reckoning) {
    if (reckoning.in.job.drawn) return "Stand the jug on the bench, well away from the melter.";
    switch (reckoning.in.heat.how) {
    case Heated::flame:
        return "Flame out. Take the pot well away from the stove.";
    case Heated::hotplate:
        return "Plate off. Carry the pot well away: the plate stays hot.";
    case Heated::melter:
        return "Melter off.";
    case Heated::water_bath:
        return "Burner or plate off. Pot out of the bath, dried, well away.";
    default:
        return "Burner out, or plate off. Take the pot off the heat.";
    }
}

void say_add(Sentence& sentence, const Reckoning& reckoning, const Step& step,
             const StepPlan& plan) {
    if (step.adds_scent && can_light(reckoning, step)) {
        sentence.say(reckoning.in.job.drawn ? "Away from the melter, its lid on; no flame near. "
                                            : "All heat off; no flame and no hot plate near. ");
    }
    sentence.say("Add ").say(step.adds_scent ? "the scent" : std::string_view(plan.of));
    if (step.temperature()) sentence.say(" at ").say_temperature();
    sentence.say(".");
}

/// Whether what leftovers bring may light by the end of the step.
bool brought_can_light(const Reckoning& reckoning, const Step& step) {
    if (!reckoning.brought_flash || !step.temperature()) return true;
    const double error = reckoning.in.error_of_thermometer();
    return step.temperature()->value() + error >= *reckoning.brought_flash * (1 - 1e-9);
}

void say_melt(Sentence& sentence, const Reckoning& reckoning, const Step& step,
              const RecipePlan& recipe) {
    if (reckoning.in.job.beside_melter) sentence.say("In its own pot, not from the melter. ");
    if (!recipe.drawn_from.empty()) {
        sentence.say("Zero the scale with the jug on it, and draw the wax from ");
        sentence.say(recipe.drawn_from).say(" once it is at ");
    } else if (reckoning.in.pot.heated == Heated::water_bath) {
        const Bath* bath = reckoning.in.pot.bath.get();
        sentence.say(bath != nullptr && bath->hot ? "Hot water in the bath" : "Bath topped up");
        sentence.say(", no higher than the melted wax. Melt in it to ");
    } else {
        const bool bare =
            reckoning.in.pot.heated == Heated::hotplate || reckoning.in.pot.heated == Heated::flame;
        sentence.say(bare ? "On low heat, stirring all the while, melt to " : "Melt to ");
    }
    sentence.say_temperature().say(".");
    if (reckoning.in.leftovers.empty()) return;
    sentence.say(" The leftovers melt in with it");
    if (!brings_scent(reckoning.in)) {
        sentence.say(".");
        return;
    }
    sentence.say(": it smells from the start. ");
    sentence.say(brought_can_light(reckoning, step)
                     ? "Their scent can light at this heat: lid on, no other flame, stay by it."
                     : "Lid on, and air the room.");
}

/// Wax that has set could only be melted out.
std::string wipe_out(std::string_view pot) {
    return fmt::format(" Wipe {} out while it is warm.", pot);
}

/// What the first pour leaves in the pot.
void say_kept(Sentence& sentence, const RecipePlan& recipe) {
    if (!recipe.keep_in) {
        sentence.say(" Lid on what is kept back in the pot.");
        return;
    }
    sentence.say(" What is left goes into ").say(recipe.keep_in->name).say(", lid on.");
    sentence.say(wipe_out("the pot"));
}

void say_pour(Sentence& sentence, const Reckoning& reckoning, const RecipePlan& recipe) {
    sentence.say("Pour at ").say_temperature();
    if (recipe.to_the_line) {
        sentence.say(": to the line, not to a weight.");
    } else if (recipe.first_pour_g > 0) {
        sentence.say(": ").say(show_pour(recipe.first_pour_g, recipe.scale));
        sentence.say(" into each vessel.");
    } else {
        sentence.say(".");
    }
    if (recipe.kept_g > 0) {
        say_kept(sentence, recipe);
    } else {
        sentence.say(wipe_out(reckoning.in.job.drawn ? "the jug" : "the pot"));
    }
}

/// Behind a `leave` the wax that was kept back has set, and is warmed again.
void say_second_pour(Sentence& sentence, const Reckoning& reckoning, const Step& step,
                     const RecipePlan& recipe, bool left_before) {
    const bool scented = !reckoning.in.oils().empty();
    const std::string pot = recipe.keep_in ? recipe.keep_in->name : std::string("the pot");
    if (left_before && scented && can_light(reckoning, step)) {
        // Its scent is in it: it is warmed by hot water and by nothing that is lit.
        sentence.say("Nothing lit, well away from any hot plate: stand ").say(pot);
        sentence.say(
            ", lid on, in a bowl of hot water, no deeper than it stands firm in, and change "
            "the water till the wax kept back is at ");
        sentence.say_temperature().say("; dry the pot; ");
    } else if (left_before) {
        sentence.say("Warm the wax kept back");
        if (recipe.keep_in) sentence.say(" in ").say(pot);
        sentence.say(" to ").say_temperature().say("; ");
    } else {
        sentence.say("Second pour at ").say_temperature().say(": ");
    }
    const bool weighed = !recipe.to_the_line && recipe.second_pour_g > 0;
    if (weighed && recipe.keep_said && recipe.kept_g < reckoning.sunk_g * (1 - 1e-9)) {
        sentence.say("share out what was kept back, ").say(show_kept(recipe));
        sentence.say(" a vessel: it is too little to reach the line.");
    } else if (weighed) {
        sentence.say("fill each vessel to the line: up to ");
        sentence.say(show_kept_back(recipe)).say(" a vessel.");
        if (recipe.keep_said && has_left_over(recipe)) {
            sentence.say(" At least ").say(show_left_over(recipe)).say(" a vessel is left over.");
        }
    } else {
        sentence.say("fill to the line where the wax has sunk.");
    }
    sentence.say(wipe_out(pot));
}

void say_hold(Sentence& sentence, bool off_heat) {
    if (off_heat) {
        sentence.say("Lid on, off the heat: let it stand for ").say_duration();
        sentence.say(". It cools meanwhile.");
    } else {
        sentence.say("Turn the heat low and hold it there for ").say_duration().say(".");
    }
}

void say_wicks(Sentence& sentence, const RecipePlan& recipe) {
    if (!recipe.wick) {
        sentence.say("Set the wicks, upright and centred.");
        return;
    }
    const std::string wicks =
        fmt::format("Set {} {} in each vessel, upright", recipe.wick->count, recipe.wick->name);
    sentence.say(wicks).say(recipe.wick->count == 1 ? " and centred." : " and evenly spaced.");
}

/// How a step finds the pot, by the steps before it.
struct Found {
    bool off_heat = false;
    bool scented = false;
    bool left = false; // the wax has set since it was poured, or is wanted hotter: warmed again
};

void say_step(const Reckoning& reckoning, const Step& step, const RecipePlan& recipe,
              const Found& found, StepPlan& plan) {
    Sentence sentence(plan.text, step, plan.temperature, &plan.length);
    switch (step.verb) {
    case Verb::set_wick:
        return say_wicks(sentence, recipe);
    case Verb::melt:
        return say_melt(sentence, reckoning, step, recipe);
    case Verb::hold:
        return say_hold(sentence, found.off_heat);
    case Verb::off_heat:
        sentence.say(off_heat_words(reckoning));
        return;
    case Verb::add:
        return say_add(sentence, reckoning, step, plan);
    case Verb::pour:
        return say_pour(sentence, reckoning, recipe);
    case Verb::second_pour:
        return say_second_pour(sentence, reckoning, step, recipe, found.left);
    default:
        return sentence.fill(info(step.verb).sentence);
    }
}

StepPlan step_part(const Model& model, const Reckoning& reckoning, const Step& step,
                   const RecipePlan& recipe, std::size_t index, const Found& found) {
    StepPlan plan;
    plan.recipe = index;
    plan.verb = step.verb;
    if (step.adds_scent) {
        plan.of = "scent";
    } else if (step.material != no_block) {
        plan.of = model.name(step.material);
    }
    if (step.temperature()) plan.at_c = step.temperature()->value();
    if (step.length()) plan.length_mm = step.length()->value();
    if (step.duration()) plan.minutes = step.duration()->value() / 60;
    plan.because = step.because;
    say_step(reckoning, step, recipe, found, plan);
    const bool scented =
        step.adds_scent || (step.verb == Verb::second_pour && !reckoning.in.oils().empty());
    say_brief(reckoning, step, recipe,
              {scented && can_light(reckoning, step), found.left, found.off_heat}, plan);
    return plan;
}

/// An additive that no step adds goes in with the wax: the melt says so, since it is weighed out.
void name_melted_in(const Model& model, BlockId recipe, std::size_t first, Plan& plan) {
    const auto melt =
        std::find_if(plan.steps.begin() + static_cast<std::ptrdiff_t>(first), plan.steps.end(),
                     [](const StepPlan& step) { return step.verb == Verb::melt; });
    if (melt == plan.steps.end()) return;
    std::string names;
    for (const Share& additive : model.blend(recipe, Key::additives)) {
        const std::span<const Step> steps = model.steps_of(recipe);
        const bool added = std::any_of(steps.begin(), steps.end(), [&](const Step& step) {
            return step.material == additive.material;
        });
        if (!added) {
            names += names.empty() ? "" : ", ";
            names += model.name(additive.material);
        }
    }
    if (!names.empty()) melt->text += " Melt in with it: " + names + ".";
}

} // namespace

void add_steps(const Model& model, const Reckoning& reckoning, std::size_t recipe, Plan& plan) {
    RecipePlan& made = plan.recipes[recipe];
    const std::size_t first = plan.steps.size();
    const bool drawn = reckoning.in.job.drawn; // a jug never stands on the heat
    Found found{.off_heat = drawn};
    const Step* before = nullptr;
    for (const Step& step : model.steps_of(reckoning.in.job.recipe)) {
        // `add … , stir … because "…"` is two steps with one reason, which stands behind the last.
        if (before && before->because.data() == step.because.data()) {
            plan.steps.back().because.clear();
        }
        before = &step;
        if (step.verb == Verb::melt) found.off_heat = drawn;
        if (comes_off_heat(step, found.scented) || step.verb == Verb::pour) found.off_heat = true;
        plan.steps.push_back(step_part(model, reckoning, step, made, recipe, found));
        const StepPlan& added = plan.steps.back();
        found.scented = found.scented || step.adds_scent;
        found.left = found.left || step.verb == Verb::leave ||
                     (step.verb == Verb::pour && reckoning.second_pour_at && reckoning.pour_at &&
                      *reckoning.second_pour_at > *reckoning.pour_at);
        if (step.verb == Verb::cure && added.minutes) {
            made.cure_minutes = made.cure_minutes.value_or(0) + *added.minutes;
        }
    }
    name_melted_in(model, reckoning.in.job.recipe, first, plan);
}

} // namespace waxwright
