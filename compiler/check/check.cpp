#include "check/check.hpp"

#include "check/bench.hpp"
#include "check/blend.hpp"
#include "check/burning.hpp"
#include "check/heat.hpp"
#include "check/limit_reports.hpp"
#include "check/load.hpp"
#include "check/matter.hpp"
#include "check/money.hpp"
#include "check/vessel.hpp"
#include "check/wick.hpp"

namespace waxwright {

namespace {

void check_line_of_batch(const Model& model, const Reckoning& reckoning, Findings& findings) {
    check_bench(model, reckoning, findings);
    check_heat_in_batch(model, reckoning, findings);
    check_burning_in_batch(model, reckoning, findings);
}

void check_recipe(const Model& model, const Reckoning& reckoning, Findings& findings) {
    check_blend(model, reckoning, findings);
    check_load(model, reckoning, findings);
    check_heat(model, reckoning, findings);
    check_vessel(model, reckoning, findings);
    check_wick(model, reckoning, findings);
    check_matter(model, reckoning, findings);
    check_bench(model, reckoning, findings);
    check_burning(model, reckoning, findings);
    check_money(model, reckoning, findings);
}

} // namespace

void check_job(const Model& model, const Reckoning& reckoning, const LimitChecks& limits,
               Findings& findings) {
    check_limits(model, reckoning, limits, findings);
    if (reckoning.in.job.batch != no_block) {
        check_line_of_batch(model, reckoning, findings);
    } else {
        check_recipe(model, reckoning, findings);
    }
}

} // namespace waxwright
