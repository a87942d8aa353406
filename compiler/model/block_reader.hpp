// Blocks: their properties and statements, what they take over from the block they are like, and
// what they lack.
#pragma once

#include <string>
#include <vector>

#include "model/step_reader.hpp"

namespace waxwright {

class BlockReader : Reading, BlockSource {
public:
    explicit BlockReader(ReadingContext& context)
        : Reading(context), block_states_(context.model.blocks.size(), ReadState::untouched),
          lookup_(context), evaluator_(context, lookup_),
          counts_(context, lookup_, evaluator_, *this),
          blends_(context, lookup_, evaluator_, counts_, *this),
          values_(context, evaluator_, counts_, blends_),
          steps_(context, lookup_, evaluator_, counts_, values_) {}

    /// Reads every block of the files that are no library, and what they refer to.
    void read_all();
    void ensure(BlockId id) override;
    /// What the lets that are figures came to, once all is read.
    std::vector<std::optional<Quantity>> figures_of_lets() const {
        return evaluator_.figures_of_lets();
    }

private:
    /// What a block's own lines say, till all of them are read: blocks read meanwhile put theirs
    /// into the model in between.
    struct Own {
        std::vector<Entry> entries{};
        std::vector<Count> pours{};
        std::vector<Have> haves{};
    };
    void read_block(BlockId id);
    void read_like(BlockId id);
    void read_statement(BlockId id, NodeId node, Own& own);
    void read_property(BlockId id, NodeId node, std::vector<Entry>& own);
    void read_broken(BlockId id, NodeId node, std::vector<Entry>& own);
    void read_steps_node(BlockId id, NodeId node);
    void read_allow(BlockId id, NodeId node);
    void read_pour(BlockId id, NodeId node, std::vector<Count>& pours);
    void read_have(BlockId id, NodeId node, std::vector<Have>& haves);
    void read_had(At operand, std::string_view lot, std::vector<Have>& haves);
    const Symbol* liked(BlockId id);
    std::string like_loop(BlockId id, BlockId liked_id);
    void report_no_amount(const Have& have, At operand);
    bool check_stock(const Have& have, At operand);
    void misplaced(BlockId id, NodeId node, std::string_view what, std::string_view where);
    void unknown_property(BlockId id, At key, std::vector<Entry>& own);
    void inherit(BlockId id, const Own& own);
    void check_needed(BlockId id);
    void check_vessel_capacity(BlockId id);
    void check_added(BlockId id);
    void check_leftover(BlockId id);
    void check_fresh(BlockId id);
    void check_leftover_loops();
    void check_lets();
    static bool says_otherwise(const std::vector<Entry>& own, Key key);
    bool replaces(const std::vector<Entry>& own, const Block& base, Key key) const;

    std::vector<ReadState> block_states_;
    NameLookup lookup_;
    Evaluator evaluator_;
    CountReader counts_;
    BlendReader blends_;
    ValueReader values_;
    StepReader steps_;
};

} // namespace waxwright
