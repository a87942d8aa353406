// The steps of a recipe.
#pragma once

#include <optional>
#include <vector>

#include "model/value_reader.hpp"

namespace waxwright {

class StepReader : Reading {
public:
    StepReader(ReadingContext& context, NameLookup& lookup, Evaluator& evaluator,
               CountReader& counts, ValueReader& values)
        : Reading(context), lookup_(lookup), evaluator_(evaluator), counts_(counts),
          values_(values) {}

    /// Adds the step, with those behind its commas; what can't be read is reported and left out.
    void read_step(BlockId id, NodeId step, FileId file, std::vector<Step>& steps);

private:
    std::optional<Step> read_clause(BlockId id, At clause);
    bool read_argument(BlockId id, const VerbInfo& verb, At clause, const Children& parts,
                       std::size_t from, Step& step);
    bool read_added(BlockId id, At name, Step& step);
    bool could_be(const VerbInfo& verb, At clause);
    void unknown_verb(At clause, std::string_view first);
    void ill_formed(const VerbInfo& verb, At clause);

    NameLookup& lookup_;
    Evaluator& evaluator_;
    CountReader& counts_;
    ValueReader& values_;
};

} // namespace waxwright
