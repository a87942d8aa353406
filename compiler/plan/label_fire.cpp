// The cautions of a label. The words are ours; which there are, and in which order, is by ASTM
// F2058-07(2021) as its abstract and a trade association's page have it, and EN 15494:2019 as two
// public lists of its symbols have it.
#include <algorithm>

#include <fmt/format.h>

#include "plan/label_parts.hpp"
#include "plan/wording.hpp"
#include "reckon/burning.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr double s_per_hour = 3600;

FireCaution required(CautionSign sign) {
    switch (sign) {
    case CautionSign::within_sight:
        return {sign, "Never leave it burning out of your sight.", true};
    case CautionSign::children_and_pets:
        return {sign, "Burn it out of reach of children and pets.", true};
    default:
        return {sign, "Never burn it on or near anything that can catch fire.", true};
    }
}

/// F2058: within sight, away from what can catch fire, away from children. EN 15494: unattended,
/// children and pets, what catches fire.
void add_required(Market market, LabelFire& fire) {
    using enum CautionSign;
    fire.head = market == Market::us ? FireHead::safety_alert : FireHead::general_warning;
    if (market == Market::us) {
        fire.word = "WARNING";
        for (const CautionSign sign : {within_sight, things_that_burn, children_and_pets})
            fire.cautions.push_back(required(sign));
    } else {
        for (const CautionSign sign : {within_sight, children_and_pets, things_that_burn})
            fire.cautions.push_back(required(sign));
    }
}

/// In the unit that the recipe has it in; in the United States with inches beside millimetres.
std::string length_words(const Quantity& length, Market market) {
    const UnitId id = plain(length.unit);
    const bool inches = id != no_unit && unit(id).symbol == "in";
    const std::string mm = show_number(length.value, 0) + " mm";
    const std::string in = show_length(length.value, true);
    if (market == Market::us) return fmt::format("{} ({})", inches ? in : mm, inches ? mm : in);
    return inches ? mm : show(length);
}

const Quantity* trim_length(const Model& model, BlockId recipe) {
    const Quantity* length = nullptr; // the last time
    for (const Step& step : model.steps_of(recipe)) {
        if (step.verb == Verb::trim_wick && step.length()) length = &step.length()->quantity;
    }
    return length;
}

/// The tests of today's candle that did not fail, from on or before the day of `made`.
std::vector<TestBurn> that_count(const Model& model, const Reckoning& r,
                                 const std::optional<Date>& made) {
    const Burned burns = burned(model, r);
    if (burns.failed() != nullptr) return {};
    std::vector<TestBurn> count;
    for (const TestBurn& test : burns.counting) {
        if (!test.stale() && !(made && later_day(test.on, made))) count.push_back(test);
    }
    return count;
}

/// h, the longest that one was watched at a time.
std::optional<double> longest_burn(const Model& model, const std::vector<TestBurn>& tests) {
    std::optional<double> longest;
    for (const TestBurn& test : tests) {
        const auto after = model.figure(test.burn, Key::after);
        if (after && (!longest || *after > *longest)) longest = after;
    }
    return longest;
}

void add_optional(const Model& model, const Reckoning& r, const std::vector<TestBurn>& tests,
                  Label& label) {
    const BlockId recipe = r.in.job.recipe;
    const auto add = [&](CautionSign sign, std::string text) {
        label.fire.cautions.push_back({sign, std::move(text), false});
    };
    if (const Quantity* trim = trim_length(model, recipe))
        add(CautionSign::trim, fmt::format("Trim the wick to {} before you light it.",
                                           length_words(*trim, label.market)));
    else
        label.notes.emplace_back("No step trims the wick, so the label has no length for it.");
    if (const auto longest = longest_burn(model, tests))
        add(CautionSign::longest_burn, fmt::format("Burn it for {} h at a time at most.",
                                                   show_number(*longest / s_per_hour, 1)));
    else
        label.notes.emplace_back("No test burn that counts says how long one was burned at a time "
                                 "(`after`), so the label has no longest burn.");
    if (const auto* apart = model.get<Figure>(recipe, Key::apart))
        add(CautionSign::apart, fmt::format("Leave {} or more between burning candles.",
                                            length_words(apart->quantity, label.market)));
    const auto* stop = model.get<Figure>(recipe, Key::stop_at);
    const Quantity usual{usual_stop_mm, dimension::length};
    add(CautionSign::stop,
        fmt::format("Put it out for good when {} of wax is left.",
                    length_words(stop != nullptr ? stop->quantity : usual, label.market)));
    add(CautionSign::draught, fmt::format("Burn it where there is no {}.",
                                          label.market == Market::us ? "draft" : "draught"));
    add(CautionSign::debris, "Keep matches and trimmings out of the wax.");
    add(CautionSign::not_moved, "Move it only when it is out and the wax is set.");
}

} // namespace

void add_fire(const Model& model, const Reckoning& r, Label& label) {
    const std::vector<TestBurn> tests = that_count(model, r, label.made_on);
    label.not_burned = tests.empty();
    const bool to_end =
        std::ranges::any_of(tests, [](const TestBurn& test) { return test.to_end; });
    if (!tests.empty() && !to_end) label.notes.emplace_back("No test burn of it went to the end.");
    if (tests.empty())
        label.notes.push_back(fmt::format(
            "Nobody has burned one of today's make that didn't fail, so {} stands across it.",
            not_burned_words));
    add_required(label.market, label.fire);
    add_optional(model, r, tests, label);
}

} // namespace waxwright
