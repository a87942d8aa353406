// A step in a few words, as a row of the day has it: the sentence itself stands with the recipe.
#include "plan/parts.hpp"
#include "plan/wording.hpp"
#include "units/quantity.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

class Brief {
public:
    Brief(StepPlan& step, const Step& source) : step_(step), source_(source) {}

    Brief& say(std::string_view words) {
        step_.brief += words;
        return *this;
    }
    Brief& to_temperature(std::string_view before) {
        if (!source_.temperature) return *this;
        say(before);
        Quantity quantity = source_.temperature->quantity;
        quantity.doubt = 0;
        step_.brief_temperature.begin = static_cast<std::uint32_t>(step_.brief.size());
        say(show(quantity));
        step_.brief_temperature.end = static_cast<std::uint32_t>(step_.brief.size());
        return *this;
    }
    Brief& duration() {
        return source_.duration ? say(" ").say(show_duration(source_.duration->value())) : *this;
    }

private:
    StepPlan& step_;
    const Step& source_;
};

std::string_view off_heat(const Reckoning& reckoning) {
    if (reckoning.in.job.drawn) return "Jug well away from the melter";
    switch (reckoning.in.heat.how) {
    case Heated::flame:
        return "Flame out, pot off";
    case Heated::hotplate:
        return "Plate off, pot off it";
    case Heated::melter:
        return "Melter off";
    case Heated::water_bath:
        return "Burner or plate off, pot out of the bath";
    default:
        return "Burner or plate off, pot off the heat";
    }
}

void say_add(Brief& brief, const Reckoning& reckoning, const Step& step, const StepPlan& plan,
             bool can_light) {
    if (can_light) {
        brief.say(reckoning.in.job.drawn ? "Away from the melter, no flame: "
                                         : "No flame, no plate on: ");
    }
    brief.say(can_light ? "add " : "Add ").say(step.adds_scent ? "the scent" : plan.of);
    brief.to_temperature(" at ");
}

} // namespace

void say_brief(const Reckoning& reckoning, const Step& step, const RecipePlan& recipe,
               const StepWarmth& warmth, StepPlan& plan) {
    Brief brief(plan, step);
    switch (step.verb) {
    case Verb::melt:
        if (!recipe.drawn_from.empty()) {
            brief.say("Draw the wax").to_temperature(", at ");
        } else {
            brief.say(recipe.heated == "water-bath" ? "Top the bath up, melt" : "Melt");
            brief.to_temperature(" to ");
        }
        return;
    case Verb::off_heat:
        brief.say(off_heat(reckoning));
        return;
    case Verb::add:
        say_add(brief, reckoning, step, plan, warmth.can_light);
        return;
    case Verb::pour:
        brief.say("Pour").to_temperature(" at ");
        if (recipe.to_the_line) brief.say(", to the line");
        return;
    case Verb::second_pour:
        if (warmth.can_light && warmth.set_before) brief.say("Hot water only, nothing lit: warm, ");
        brief.say(plan.brief.empty() ? "Second pour" : "second pour").to_temperature(" at ");
        if (!reckoning.in.oils().empty()) brief.say("; wipe the pot out");
        return;
    case Verb::warm_vessels:
        brief.say("Warm its vessels, no flame").to_temperature(", to ");
        return;
    case Verb::cool:
        brief.say("Let it cool").to_temperature(" to ");
        return;
    case Verb::hold:
        brief.say("Hold").duration();
        return;
    case Verb::stir:
        brief.say("Stir").duration();
        return;
    case Verb::leave:
        brief.say("Leave").duration();
        return;
    case Verb::cure:
        brief.say("Cure").duration();
        return;
    case Verb::wipe_vessels:
        brief.say("Wipe the vessels");
        return;
    case Verb::set_wick:
        brief.say("Set the wicks");
        return;
    case Verb::poke_holes:
        brief.say("Poke holes");
        return;
    case Verb::smooth_top:
        brief.say("Smooth the tops");
        return;
    case Verb::trim_wick:
        brief.say("Trim the wicks");
        return;
    case Verb::lid:
        brief.say("Lids on");
        return;
    case Verb::label:
        brief.say("Labels on");
        return;
    case Verb::note:
        brief.say(step.text);
        return;
    }
}

} // namespace waxwright
