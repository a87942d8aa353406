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

std::string_view melt_words(const PotInput& pot) {
    const Bath* bath = pot.bath.get();
    if (pot.heated == Heated::water_bath) {
        return bath != nullptr && bath->hot ? "Hot water in the bath, not over the wax: melt"
                                            : "Top the bath up, not over the wax: melt";
    }
    const bool bare = pot.heated == Heated::hotplate || pot.heated == Heated::flame;
    return bare ? "Low heat, stirring all the while: melt" : "Melt";
}

void say_add(Sentence& brief, const Reckoning& reckoning, const Step& step, const StepPlan& plan,
             bool can_light) {
    if (can_light) {
        brief.say(reckoning.in.job.drawn ? "Away from the melter, no flame: " : "All heat off: ");
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
            brief.say("Jug on the scale, zero it: draw the wax");
            at_temperature(brief, step, ", at ");
        } else {
            brief.say(melt_words(reckoning.in.pot));
            at_temperature(brief, step, " to ");
        }
        if (brings_scent(reckoning.in)) brief.say(", leftovers in it: it smells");
        return;
    case Verb::hold:
        brief.say(warmth.off_heat ? "Lid on, off the heat: let it stand "
                                  : "Heat low, hold it there ");
        brief.say_duration().say(warmth.off_heat ? "" : "; stay by it");
        return;
    case Verb::off_heat:
        brief.say(off_heat(reckoning));
        if (warms_vessels(reckoning)) brief.say("; warmer off, its vessels back, covered");
        return;
    case Verb::add:
        say_add(brief, reckoning, step, plan, warmth.can_light);
        return;
    case Verb::pour:
        brief.say("Pour");
        at_temperature(brief, step, " at ");
        if (recipe.to_the_line) brief.say(", to the line");
        if (recipe.keep_in) {
            brief.say("; the rest into ")
                .say(recipe.keep_in->name)
                .say(", lid on; wipe the pot out");
        } else {
            brief.say(recipe.kept_g > 0 ? "; lid on the rest" : "; wipe the pot out");
        }
        return;
    case Verb::second_pour:
        if (warmth.can_light && warmth.set_before) {
            brief.say(
                "Nothing lit: in a bowl of hot water, lid on, warm what is kept; dry the pot; ");
        }
        brief.say(plan.brief.empty() ? "Second pour" : "second pour");
        at_temperature(brief, step, " at ");
        brief.say("; wipe the pot out");
        if (warmth.can_light && warmth.set_before) brief.say("; kettle unplugged");
        return;
    default:
        return brief.fill(info(step.verb).brief);
    }
}

} // namespace waxwright
