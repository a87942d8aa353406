// Reading values: from the nodes of a property to a typed value of the shape the schema wants.
// One class, because values refer to each other through names; its parts are in figures.cpp
// (arithmetic), shapes.cpp, blends.cpp, counts.cpp, steps.cpp and blocks.cpp.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "findings/finding.hpp"
#include "model/names.hpp"

namespace waxwright {

/// A node of one file.
struct At {
    FileId file;
    NodeId node;
};

/// A block of the standard library, whether its module is used or not.
struct LibraryName {
    std::string_view name;
    std::string_view module;
};

class Reader {
public:
    Reader(const LoadedFiles& loaded, Names& names, Model& model, Findings& findings);

    /// Reads every block of the files that are no library, and what they refer to.
    void read_all();

private:
    // blocks.cpp
    enum class State : std::uint8_t { untouched, reading, done };
    /// What a block's own lines say, till all of them are read: blocks read meanwhile put theirs
    /// into the model in between.
    struct Own {
        std::vector<Entry> entries{};
        std::vector<Count> pours{};
        std::vector<Have> haves{};
    };
    void ensure(BlockId id);
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
    bool check_stock(const Have& have, At operand);
    bool whole_pieces(const Quantity& amount, Span at);
    void misplaced(BlockId id, NodeId node, std::string_view what, std::string_view where);
    void unknown_property(BlockId id, At key, std::vector<Entry>& own);
    void inherit(BlockId id, const Own& own);
    bool replaces(const std::vector<Entry>& own, const Block& base, Key key) const;
    void check_needed(BlockId id);
    void check_vessel_capacity(BlockId id);
    void check_added(BlockId id);
    void check_lets();

    // shapes.cpp, shapes_vessel.cpp and money.cpp: the value node's content, or monostate with the
    // finding told
    Value read_value(const PropertyInfo& info, At value, BlockKind block);
    Value read_shape(const PropertyInfo& info, At value, BlockKind block);
    Value read_text(At value);
    Value read_word(const PropertyInfo& info, At value);
    Value read_words(const PropertyInfo& info, At value);
    Value read_labels(At value);
    Value read_texts(At value);
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
    std::string_view stored_text(At text);
    std::string_view pick_word(const PropertyInfo& info, At phrase);

    // blends.cpp
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
        State state = State::untouched;
        std::optional<std::vector<Share>> shares;
    };
    using Shares = std::optional<std::vector<Share>>;
    Value read_blend(const PropertyInfo& info, At value);
    Shares blend_of(At value, bool whole);
    void too_many_materials(At value);
    bool read_item(At operand, bool whole, BlendItem& item);
    bool read_amount(At whole, At amount, BlendItem& item);
    bool add_up(At value, std::vector<BlendItem>& items);
    bool share_out(At value, std::vector<BlendItem>& items);
    bool weigh_parts(std::vector<BlendItem>& items);
    std::optional<double> density_of(const std::vector<Share>& materials, Span at);
    Shares materials_of(At name);
    Shares let_blend(LetId id);

    // counts.cpp
    Value read_counts(const PropertyInfo& info, At value);
    Value read_ref(const PropertyInfo& info, At value);
    std::optional<Span> two_words(At operand);
    std::optional<Count> read_count(At operand, BlockKind refers);
    std::optional<BlockId> block_named(FileId file, std::string_view name, Span at,
                                       BlockKind refers);
    /// `also` is a word that may stand there besides.
    void unknown_name(FileId file, std::string_view name, Span at, std::string_view also = {});
    std::string unknown_hint(FileId file, std::string_view name,
                             std::span<const std::string_view> names);
    std::string module_hint(std::string_view name);
    void report_unknown_names();
    bool of_kind(BlockId id, BlockKind refers, Span at);

    // steps.cpp
    void read_step(BlockId id, NodeId step, FileId file, std::vector<Step>& steps);
    std::optional<Step> read_clause(BlockId id, At clause);
    bool read_argument(BlockId id, const VerbInfo& verb, At clause, const Children& parts,
                       std::size_t from, Step& step);
    bool read_added(BlockId id, At name, Step& step);
    bool could_be(const VerbInfo& verb, At clause);
    void unknown_verb(At clause, std::string_view first);
    void ill_formed(const VerbInfo& verb, At clause);

    // figures.cpp
    std::optional<Quantity> figure(At operand);
    std::optional<Quantity> measure(At node);
    std::optional<Quantity> compound(At node);
    std::optional<Quantity> cash(At node);
    std::optional<Quantity> arithmetic(At node);
    std::optional<Quantity> doubtful(At node);
    std::optional<Quantity> named_figure(At name);
    std::optional<Quantity> let_figure(LetId id);
    bool begin_let(LetId id, State& state);
    void end_let(State& state);
    std::optional<Quantity> wanted(At operand, Dimension dimension, Least least);
    bool has_dimension(const Quantity& quantity, Dimension dimension, At operand);
    void mismatch(const Quantity& quantity, Dimension dimension, At operand);
    bool fits_a_vessel(const Quantity& quantity, Span at);
    bool in_range(const Quantity& quantity, Least least, Span at);
    void report_fault(Fault fault, const Quantity& left, const Quantity& right, Span at);

    // Helpers
    const Tree& tree(FileId file) const { return loaded_.files[file].tree; }
    Kind kind(At at) const { return tree(at.file).kind(at.node); }
    Span span(At at) const { return tree(at.file).span(at.node); }
    std::string_view text(At at) const { return tree(at.file).text(at.node); }
    Children children(At at) const { return tree(at.file).children(at.node); }
    /// Follows names bound by `let` from a value that is nothing but such a name to what it is.
    std::optional<At> resolved(At value);
    /// The operand of a value that has nothing else; nothing, with a finding, where it has more.
    std::optional<At> only_operand(At value, std::string_view wanted);
    /// The phrase of a value that has one only.
    std::optional<At> only_phrase(At value);
    void not_expected(At node);
    /// Adds to a finding within a `let` where the value is used.
    void add_use(Finding& finding);
    const Symbol* look_up(At name);
    void report_let_loop(LetId id, const std::vector<LetId>& path);

    const LoadedFiles& loaded_;
    Names& names_;
    Model& model_;
    Findings& findings_;
    std::vector<State> block_states_;
    struct LetFigure {
        State state = State::untouched;
        std::optional<Quantity> quantity;
    };
    std::vector<LetFigure> let_figures_;
    std::vector<LetBlend> let_blends_;
    struct Unknown {
        std::vector<Span> places{};
        std::string hint{};       // worked out at the first of them; empty: nothing is told
        std::string_view meant{}; // the nearest name, if one is near
        bool sure = false;        // it can't be another
    };
    std::vector<LibraryName> library_names_; // all of them, found at the first unknown name
    std::map<std::pair<FileId, std::string_view>, Unknown> unknown_names_;
    std::optional<Span> used_at_; // where a name stands for the value that is being read
    std::vector<LetId> making_;   // lets being read, outermost first
    Dimension
        wanted_dimension_{}; // of the value being read: which unit a misspelt one was meant to be
    /// Parentheses open at once, over all names a figure is made of: bounds the stack.
    static constexpr int most_open_groups = 1000;
    int open_groups_ = 0;
    int depth_ = 0; // of names made of names, bounded by deepest_nesting
};

} // namespace waxwright
