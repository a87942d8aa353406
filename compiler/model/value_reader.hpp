// A property's value, in the shape that the schema wants: the value node's content, or monostate
// with the finding reported.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "model/blend_reader.hpp"

namespace waxwright {

class ValueReader : Reading {
public:
    ValueReader(ReadingContext& context, Evaluator& evaluator, CountReader& counts,
                BlendReader& blends)
        : Reading(context), evaluator_(evaluator), counts_(counts), blends_(blends) {}

    /// False, with a finding, where a number of pieces is not whole.
    bool whole_pieces(const Quantity& amount, Span at);
    /// monostate, with the finding reported, where it can't be read. `block` is what the property
    /// is of.
    Value read_value(const PropertyInfo& info, At value, BlockKind block);
    /// A text without its quotes and escapes, kept by the model.
    std::string_view stored_text(At text);

private:
    Value read_shape(const PropertyInfo& info, At value, BlockKind block);
    Value read_text(At value);
    Value read_word(const PropertyInfo& info, At value);
    Value read_words(const PropertyInfo& info, At value);
    Value read_texts(At value);
    Value read_hazards(At value);
    std::optional<HazardClass> read_hazard(At phrase);
    std::optional<HazardClass> hazard_named(At name);
    Value read_limits(const PropertyInfo& info, At value);
    bool read_limit(const PropertyInfo& info, At phrase, std::vector<ClassLimit>& into);
    Value read_factors(const PropertyInfo& info, At value);
    bool read_factor(const PropertyInfo& info, At phrase, MFactors& into);
    bool is_tenfold(const PropertyInfo& info, double value, At at);
    bool within(const PropertyInfo& info, const Quantity& quantity, At at);
    Value read_cas(At value);
    Value read_figure(const PropertyInfo& info, At value);
    Value read_bare_number(const PropertyInfo& info, At value);
    bool dashed_range(At operand);
    Value read_range(const PropertyInfo& info, At value);
    Value read_load(const PropertyInfo& info, At value);
    Value read_capacity(const PropertyInfo& info, At value);
    Value read_inside(const PropertyInfo& info, At value);
    Value read_densities(const PropertyInfo& info, At value);
    Value read_flash(const PropertyInfo& info, At value);
    Value read_cools(const PropertyInfo& info, At value);
    Value read_bath(const PropertyInfo& info, At value);
    Value read_wage(At value);
    Value read_fees(const PropertyInfo& info, At value);
    Value read_date(At value);
    std::optional<Date> read_date_text(At node);
    Value read_packs(At value, BlockKind block);
    std::optional<Pack> read_pack(At phrase, BlockKind block);
    bool turned_round(At phrase, const Quantity& first, const Quantity& second, BlockKind block);
    std::string_view pick_word(const PropertyInfo& info, At phrase);

    Evaluator& evaluator_;
    CountReader& counts_;
    BlendReader& blends_;
};

} // namespace waxwright
