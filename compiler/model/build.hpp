// From the files of a run to the Model.
#pragma once

#include "model/load.hpp"
#include "model/model.hpp"
#include "model/notebook.hpp"

namespace waxwright {

/// Reads every file of `sources` (the roots, in that order) and what they use into a Model, which
/// owns their texts from then on.
/// Whatever is wrong with names, dimensions, blends and shapes is told on the way; what could not
/// be read is absent, and later stages say nothing of it. Into `notebook`, where there is one,
/// goes what an editor wants to know besides.
Model build_model(Sources sources, const ReadFile& read, Findings& findings,
                  Notebook* notebook = nullptr);

} // namespace waxwright
