// Blends: `80% soy + 20% coconut`, `3 parts lavender + 1 part rosemary`, alone or by a name.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/count_reader.hpp"

namespace waxwright {

class BlendReader : Reading {
public:
    BlendReader(ReadingContext& context, NameLookup& lookup, Evaluator& evaluator,
                CountReader& counts, BlockSource& blocks)
        : Reading(context), lookup_(lookup), evaluator_(evaluator), counts_(counts),
          blocks_(blocks), let_blends_(context.names.lets.size()) {}

    using Shares = std::optional<std::vector<Share>>;
    /// A Blend; monostate, with the finding reported, where it can't be read.
    Value read_blend(const PropertyInfo& info, At value);
    /// Fractions by mass that sum to 1, by a `let`; nothing where it is no blend.
    Shares let_blend(LetId id);

private:
    struct BlendItem {
        At name;           // the name's node
        At whole;          // the item's
        double amount = 0; // a fraction, or parts
        double doubt = 0;  // of the amount
        bool parts = false;
        bool rest = false;
        bool bare = false;              // a name without an amount
        std::vector<Share> materials{}; // of the name: fractions by mass that sum to 1
    };
    struct LetBlend {
        ReadState state = ReadState::untouched;
        std::optional<std::vector<Share>> shares;
    };
    Shares blend_of(At value, bool whole);
    void too_many_materials(At value);
    bool read_item(At operand, bool whole, BlendItem& item);
    bool read_amount(At whole, At amount, BlendItem& item);
    bool add_up(At value, std::vector<BlendItem>& items);
    bool share_out(At value, std::vector<BlendItem>& items);
    std::string too_much_hint(const std::vector<BlendItem>& items, double sum);
    bool weigh_parts(std::vector<BlendItem>& items);
    std::optional<double> density_of(const std::vector<Share>& materials, Span at);
    Shares materials_of(At name);

    NameLookup& lookup_;
    Evaluator& evaluator_;
    CountReader& counts_;
    BlockSource& blocks_;
    std::vector<LetBlend> let_blends_;
    BlockKind refers_ = BlockKind::unknown; // what the blend that is being read is made of
};

} // namespace waxwright
