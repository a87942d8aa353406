// Prices of what one recipe or one batch uses: they are in one currency (`mixed-currency`), and
// where some of it has a price all has (`price-missing`).
#pragma once

#include <span>

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

void check_money(const Model& model, const Reckoning& reckoning, Findings& findings);
/// A batch adds what its recipes use up and puts its own labour, overhead and price beside it.
void check_batch_money(const Model& model, std::span<const Job> lines, Findings& findings);

} // namespace waxwright
