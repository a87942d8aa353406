// What less scent takes off a label, and what comes there in its place, in words.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "reckon/label/classify.hpp"

namespace waxwright {

/// A mass fraction as a percent that is never more than it is: cut down to so many decimals, or to
/// as many as it takes to tell it from nothing.
std::string percent_cut(double fraction, int decimals);

/// A sentence for each of the codes that goes with less scent, or that no smaller load takes away:
/// "below 8 % of the total EUH208 comes in place of H317, below 0.8 % of the total neither".
/// `codes`: statements that the candle has, as codes_of() gives them; `oil` and `rest` as
/// highest_load_without() wants them; `load_words` writes a load of total. Where something is
/// unknown the sentences hold of what is known only, and say so. Empty without an oil.
std::vector<std::string> less_scent(std::vector<std::string> codes, bool some_unknown,
                                    std::span<const Ingredient> oil,
                                    std::span<const Ingredient> rest,
                                    const std::function<std::string(double)>& load_words);

} // namespace waxwright
