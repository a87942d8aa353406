// Figures: numbers with their units, arithmetic, doubts, and the names that stand for them. What
// can be wrong with one is in figure_faults.cpp, the nodes of a value in value_nodes.cpp.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "model/name_lookup.hpp"
#include "model/schema.hpp"

namespace waxwright {

class Evaluator : Reading {
public:
    Evaluator(ReadingContext& context, NameLookup& lookup)
        : Reading(context), lookup_(lookup), let_figures_(context.names.lets.size()) {}

    /// What the lets that are figures came to, once all is read.
    std::vector<std::optional<Quantity>> figures_of_lets() const;
    /// What an operand comes to, in inside units; nothing, with the finding reported, where it
    /// comes to nothing.
    std::optional<Quantity> figure(At operand);
    /// Whether a `let` is to be read now: it isn't where it has been, or is being read (a loop,
    /// which is reported). Each `true` wants its end_let().
    bool begin_let(LetId id, ReadState& state);
    void end_let(ReadState& state);
    /// A figure of this dimension, in range; else nothing, with the finding reported.
    std::optional<Quantity> wanted(At operand, Dimension dimension, Least least);
    /// These report a finding where they are false.
    bool has_dimension(const Quantity& quantity, Dimension dimension, At operand);
    /// A length of a vessel; `across` if it is how wide it is.
    bool fits_a_vessel(const Quantity& quantity, bool across, Span at);
    bool can_be_filled(const Quantity& capacity, Span at);
    bool in_range(const Quantity& quantity, Least least, Span at);
    /// Follows names bound by `let` from a value that is nothing but such a name to what it is.
    std::optional<At> resolved(At value);
    /// The operand of a value that has nothing else; nothing, with a finding, where it has more.
    std::optional<At> only_operand(At value, std::string_view wanted);
    /// The phrase of a value that has one only.
    std::optional<At> only_phrase(At value);
    /// The code for an example of a price in this file: of a price that is there, else USD.
    std::string_view currency_in(FileId file);
    /// Reports that the node does not belong where it is.
    void not_expected(At node);

private:
    std::optional<Quantity> figure_of(At operand);
    std::optional<Quantity> measure(At node);
    std::optional<Quantity> compound(At node);
    std::optional<Quantity> cash(At node);
    std::optional<Quantity> arithmetic(At node);
    std::optional<Quantity> doubtful(At node);
    std::optional<Quantity> named_figure(At name);
    std::optional<Quantity> let_figure(LetId id);
    void mismatch(const Quantity& quantity, Dimension dimension, At operand);
    void no_unit_given(const Quantity& quantity, Dimension dimension, At operand);
    std::string example_in(Dimension dimension, FileId file);
    void report_fault(Fault fault, const Quantity& left, const Quantity& right, Span at);
    void report_let_loop(LetId id, const std::vector<LetId>& path);

    NameLookup& lookup_;
    struct LetFigure {
        ReadState state = ReadState::untouched;
        std::optional<Quantity> quantity;
    };
    std::vector<LetFigure> let_figures_;
    std::vector<std::optional<std::string_view>> currencies_; // by FileId, as far as asked for
    std::vector<LetId> making_;                               // lets being read, outermost first
    /// Parentheses open at once, over all names a figure is made of: bounds the stack.
    static constexpr int most_open_groups = 1000;
    int open_groups_ = 0;
};

} // namespace waxwright
