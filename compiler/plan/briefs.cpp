// A step in a few words, as a row of the day has it: the sentence itself stands with the recipe.
#include "plan/day_rows.hpp"
#include "plan/parts.hpp"
#include "plan/sentence.hpp"
#include "plan/wording.hpp"

namespace waxwright {

namespace {

/// A temperature with what stands before it, if the step has one.
void at_temperature(Sentence& brief, const Step& step, std::string_view before) {
    if (step.temperature()) brief.say(before).say_temperature();
}

std::string_view off_heat(const Reckoning& reckoning) {
    if (reckoning.in.job.drawn) return "Jug well away from the melter";
    switch (reckoning.in.heat.how) {
    case Heated::flame:
        return "Flame out, pot off";
    case Heated::hotplate:
        return "Plate off, pot well away";
    case Heated::melter:
        return "Melter off";
    case Heated::water_bath:
        return "Burner or plate off, pot out of the bath";
    default:
        return "Burner or plate off, pot off the heat";
    }
}

void say_add(Sentence& brief, const Reckoning& reckoning, const Step& step, const StepPlan& plan,
             bool can_light) {
    if (can_light) {
        brief.say(reckoning.in.job.drawn ? "Away from the melter, no flame: "
                                         : "No flame, no plate on: ");
    }
    if (step.adds_scent) {
        brief.say(can_light ? "scent in" : "Scent in");
    } else {
        brief.say("Add ").say(plan.of);
    }
    at_temperature(brief, step, " at ");
}

} // namespace

void say_brief(const Reckoning& reckoning, const Step& step, const RecipePlan& recipe,
               const StepWarmth& warmth, StepPlan& plan) {
    Sentence brief(plan.brief, step, plan.brief_temperature);
    switch (step.verb) {
    case Verb::melt:
        if (!recipe.drawn_from.empty()) {
            brief.say("Draw the wax");
            at_temperature(brief, step, ", at ");
        } else {
            brief.say(reckoning.in.pot.heated == Heated::water_bath ? "Top the bath up, melt"
                                                                    : "Melt");
            at_temperature(brief, step, " to ");
        }
        return;
    case Verb::off_heat:
        brief.say(off_heat(reckoning));
        if (warms_vessels(reckoning)) brief.say("; vessel warmer off");
        return;
    case Verb::add:
        say_add(brief, reckoning, step, plan, warmth.can_light);
        return;
    case Verb::pour:
        brief.say("Pour");
        at_temperature(brief, step, " at ");
        if (recipe.to_the_line) brief.say(", to the line");
        if (recipe.kept_g <= 0 && is_filled_again(reckoning)) brief.say("; wipe the pot out");
        return;
    case Verb::second_pour:
        if (warmth.can_light && warmth.set_before) {
            brief.say("Heat water, burner or plate off; in it, lid on, warm what is kept; ");
        }
        brief.say(plan.brief.empty() ? "Second pour" : "second pour");
        at_temperature(brief, step, " at ");
        if (!reckoning.in.oils().empty()) brief.say("; wipe the pot out");
        return;
    default:
        return brief.fill(info(step.verb).brief);
    }
}

} // namespace waxwright
