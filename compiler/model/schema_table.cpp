// The table itself. To add a property: a KEY in keys.def if the word is new, and a row here.
#include <array>
#include <cstdint>

#include "model/schema.hpp"

namespace waxwright {

namespace {

using enum BlockKind;
namespace d = dimension;

// clang-format off
constexpr PropertyInfo table[] = {
    {.block = wax, .key = Key::density, .shape = Shape::density, .dimension = d::density, .needed = true, .least = Least::above_zero, .doc = "density of the solid wax; the temperature may be said"},
    {.block = wax, .key = Key::liquid_density, .shape = Shape::densities, .dimension = d::density, .least = Least::above_zero, .doc = "density of the melted wax, at one temperature or at two"},
    {.block = wax, .key = Key::melts, .shape = Shape::range, .dimension = d::point, .needed = true, .example = "48 to 57 °C", .doc = "melting point or range"},
    {.block = wax, .key = Key::sets, .shape = Shape::figure, .dimension = d::point, .fallback = "the low end of melts", .example = "46 °C", .doc = "temperature at which it begins to set"},
    {.block = wax, .key = Key::max_load, .shape = Shape::load, .dimension = d::ratio, .needed = true, .doc = "the most scent it carries, with its basis"},
    {.block = wax, .key = Key::ceiling, .shape = Shape::figure, .dimension = d::point, .needed = true, .example = "93 °C", .doc = "never heat it above this"},
    {.block = wax, .key = Key::flash_point, .shape = Shape::flash, .dimension = d::point, .doc = "flash point and the cup it was measured in"},
    {.block = wax, .key = Key::scent_at, .shape = Shape::range, .dimension = d::point, .example = "70 to 85 °C", .doc = "temperatures at which scent is added"},
    {.block = wax, .key = Key::pour_at, .shape = Shape::range, .dimension = d::point, .example = "48 to 68 °C", .doc = "temperatures at which it is poured"},
    {.block = wax, .key = Key::cures, .shape = Shape::range, .dimension = d::time, .example = "7 to 14 days", .doc = "how long it cures before it is burned"},
    {.block = wax, .key = Key::heat, .shape = Shape::figure, .dimension = d::heat_capacity, .least = Least::above_zero, .example = "2.0 J/g/K", .doc = "specific heat of the solid"},
    {.block = wax, .key = Key::heat_liquid, .shape = Shape::figure, .dimension = d::heat_capacity, .least = Least::above_zero, .example = "2.1 J/g/K", .doc = "specific heat of the liquid"},
    {.block = wax, .key = Key::melting_heat, .shape = Shape::figure, .dimension = d::latent_heat, .example = "120 J/g", .doc = "heat of melting"},

    {.block = oil, .key = Key::density, .shape = Shape::density, .dimension = d::density, .least = Least::above_zero, .fallback = "0.95 g/ml +- 0.1", .doc = "density; the temperature may be said"},
    {.block = oil, .key = Key::flash_point, .shape = Shape::flash, .dimension = d::point, .doc = "flash point and the cup it was measured in; if it isn't said, it counts as open"},
    {.block = oil, .key = Key::limit, .shape = Shape::load, .dimension = d::ratio, .doc = "the most of this oil, of total or of wax"},
    {.block = oil, .key = Key::ifra_cat_12, .shape = Shape::load, .dimension = d::ratio, .doc = "the most its certificate allows in category 12, of total"},
    {.block = oil, .key = Key::certificate, .shape = Shape::text, .doc = "which certificate: number, amendment, date"},
    {.block = oil, .key = Key::contains, .shape = Shape::shares, .refers = substance, .doc = "substances in it, as percents of the oil"},
    {.block = oil, .key = Key::supplier_label, .shape = Shape::texts, .doc = "the sentences of the label that its supplier gives for a candle with it, each a text; \"none\" if it needs none"},
    {.block = oil, .key = Key::supplier_label_load, .shape = Shape::load, .dimension = d::ratio, .doc = "the most of it that label is for, of total or of wax"},
    {.block = oil, .key = Key::made_for, .shape = Shape::word, .words = "candles unknown", .doc = "whether its supplier makes it for candles"},
    {.block = oil, .key = Key::base, .shape = Shape::word, .words = "oil water alcohol", .fallback = "oil", .doc = "what it is dissolved in"},

    {.block = substance, .key = Key::title, .shape = Shape::text, .fallback = "its name", .doc = "what it is called on the label"},
    {.block = substance, .key = Key::cas, .shape = Shape::cas, .doc = "CAS number"},
    {.block = substance, .key = Key::hazards, .shape = Shape::hazards, .doc = "hazard classes as the CLP regulation abbreviates them, in kebab-case; `none` if its supplier gives none"},
    {.block = substance, .key = Key::m_factor, .shape = Shape::factors, .least = Least::above_zero, .words = "acute chronic", .fallback = "1", .doc = "multiplying factor for the aquatic environment: one for both hazards, or one each"},
    {.block = substance, .key = Key::adds_up, .shape = Shape::word, .words = "no yes", .doc = "whether its effect on skin and eyes adds up with that of others; `no` of aldehydes, phenols, strong acids and bases"},
    {.block = substance, .key = Key::specific_limit, .shape = Shape::limits, .dimension = d::ratio, .least = Least::above_zero, .from = 0, .to = 1, .doc = "specific concentration limits, each with its class; one alone without a class is that of its skin sensitisation"},

    {.block = additive, .key = Key::density, .shape = Shape::density, .dimension = d::density, .least = Least::above_zero, .fallback = "the wax's", .doc = "density; the temperature may be said"},
    {.block = additive, .key = Key::liquid_density, .shape = Shape::densities, .dimension = d::density, .least = Least::above_zero, .doc = "density of it melted, at one temperature or at two"},
    {.block = additive, .key = Key::melts, .shape = Shape::range, .dimension = d::point, .example = "52 to 70 °C", .doc = "melting point or range"},
    {.block = additive, .key = Key::limit, .shape = Shape::load, .dimension = d::ratio, .doc = "the most of it, of wax or of total"},
    {.block = additive, .key = Key::contains, .shape = Shape::shares, .refers = substance, .doc = "substances in it, as percents of the additive"},
    {.block = additive, .key = Key::adds_at, .shape = Shape::range, .dimension = d::point, .example = "75 to 80 °C", .doc = "temperatures at which it is added"},
    {.block = additive, .key = Key::flash_point, .shape = Shape::flash, .dimension = d::point, .doc = "flash point and the cup it was measured in; if it isn't said, it counts as open"},
    {.block = additive, .key = Key::heat, .shape = Shape::figure, .dimension = d::heat_capacity, .least = Least::above_zero, .example = "1.76 J/g/K", .doc = "specific heat of the solid"},
    {.block = additive, .key = Key::heat_liquid, .shape = Shape::figure, .dimension = d::heat_capacity, .least = Least::above_zero, .example = "2.3 J/g/K", .doc = "specific heat of the liquid"},
    {.block = additive, .key = Key::melting_heat, .shape = Shape::figure, .dimension = d::latent_heat, .example = "203 J/g", .doc = "heat of melting"},
    {.block = additive, .key = Key::made_for, .shape = Shape::word, .words = "candles unknown", .doc = "whether its supplier makes it for candles"},
    {.block = additive, .key = Key::base, .shape = Shape::word, .words = "oil water alcohol", .fallback = "oil", .doc = "what it is dissolved in"},

    {.block = vessel, .key = Key::fill, .shape = Shape::capacity, .dimension = d::volume, .least = Least::above_zero, .example = "250 ml; 260 g of water", .doc = "volume to your own line, or the water that fills it so far"},
    {.block = vessel, .key = Key::brimful, .shape = Shape::capacity, .dimension = d::volume, .least = Least::above_zero, .example = "318 g of water; 300 ml", .doc = "volume to the brim, or the water that fills it"},
    {.block = vessel, .key = Key::inside, .shape = Shape::inside, .dimension = d::length, .least = Least::above_zero, .doc = "inside diameter and depth; tapered: mouth to base"},
    {.block = vessel, .key = Key::headspace, .shape = Shape::figure, .dimension = d::length, .example = "12 mm", .doc = "room above the wax, measured down from the mouth"},
    {.block = vessel, .key = Key::bore, .shape = Shape::figure, .dimension = d::length, .least = Least::above_zero, .fallback = "from inside, at the fill line", .example = "74 mm", .doc = "inside diameter where the wax is"},
    {.block = vessel, .key = Key::mouth, .shape = Shape::figure, .dimension = d::length, .least = Least::above_zero, .fallback = "the bore", .example = "60 mm", .doc = "inside diameter of the empty top"},
    {.block = vessel, .key = Key::of, .shape = Shape::word, .words = "glass tin ceramic stone wood plastic", .doc = "what it is made of"},
    {.block = vessel, .key = Key::made_for, .shape = Shape::word, .words = "candles heat unknown", .doc = "what its maker makes it for"},
    {.block = vessel, .key = Key::shock, .shape = Shape::figure, .dimension = d::interval, .least = Least::above_zero, .example = "50 C°", .doc = "the temperature jump its supplier allows"},

    {.block = wick, .key = Key::suits, .shape = Shape::range, .dimension = d::length, .least = Least::above_zero, .example = "70 to 78 mm", .doc = "the bores it suits, from its supplier's chart"},
    {.block = wick, .key = Key::core, .shape = Shape::word, .words = "cotton paper wood zinc tin lead unknown", .doc = "what its core is"},
    {.block = wick, .key = Key::lead, .shape = Shape::share, .dimension = d::ratio, .least = Least::zero, .from = 0, .to = 1, .example = "0.01%", .doc = "lead in the metal of its core, as its supplier certifies"},
    {.block = wick, .key = Key::burns, .shape = Shape::figure, .dimension = d::mass_rate, .least = Least::above_zero, .example = "5.2 g/h", .doc = "how much wax it burns in a time"},

    {.block = pot, .key = Key::brimful, .shape = Shape::capacity, .dimension = d::volume, .needed = true, .least = Least::above_zero, .example = "1.9 l", .doc = "volume to the brim, or the water that fills it"},
    {.block = pot, .key = Key::headroom, .shape = Shape::share, .dimension = d::ratio, .fallback = "20%", .example = "25%", .doc = "share kept empty"},
    {.block = pot, .key = Key::clings, .shape = Shape::figure, .dimension = d::mass, .fallback = "0 g", .example = "6 g", .doc = "what is left in it after pouring"},
    {.block = pot, .key = Key::heated, .shape = Shape::word, .words = "water-bath melter hotplate flame microwave", .doc = "how it is heated"},
    {.block = pot, .key = Key::weighs, .shape = Shape::figure, .dimension = d::mass, .example = "318 g", .doc = "its own weight, empty"},
    {.block = pot, .key = Key::power, .shape = Shape::figure, .dimension = d::power, .least = Least::above_zero, .example = "1.2 kW", .doc = "power of what heats it"},
    {.block = pot, .key = Key::cools, .shape = Shape::cools, .dimension = d::point, .doc = "a cooling as you measured it"},
    {.block = pot, .key = Key::bath, .shape = Shape::bath, .dimension = d::volume, .least = Least::above_zero, .doc = "the water of its bath; `hot` if it is hot before the first filling goes on"},

    {.block = scale, .key = Key::reads, .shape = Shape::figure, .dimension = d::mass, .needed = true, .least = Least::above_zero, .example = "1 g", .doc = "its division"},
    {.block = scale, .key = Key::most, .shape = Shape::figure, .dimension = d::mass, .least = Least::above_zero, .example = "5 kg", .doc = "the most it carries"},

    {.block = extra, .key = Key::goes, .shape = Shape::word, .words = "lid box outside on-wax in-wax", .doc = "where it goes"},

    {.block = leftover, .key = Key::of, .shape = Shape::ref, .refers = recipe, .doc = "the recipe it was left of: its wax, load, scent, additives and leftovers, as they are in this file"},
    {.block = leftover, .key = Key::wax, .shape = Shape::blend, .refers = wax, .doc = "the wax in it, where no recipe says it"},
    {.block = leftover, .key = Key::load, .shape = Shape::load, .dimension = d::ratio, .doc = "how much scent is in it, of its wax or of its total"},
    {.block = leftover, .key = Key::scent, .shape = Shape::blend, .refers = oil, .doc = "the oil in it, or a blend of oils"},
    {.block = leftover, .key = Key::additives, .shape = Shape::shares, .refers = additive, .doc = "percents of its wax"},

    {.block = recipe, .key = Key::title, .shape = Shape::text, .fallback = "its name", .doc = "what it is called on the sheet"},
    {.block = recipe, .key = Key::makes, .shape = Shape::one_of, .needed = true, .refers = vessel, .doc = "how many of which vessel"},
    {.block = recipe, .key = Key::wax, .shape = Shape::blend, .needed = true, .refers = wax, .doc = "the wax, or a blend of waxes"},
    {.block = recipe, .key = Key::load, .shape = Shape::load, .dimension = d::ratio, .doc = "how much scent, of wax or of total"},
    {.block = recipe, .key = Key::scent, .shape = Shape::blend, .refers = oil, .doc = "the oil, or a blend of oils"},
    {.block = recipe, .key = Key::additives, .shape = Shape::shares, .refers = additive, .doc = "percents of the wax"},
    {.block = recipe, .key = Key::leftovers, .shape = Shape::shares, .refers = leftover, .doc = "percents of the whole candle, by weight, that come out of leftovers; the lines above are for the rest"},
    {.block = recipe, .key = Key::wick, .shape = Shape::one_of, .refers = wick, .doc = "how many of which wick, in each vessel"},
    {.block = recipe, .key = Key::extras, .shape = Shape::some_of, .refers = extra, .doc = "lids, labels, boxes, for each vessel"},
    {.block = recipe, .key = Key::pot, .shape = Shape::one_of, .refers = pot, .doc = "the pot, and how many stand on the stove at once"},
    {.block = recipe, .key = Key::scale, .shape = Shape::ref, .refers = scale, .doc = "the scale the weights are rounded to"},
    {.block = recipe, .key = Key::thermometer_error, .shape = Shape::figure, .dimension = d::interval, .fallback = "3 C°", .example = "1 C°", .doc = "how far the thermometer may be wrong"},
    {.block = recipe, .key = Key::headspace, .shape = Shape::figure, .dimension = d::length, .fallback = "the vessel's", .example = "15 mm", .doc = "room above the wax in this recipe"},
    {.block = recipe, .key = Key::spare, .shape = Shape::share, .dimension = d::ratio, .fallback = "0%", .example = "2%", .doc = "extra wax and scent, for what is spilled"},
    {.block = recipe, .key = Key::keep, .shape = Shape::kept, .dimension = d::ratio, .fallback = "what the second pour needs", .doc = "held back for the second pour: a share of what is melted, or a mass for each vessel"},
    {.block = recipe, .key = Key::keep_in, .shape = Shape::one_of, .refers = pot, .doc = "the pot that what is held back waits in, and how many there are"},
    {.block = recipe, .key = Key::net, .shape = Shape::figure, .dimension = d::mass, .least = Least::above_zero, .example = "220 g", .doc = "the mass the label claims"},
    {.block = recipe, .key = Key::apart, .shape = Shape::figure, .dimension = d::length, .least = Least::above_zero, .example = "10 cm", .doc = "how far burning ones stand from each other, for the label"},
    {.block = recipe, .key = Key::stop_at, .shape = Shape::figure, .dimension = d::length, .fallback = "12 mm", .example = "10 mm", .doc = "depth of wax that must not burn"},
    {.block = recipe, .key = Key::notes, .shape = Shape::text, .doc = "printed on the sheet"},

    {.block = batch, .key = Key::starts, .shape = Shape::date, .example = "2026-12-05 09:00; 2026-12-05", .doc = "when the work begins; the steps get times by the clock"},
    {.block = batch, .key = Key::lot, .shape = Shape::text, .doc = "the lot"},
    {.block = batch, .key = Key::pot, .shape = Shape::one_of, .refers = pot, .doc = "replaces the recipes' own"},
    {.block = batch, .key = Key::melter, .shape = Shape::one_of, .refers = pot, .doc = "one vessel that melts the wax for all recipes; the pots are filled from it"},
    {.block = batch, .key = Key::scale, .shape = Shape::ref, .refers = scale, .doc = "replaces the recipes' own"},
    {.block = batch, .key = Key::thermometer_error, .shape = Shape::figure, .dimension = d::interval, .example = "1 C°", .doc = "replaces the recipes' own"},
    {.block = batch, .key = Key::room, .shape = Shape::figure, .dimension = d::point, .from = -40, .to = 60, .fallback = "20 °C", .example = "18 °C", .doc = "temperature of the room"},
    {.block = batch, .key = Key::spare, .shape = Shape::share, .dimension = d::ratio, .example = "2%", .doc = "replaces the recipes' own"},
    {.block = batch, .key = Key::labour, .shape = Shape::wage, .dimension = d::wage, .doc = "working time, and what is paid for an hour"},
    {.block = batch, .key = Key::overhead, .shape = Shape::overhead, .dimension = d::money, .doc = "rent, stall, power: an amount of money, or a percent of the costs"},
    {.block = batch, .key = Key::fees, .shape = Shape::fees, .dimension = d::ratio, .doc = "shares of the price that others take"},
    {.block = batch, .key = Key::price, .shape = Shape::figure, .dimension = d::money, .least = Least::above_zero, .example = "£16.00", .doc = "what one candle is sold for"},
    {.block = batch, .key = Key::notes, .shape = Shape::text, .doc = "printed on the sheet"},

    {.block = test_burn, .key = Key::of, .shape = Shape::ref, .needed = true, .refers = recipe, .doc = "the recipe that was burned"},
    {.block = test_burn, .key = Key::on, .shape = Shape::date, .example = "2026-04-18", .doc = "the day it was lit"},
    {.block = test_burn, .key = Key::wick, .shape = Shape::one_of, .refers = wick, .doc = "the wick it had"},
    {.block = test_burn, .key = Key::vessel, .shape = Shape::ref, .refers = vessel, .doc = "the vessel it was in"},
    {.block = test_burn, .key = Key::wax, .shape = Shape::blend, .refers = wax, .doc = "the wax it had"},
    {.block = test_burn, .key = Key::load, .shape = Shape::load, .dimension = d::ratio, .doc = "the load it had"},
    {.block = test_burn, .key = Key::scent, .shape = Shape::blend, .refers = oil, .doc = "the scent it had"},
    {.block = test_burn, .key = Key::additives, .shape = Shape::shares, .refers = additive, .doc = "the additives it had"},
    {.block = test_burn, .key = Key::leftovers, .shape = Shape::shares, .refers = leftover, .doc = "the leftovers it had"},
    {.block = test_burn, .key = Key::lots, .shape = Shape::texts, .doc = "the suppliers' lots it was made of"},
    {.block = test_burn, .key = Key::samples, .shape = Shape::whole, .least = Least::above_zero, .doc = "how many were burned"},
    {.block = test_burn, .key = Key::burns, .shape = Shape::figure, .dimension = d::mass_rate, .least = Least::above_zero, .example = "5.2 g/h", .doc = "wax burned in a time, as weighed"},
    {.block = test_burn, .key = Key::melt_pool, .shape = Shape::figure, .dimension = d::length, .example = "68 mm", .doc = "how wide the melt pool was"},
    {.block = test_burn, .key = Key::after, .shape = Shape::figure, .dimension = d::time, .example = "4 h", .doc = "after how long"},
    {.block = test_burn, .key = Key::flame, .shape = Shape::figure, .dimension = d::length, .example = "31 mm", .doc = "the tallest flame"},
    {.block = test_burn, .key = Key::glass, .shape = Shape::figure, .dimension = d::point, .example = "58 °C", .doc = "the hottest the outside was"},
    {.block = test_burn, .key = Key::left, .shape = Shape::depth, .dimension = d::length, .doc = "the wax that was left when it went out"},
    {.block = test_burn, .key = Key::cracked, .shape = Shape::word, .words = "no yes", .doc = "whether the vessel cracked"},
    {.block = test_burn, .key = Key::relit, .shape = Shape::word, .words = "no yes", .doc = "whether it lit again by itself"},
    {.block = test_burn, .key = Key::soot, .shape = Shape::word, .words = "no none light heavy yes", .doc = "soot on the glass or in the air"},
    {.block = test_burn, .key = Key::verdict, .shape = Shape::word, .words = "pass fail", .doc = "what you say of it"},
    {.block = test_burn, .key = Key::notes, .shape = Shape::text, .doc = "anything else you saw"},

    {.block = maker, .key = Key::title, .shape = Shape::text, .doc = "what the maker is called on the label"},
    {.block = maker, .key = Key::address, .shape = Shape::text, .doc = "the address on the label"},
    {.block = maker, .key = Key::phone, .shape = Shape::text, .doc = "the telephone number on the label"},
    {.block = maker, .key = Key::sells_in, .shape = Shape::words, .words = "us eu gb", .doc = "where it is sold"},

    // Every block has these; `sold` only where the thing is bought.
    {.block = unknown, .key = Key::about, .shape = Shape::text, .doc = "a line about it"},
    {.block = unknown, .key = Key::source, .shape = Shape::text, .doc = "where its figures are from"},
    {.block = unknown, .key = Key::sold, .shape = Shape::packs, .doc = "packs on offer, each with the price of the whole pack"},
};
// clang-format on

/// Every word a `word` property takes is a Choice: a row with another one does not compile.
constexpr bool is_choice(std::string_view text) {
    constexpr std::string_view words[] = {
#define CHOICE(identifier, written) written,
#include "model/choices.def"
#undef CHOICE
    };
    for (const std::string_view word : words) {
        if (word == text) return true;
    }
    return false;
}
static_assert([] {
    for (const PropertyInfo& row : table) {
        if (row.shape != Shape::word) continue;
        for (std::size_t at = 0; at < row.words.size();) {
            const std::size_t end = row.words.find(' ', at);
            if (!is_choice(row.words.substr(at, end - at))) return false;
            if (end == std::string_view::npos) break;
            at = end + 1;
        }
    }
    return true;
}());

/// Rows of one kind stand together; this finds them.
constexpr std::span<const PropertyInfo> rows_of(BlockKind kind) {
    std::size_t first = 0;
    while (first < std::size(table) && table[first].block != kind) {
        ++first;
    }
    std::size_t last = first;
    while (last < std::size(table) && table[last].block == kind) {
        ++last;
    }
    return std::span<const PropertyInfo>(table).subspan(first, last - first);
}

constexpr bool is_bought[] = {
#define KIND(identifier, text, article, bought)                                                    \
    Bought::bought != Bought::never &&Bought::bought != Bought::kept,
#include "model/kinds.def"
#undef KIND
    false};

constexpr std::uint8_t no_row = 0xFF;
static_assert(std::size(table) < no_row);

constexpr bool each_key[] = {
#define KEY(identifier, text) true,
#include "model/keys.def"
#undef KEY
};
constexpr std::size_t key_count = std::size(each_key);

/// By kind and key, the row of the table: looking a property up is done for every line of a file.
constexpr auto row_numbers = [] {
    std::array<std::array<std::uint8_t, key_count>, static_cast<std::size_t>(unknown) + 1> rows{};
    for (std::size_t kind = 0; kind < rows.size(); ++kind) {
        for (std::uint8_t& row : rows[kind]) {
            row = no_row;
        }
        for (std::size_t i = 0; i < std::size(table); ++i) {
            const bool common =
                table[i].block == unknown && (table[i].key != Key::sold || is_bought[kind]);
            if (static_cast<std::size_t>(table[i].block) == kind || common) {
                rows[kind][static_cast<std::size_t>(table[i].key)] = static_cast<std::uint8_t>(i);
            }
        }
    }
    return rows;
}();

} // namespace

std::span<const PropertyInfo> all_properties() {
    return table;
}

std::span<const PropertyInfo> properties_of(BlockKind kind) {
    return rows_of(kind);
}

const PropertyInfo* find_property(BlockKind kind, Key key) {
    const std::uint8_t row =
        row_numbers[static_cast<std::size_t>(kind)][static_cast<std::size_t>(key)];
    return row == no_row ? nullptr : &table[row];
}

} // namespace waxwright
