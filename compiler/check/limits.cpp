#include "check/limits.hpp"

#include <algorithm>
#include <iterator>

namespace waxwright {

namespace {

struct LimitRule {
    Rule rule;
    TellLimit* tell;
};

constexpr LimitRule rules[] = {
    {Rule::load_over_limit, tell_load_over},
    {Rule::load_near_limit, tell_load_near},
    {Rule::oil_over_limit, tell_own_limit},
    {Rule::ifra_cat_12_over, tell_own_limit},
    {Rule::additive_over_limit, tell_own_limit},
    {Rule::over_ceiling, tell_over_ceiling},
    {Rule::near_ceiling, tell_near_ceiling},
    {Rule::near_wax_flash, tell_near_wax_flash},
    {Rule::bath_too_cool, tell_bath_too_cool},
    {Rule::scent_over_flash_on_heat, tell_flash_on_heat},
    {Rule::scent_near_flash_on_heat, tell_flash_on_heat},
    {Rule::scent_over_flash_in_bath, tell_flash_in_bath},
    {Rule::scent_over_flash, tell_flash_off_heat},
    {Rule::rewarm_over_flash, tell_rewarmed},
    {Rule::not_melted, tell_not_melted},
    {Rule::scent_cold, tell_scent_cold},
    {Rule::pour_cold, tell_pour_cold},
    {Rule::overfull, tell_overfull},
    {Rule::headspace_thin, tell_headspace_thin},
    {Rule::thermal_shock, tell_thermal_shock},
    {Rule::wick_too_big, tell_wick_size},
    {Rule::wick_too_small, tell_wick_size},
    {Rule::pot_too_small, tell_pot_too_small},
};

} // namespace

bool is_looked_at(const Model& model, const Job& job, Rule rule) {
    if (job.batch == no_block) return true;
    const auto says = [&](Key key) { return model.entry(job.batch, key) != nullptr; };
    switch (rule) {
    case Rule::pot_too_small:
        return says(Key::pot) || says(Key::spare);
    case Rule::near_ceiling:
        return says(Key::thermometer_error);
    case Rule::bath_too_cool:
    case Rule::scent_over_flash_on_heat:
    case Rule::scent_near_flash_on_heat:
    case Rule::scent_over_flash_in_bath:
    case Rule::scent_over_flash:
    case Rule::rewarm_over_flash:
        return says(Key::pot) || says(Key::melter);
    case Rule::thermal_shock:
        return says(Key::room);
    default:
        return false;
    }
}

void tell_limit(const Model& model, const Reckoning& reckoning, const LimitCheck& check,
                Findings& findings) {
    const auto* rule = std::find_if(std::begin(rules), std::end(rules),
                                    [&](const LimitRule& each) { return each.rule == check.rule; });
    rule->tell(model, reckoning, check, findings);
}

void check_limits(const Model& model, const Reckoning& reckoning, const LimitChecks& checks,
                  Findings& findings) {
    for (const LimitCheck& check : checks) {
        if (check.silent || !is_broken(check)) continue;
        if (!is_looked_at(model, reckoning.in.job, check.rule)) continue;
        tell_limit(model, reckoning, check, findings);
    }
}

} // namespace waxwright
