// Money as makers write it: `CHF 9.50 per kg`, `3 euros`, `30 cents each`, `currency £`.
#pragma once

#include "model/phrase_slips.hpp"

namespace waxwright {

/// `currency "Swiss francs"`, `currency: EUR`: the code that is meant.
std::optional<SlipAnswer> currency_answer(const BookLine& book);
/// `sold: 50 for GBP 6.00`: a currency's code before its amount.
std::optional<SlipAnswer> code_behind_answer(const BookLine& book);
/// `price: 8.90`, `sold: $14 per 4 oz` of a thing that is bought: its `sold`, with the figures that
/// are there.
std::optional<SlipAnswer> price_answer(const BookLine& book);

} // namespace waxwright
