// From a model without errors and its reckonings to the sheet as data.
#pragma once

#include <span>

#include "findings/finding.hpp"
#include "model/model.hpp"
#include "plan/cautions.hpp"
#include "plan/plan.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Whether the plan says what it costs and what to buy: looking for the cheapest packs takes time,
/// and most sheets don't print them. The lots at hand are on every sheet.
enum class WithMoney : bool { no, yes };

/// The sheet of a recipe by itself. The findings of the index are settled; those of the recipe
/// become its caution lines.
Plan plan_recipe(const Model& model, const Reckoning& reckoning, const Findings& findings,
                 const CautionIndex& cautions, WithMoney money);
/// The sheet of a batch: one reckoning for each of its lines, in their order.
Plan plan_batch(const Model& model, BlockId batch, std::span<const Reckoning> reckonings,
                const Findings& findings, const CautionIndex& cautions, WithMoney money);

} // namespace waxwright
