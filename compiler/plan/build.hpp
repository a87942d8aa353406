// From a model without errors and its reckonings to the sheet as data.
#pragma once

#include <span>

#include "findings/finding.hpp"
#include "model/model.hpp"
#include "plan/mind.hpp"
#include "plan/plan.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// The sheet of a recipe by itself. The findings are settled; those of the recipe become its
/// 'Mind' lines.
Plan plan_recipe(const Model& model, const Reckoning& reckoning, const Findings& findings);
/// The sheet of a batch: one reckoning for each of its lines, in their order.
Plan plan_batch(const Model& model, BlockId batch, std::span<const Reckoning> reckonings,
                const Findings& findings);

/// The same with an index of the findings, for many sheets in one run.
Plan plan_recipe(const Model& model, const Reckoning& reckoning, const MindIndex& mind);
Plan plan_batch(const Model& model, BlockId batch, std::span<const Reckoning> reckonings,
                const MindIndex& mind);

} // namespace waxwright
