// The schema: one table of every block and property, and one of every step. Checking, the
// materials page and the reference read it; nothing about a property is written anywhere else.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "units/dimension.hpp"

namespace waxwright {

enum class BlockKind : std::uint8_t {
#define KIND(identifier, text, article, bought) identifier,
#include "model/kinds.def"
#undef KIND
    unknown // a misspelt kind: its name counts as declared, and nothing else is said about it
};
/// How a kind of block is bought, and with that how it is counted.
enum class Bought : std::uint8_t { never, by_mass, kept, by_piece, tool };
Bought bought(BlockKind kind);
/// True for what goes into the pot: waxes, oils, additives, leftovers.
inline bool is_matter(BlockKind kind) {
    return bought(kind) == Bought::by_mass || bought(kind) == Bought::kept;
}
std::string_view word(BlockKind kind);            // "test-burn"
std::string_view with_article(BlockKind kind);    // "a test-burn", "an oil"
BlockKind find_block_kind(std::string_view word); // unknown if there is none
std::span<const std::string_view> block_kind_words();
/// The kind that is meant by a word people use for such a thing, as `jar` or `market`; unknown if
/// there is none.
BlockKind block_kind_meant(std::string_view word);

enum class Key : std::uint8_t {
#define KEY(identifier, text) identifier,
#include "model/keys.def"
#undef KEY
};
std::string_view word(Key key);
std::optional<Key> find_key(std::string_view word);

/// What a property with a fixed choice of words may say; `unsaid` where it says nothing.
enum class Choice : std::uint8_t {
    unsaid,
#define CHOICE(identifier, text) identifier,
#include "model/choices.def"
#undef CHOICE
};
std::string_view word(Choice choice);      // "" for unsaid
Choice find_choice(std::string_view word); // unsaid if there is none

/// What a value looks like.
enum class Shape : std::uint8_t {
#define SHAPE(identifier, text, example) identifier,
#include "model/shapes.def"
#undef SHAPE
};
struct ShapeInfo {
    std::string_view words;   // with {dimension}, {kind} or {words} where the property says more
    std::string_view example; // may be empty
};
const ShapeInfo& info(Shape shape);

/// How small a figure may be.
enum class Least : std::uint8_t { any, zero, above_zero };

struct PropertyInfo {
    BlockKind block;
    Key key;
    Shape shape;
    Dimension dimension{}; // for figures, ranges, packs
    bool needed = false;
    Least least = Least::zero;
    double from = -1e300, to = 1e300;      // a figure outside of these can't be meant
    BlockKind refers = BlockKind::unknown; // for names
    std::string_view words{};              // for word and words: the choice, with blanks between
    std::string_view fallback{}; // what counts when it is unsaid, as a reader would write it
    // For example, with semicolons between several; empty where its shape has examples that do.
    std::string_view example{};
    std::string_view doc; // one line
};
/// The property's own examples, or those of its shape: "318 g of water; 300 ml".
std::string_view examples_of(const PropertyInfo& property);

std::span<const PropertyInfo> all_properties();
/// The properties of one kind, in the order a block is best written.
std::span<const PropertyInfo> properties_of(BlockKind kind);
/// Nothing if that kind has no such property.
const PropertyInfo* find_property(BlockKind kind, Key key);

enum class Verb : std::uint8_t {
#define VERB(identifier, ...) identifier,
#include "model/verbs.def"
#undef VERB
};
/// What stands behind a step's words.
enum class Argument : std::uint8_t {
    none,
    to_temperature,
    at_temperature,
    name_at_temperature,
    duration,
    to_length,
    text
};
/// What else a rule or a reckoning asks of a verb.
namespace trait {
enum Trait : std::uint8_t {
    nothing = 0,
    at_pot = 1 << 0,     // done to one filling of the pot
    of_wax = 1 << 1,     // its temperature is the wax's
    pours = 1 << 2,      // wax goes into the vessels
    off_heat = 1 << 3,   // the pot comes off the heat
    stands = 1 << 4,     // time goes by and nobody is at it
    wants_cold = 1 << 5, // not before the wax is set and cold
};
}
/// Places in the order of steps; `anywhere` is for what may stand anywhere.
enum class Rank : std::uint8_t {
    anywhere,
    melting,
    adding,
    pouring,
    second_pouring,
    trimming,
    curing
};
/// How long a step takes somebody's hands.
struct Work {
    enum class Per : std::uint8_t { vessel, filling, as_said };
    Per per = Per::filling;
    double seconds = 0;
};
struct VerbInfo {
    Verb verb;
    std::string_view words; // "second pour"
    std::string_view slug;  // "second-pour": the TOML sheet's verb
    Argument argument;
    int traits;
    Rank rank;
    Work work;
    std::string_view example; // "second pour at 62 °C"
    std::string_view doc;
    std::string_view sentence; // on the sheet; empty where it hangs on the batch
    std::string_view brief;    // in a row of the day; the same

    bool has(trait::Trait trait) const { return (traits & trait) != 0; }
};
std::span<const VerbInfo> all_verbs();
const VerbInfo& info(Verb verb);
inline bool is_pour(Verb verb) {
    return info(verb).has(trait::pours);
}
inline bool is_of_wax(Verb verb) {
    return info(verb).has(trait::of_wax);
}

/// The language's own words that can be no name, besides units, kinds and verbs.
std::span<const std::string_view> language_words();
/// True for words that can be no name: units and their plurals, block kinds, step verbs and the
/// language's own words.
bool is_reserved(std::string_view word);

} // namespace waxwright
