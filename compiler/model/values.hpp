// What a property's value is once it has been read. Numbers are in the inside units of
// units/unit.hpp; each keeps the place it was written at. Slices point into the Model's vectors.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <variant>

#include "model/hazard_class.hpp"
#include "model/schema.hpp"
#include "source/source.hpp"
#include "units/date.hpp"
#include "units/quantity.hpp"

namespace waxwright {

/// Index of a block in Model::blocks.
using BlockId = std::uint32_t;
inline constexpr BlockId no_block = 0xFFFFFFFF;

/// Part of one of the Model's vectors.
struct Slice {
    std::uint32_t first = 0;
    std::uint32_t count = 0;
};

struct Text {
    std::string_view text; // escapes resolved; owned by the Source or by the Model
};
struct Word {
    Choice choice; // one of those its property takes
};
struct Words {
    Slice words; // Model::words
};
struct Texts {
    Slice words; // Model::words
};
/// Classes of hazard. None of them is said to have none; what isn't said is unknown.
struct Hazards {
    Slice classes; // Model::hazards
};
/// A substance's own limit for one class of hazard.
struct ClassLimit {
    HazardClass hazard;
    double from; // mass fraction of the mixture
};
/// Limits with their classes. One without is a Figure.
struct ClassLimits {
    Slice limits; // Model::class_limits
};
/// M-factors of the two aquatic hazards, each where it is said. One for both is a Figure.
struct MFactors {
    std::optional<double> acute, chronic;
};
struct Figure {
    Quantity quantity;
    Span at;

    double value() const { return quantity.value; }
};
struct Range {
    Quantity low;
    double high; // in the same inside unit; equal to low for a single figure
    Span at;
    double high_doubt = 0; // the low end's is in its quantity
};

enum class Basis : std::uint8_t { unsaid, wax, total };
/// A share of the wax, or of wax, scent and additives together.
struct Load {
    double fraction = 0; // g per g; with by_volume, ml per g
    Basis basis = Basis::unsaid;
    bool by_volume = false;
    double doubt = 0;
    Span at;
};

/// One material of a blend with its fraction by mass. In `shares` (additives, contains) it is the
/// fraction of the other thing, and the fractions need not sum to 1.
struct Share {
    BlockId material;
    double fraction;
    Span at;
    double doubt = 0; // of the fraction
};
struct Blend {
    Slice shares; // Model::shares, materials unique, in the order written
    Span at;
};

struct Count {
    BlockId block;
    std::int64_t count;
    Span at;
};
struct Counts {
    Slice counts; // Model::counts
};
struct Ref {
    BlockId block;
    Span at;
};

/// Inside of a straight or tapered vessel, mm. Straight: mouth equals base.
struct Inside {
    double mouth;
    double base;
    double depth;
    Span at;
    double mouth_doubt = 0, base_doubt = 0, depth_doubt = 0;
};

/// A density (g/ml) at no, one or two temperatures (°C; NaN where none is said).
struct Density {
    double value;
    double doubt;
    double celsius;
};
/// Of an oil that doesn't say its own: most scent oils lie between 0.85 and 1.05 (common practice).
inline constexpr Density usual_oil_density{0.95, 0.1, 20};

struct Densities {
    Density one;
    Density two; // value 0 where there is one only
    Span at;
};

/// A flash point as measured, and as rules use it: open cup, or unsaid, counts 10 C° lower.
struct Flash {
    double written; // °C
    double counted; // °C
    UnitId unit;
    bool closed_cup;
    double doubt; // half-width, C°
    Span at;
};

/// A pot's measured cooling: from one temperature to another in a time, with a mass in it.
struct Cools {
    double from, to, room; // °C
    double seconds;
    double grams;
    Span at;
};
/// The water a pot stands in: at room temperature as the first filling goes on, unless it is hot.
struct Bath {
    double ml;
    bool hot;
    Span at;
};
struct Wage {
    double seconds;
    double per_second; // money
    Currency currency;
    Span at;
};
struct Figures {
    Slice figures; // Model::figures
};
struct DateAt {
    Date date;
    Span at;
};

/// A pack on offer: so much, or so many, for a price.
struct Pack {
    double amount; // g, ml, or pieces
    Dimension dimension;
    UnitId unit;
    double price;
    Currency currency;
    Span at;
};
struct Packs {
    Slice packs; // Model::packs
};

/// monostate: written, but it could not be read, and the finding has been told. Whoever meets it
/// says nothing more.
using Value = std::variant<std::monostate, Text, Word, Words, Texts, Hazards, ClassLimits, MFactors,
                           Figure, Range, Load, Blend, Counts, Ref, Inside, Densities, Flash, Cools,
                           Bath, Wage, Figures, DateAt, Packs>;

} // namespace waxwright
