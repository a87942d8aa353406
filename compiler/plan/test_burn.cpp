// The latest test burn for the sheet: what it says, what it leaves out, and what is other today.
#include <fmt/format.h>

#include "plan/parts.hpp"
#include "reckon/burning.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

void join(std::string& words, std::string_view between, std::string_view more) {
    if (!words.empty()) words += between;
    words += more;
}

/// "1 rush in tumbler, a load of 6 % of the wax".
std::string make_words(const Model& model, BlockId burn) {
    std::string words;
    for (const Count& wick : model.count_list(burn, Key::wick))
        join(words, ", ", fmt::format("{} {}", wick.count, model.name(wick.block)));
    if (const auto* vessel = model.get<Ref>(burn, Key::vessel)) {
        join(words, words.empty() ? "" : " ", fmt::format("in {}", model.name(vessel->block)));
    }
    if (const auto* load = model.get<Load>(burn, Key::load)) {
        join(words, ", ",
             fmt::format("a load of {} of the {}", show_percent(load->fraction),
                         load->basis == Basis::total ? "total" : "wax"));
    }
    return words;
}

/// Whether the vessel, and so the bore, was today's.
bool same_vessel(const TestBurn& test) {
    for (const Difference& difference : test.differences) {
        if (difference.key == Key::vessel) return false;
    }
    return true;
}

void put_pool(const Model& model, const Reckoning& reckoning, const TestBurn& test,
              TestPlan& plan) {
    plan.pool_mm = model.figure(test.burn, Key::melt_pool);
    if (const auto after = model.figure(test.burn, Key::after)) plan.pool_minutes = *after / 60;
    const auto wicks = model.count_list(reckoning.in.job.recipe, Key::wick);
    const bool central = !wicks.empty() && wicks[0].count == 1;
    if (plan.pool_mm && reckoning.bore_mm && central && same_vessel(test)) {
        plan.wall_mm = at_the_wall(*reckoning.bore_mm, *plan.pool_mm);
    }
}

void put_left(const Model& model, BlockId burn, TestPlan& plan) {
    const auto* left = model.get<Figure>(burn, Key::left);
    if (left == nullptr) return;
    const bool weighed = left->quantity.dimension == dimension::mass;
    (weighed ? plan.left_g : plan.left_mm) = left->value();
}

} // namespace

std::optional<TestPlan> test_part(const Model& model, const Reckoning& reckoning) {
    const Burned burns = burned(model, reckoning);
    if (burns.none()) return std::nullopt;
    const TestBurn* failed = burns.failed();
    const TestBurn& test = failed != nullptr ? *failed : burns.counting.back();
    const BlockId burn = test.burn;
    TestPlan plan;
    plan.name = model.name(burn);
    plan.on = test.on;
    plan.verdict = model.choice(burn, Key::verdict);
    plan.samples = model.figure(burn, Key::samples);
    plan.make = make_words(model, burn);
    plan.flame_mm = model.figure(burn, Key::flame);
    plan.glass_c = model.figure(burn, Key::glass);
    put_pool(model, reckoning, test, plan);
    put_left(model, burn, plan);
    plan.to_end = burns.to_end;
    plan.stop_mm = model.figure(reckoning.in.job.recipe, Key::stop_at).value_or(usual_stop_mm);
    plan.cracked = model.choice(burn, Key::cracked);
    plan.relit = model.choice(burn, Key::relit);
    plan.soot = model.choice(burn, Key::soot);
    for (const Difference& difference : test.differences) {
        plan.other.emplace_back(difference.shelf != nullptr
                                    ? fmt::format("lot of {}", model.name(difference.shelf->block))
                                    : std::string(word(difference.key)));
    }
    for (const Key key : test.unsaid)
        plan.assumed.emplace_back(word(key));
    for (const Key key : {Key::on, Key::samples, Key::burns, Key::melt_pool, Key::flame, Key::glass,
                          Key::left, Key::cracked, Key::relit, Key::soot}) {
        if (model.entry(burn, key) == nullptr) plan.missing.emplace_back(word(key));
    }
    plan.notes = model.text(burn, Key::notes);
    return plan;
}

} // namespace waxwright
