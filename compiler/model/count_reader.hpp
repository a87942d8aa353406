// Names of blocks, and whole numbers of them: `6 dune-tumbler`, `1 cork-lid + 1 gift-box`.
#pragma once

#include <optional>
#include <string>

#include "model/evaluator.hpp"

namespace waxwright {

class CountReader : Reading {
public:
    CountReader(ReadingContext& context, NameLookup& lookup, Evaluator& evaluator,
                BlockSource& blocks)
        : Reading(context), lookup_(lookup), evaluator_(evaluator), blocks_(blocks) {}

    /// Counts and Ref; monostate, with the finding reported, where they can't be read.
    Value read_counts(const PropertyInfo& info, At value);
    Value read_ref(const PropertyInfo& info, At value);
    /// The block of that name and kind, read; nothing, with the finding reported, where there is
    /// none.
    std::optional<BlockId> block_named(FileId file, std::string_view name, Span at,
                                       BlockKind refers);
    /// Reads the block; false, with a finding, where it is of another kind.
    bool of_kind(BlockId id, BlockKind refers, Span at);

private:
    std::optional<Span> two_words(At operand);
    std::string one_each(const PropertyInfo& info, const Count& second) const;
    std::optional<Count> read_count(At operand, BlockKind refers);

    NameLookup& lookup_;
    Evaluator& evaluator_;
    BlockSource& blocks_;
};

} // namespace waxwright
