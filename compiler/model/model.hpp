// The typed recipe: every block of every file of a run, its properties read and checked for shape,
// dimension and names. Later stages read it and never touch the tree.
#pragma once

#include <array>
#include <deque>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "model/hazard_class.hpp"
#include "model/market.hpp"
#include "model/schema.hpp"
#include "model/values.hpp"
#include "syntax/tree.hpp"

namespace waxwright {

/// One property as it counts for a block, its own or taken over by `like`.
struct Entry {
    Key key;
    bool own;    // written in this block
    Span key_at; // the key
    Span at;     // the value
    Value value;
};

struct Step {
    Verb verb;
    bool adds_scent = false;        // `add scent`
    Span at;                        // the clause
    BlockId material = no_block;    // `add NAME`
    std::optional<Figure> figure{}; // no step has more than one
    std::string_view text{};        // of a note
    std::string_view because{};

    /// Its figure, if it is one of these; else nothing.
    const Figure* temperature() const { return of(dimension::point); } // °C
    const Figure* duration() const { return of(dimension::time); }     // s
    const Figure* length() const { return of(dimension::length); }     // mm

private:
    const Figure* of(const Dimension& wanted) const {
        return figure && figure->quantity.dimension == wanted ? &*figure : nullptr;
    }
};

/// `have 6 lb soy lot "B771"`
struct Have {
    BlockId block;
    Quantity amount; // mass, volume or a bare count
    std::string_view lot{};
    Span at;
};

/// Which keys a block has: nearly every question is for one that it hasn't.
class KeySet {
public:
    void add(Key key) { words_[at(key)] |= bit(key); }
    bool has(Key key) const { return (words_[at(key)] & bit(key)) != 0; }

private:
    static constexpr std::size_t at(Key key) { return static_cast<std::size_t>(key) / 64; }
    static constexpr std::uint64_t bit(Key key) {
        return std::uint64_t{1} << static_cast<unsigned>(key) % 64U;
    }
    std::array<std::uint64_t, 2> words_{};
};

struct Block {
    BlockKind kind;
    FileId file;
    std::string_view name;
    Span name_at;
    Span head_at;  // `recipe tide-line like gentle`
    Span whole_at; // from its head to its `}`
    BlockId like = no_block;
    Slice entries{}; // Model::entries
    KeySet keys{};   // of those entries
    Slice steps{};   // Model::steps, a recipe's
    Slice pours{};   // Model::counts, a batch's
    Slice haves{};   // Model::haves, a stock's
    bool has_steps = false;
    bool broken = false; // a line of it could not be read, or its head
    bool steps_broken = false;
    bool pours_broken = false;
};

class Model {
public:
    explicit Model(Sources files) : sources(std::move(files)) {}

    Sources sources;           // whose texts the names and places here are pieces of
    std::vector<FileId> roots; // the files named on the command line, in that order
    std::vector<Block> blocks;
    std::vector<Entry> entries;
    std::vector<Share> shares;
    std::vector<Count> counts;
    std::vector<Pack> packs;
    std::vector<Figure> figures;
    std::vector<std::string_view> words;
    std::vector<HazardClass> hazards;
    std::vector<ClassLimit> class_limits;
    std::vector<Step> steps;
    std::vector<Have> haves;
    std::vector<BlockId> test_burns; // all blocks of that kind; those of a recipe stand together
    std::vector<BlockId> makers;     // by FileId: whose label its candles bear, or no_block
    std::deque<std::string> texts;   // texts whose escapes had to be resolved

    std::string_view name(BlockId id) const { return blocks[id].name; }
    bool in_library(BlockId id) const { return sources[blocks[id].file].is_library(); }

    /// The property as it counts for the block; nothing if it is unsaid.
    const Entry* entry(BlockId id, Key key) const;
    /// Its value, if it is said and could be read.
    template <typename T>
    const T* get(BlockId id, Key key) const {
        const Entry* found = entry(id, key);
        return found ? std::get_if<T>(&found->value) : nullptr;
    }
    /// True if it is said but could not be read: nothing can be concluded from its absence. Also
    /// true for anything unsaid in a block with a broken line that may have been this property.
    bool unreadable(BlockId id, Key key) const;

    // Short forms of get<>: nothing where the property is unsaid or unreadable.
    std::optional<double> figure(BlockId id, Key key) const; // Figure, inside units
    /// The density at the first temperature; of an oil that says none the usual one.
    std::optional<Density> density(BlockId id) const;
    std::string_view text(BlockId id, Key key) const;             // Text, or ""
    Choice choice(BlockId id, Key key) const;                     // Word, or unsaid
    std::span<const Share> blend(BlockId id, Key key) const;      // Blend, or empty
    std::span<const Count> count_list(BlockId id, Key key) const; // Counts, or empty
    std::span<const Step> steps_of(BlockId id) const;
    std::span<const Count> pours_of(BlockId id) const;
    bool ounces = false; // the call wants what no scale is named for weighed in ounces
    /// The test burns that are `of` the recipe, in the order written.
    std::span<const BlockId> burns_of(BlockId recipe) const;
    /// What a property of the shape `texts` lists, or empty.
    std::span<const std::string_view> text_list(BlockId id, Key key) const;
    /// The classes of a substance. Empty where it has none, nothing where they are not known.
    std::optional<std::span<const HazardClass>> hazards_of(BlockId substance) const;

    /// The limits of its own that a substance has, each with its class; empty where none is given
    /// with a class.
    std::span<const ClassLimit> class_limits_of(BlockId substance) const;

    /// Where a recipe's candles are sold: what the call asks a label for, or `sells-in` of the
    /// maker that its file sees. In the order of the table; empty where nobody sells them.
    std::vector<Market> markets_of(BlockId recipe) const;
    std::vector<Market> label_for; // what the call asks for
    /// The maker that the block's file sees, its own before one of a used file; or no_block.
    BlockId maker_of(BlockId recipe) const;

    /// Where to tell a fault of a material: at the material itself, or, when that is in the
    /// standard library, at the place that uses it.
    Span place_to_change(BlockId material, Span use) const;
    /// The same for one of its properties.
    Span place_to_change(BlockId material, Key key, Span use) const;
};

} // namespace waxwright
