// `--from`: a count out of what there is.
#pragma once

#include <optional>
#include <string>

#include "driver/options.hpp"
#include "pipeline/pipeline.hpp"
#include "reckon/from.hpp"

namespace waxwright {

/// Adds what the call says as a file of its own, which uses the root: the language's own parser
/// reads it, and a mistake in it has its place. Nothing for `stock`. False, with the reason told,
/// where it can't be an amount of anything.
bool add_call(Sources& sources, const Options& options);

/// A count out of what there is, or why there is none.
struct FromCall {
    Supplies supplies;
    Enough enough;
    std::string problem; // told in the end, and nothing is written
    int status = 0;      // with a problem: 1 not enough, 2 a wrong call
};
/// Before work(). Nothing where an error, in the call or elsewhere, keeps it from being known.
std::optional<FromCall> count_from(Workshop& workshop, BlockId target, const Options& options);
/// Makes a batch of so many of the smallest sets in its own proportions.
void make_sets(Model& model, BlockId batch, std::int64_t sets);

/// True if a finding is about what the call says: then the call is wrong.
bool call_is_wrong(const Workshop& workshop);

} // namespace waxwright
