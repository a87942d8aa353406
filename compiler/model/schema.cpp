#include "model/schema.hpp"

#include <algorithm>
#include <array>

#include "units/unit.hpp"

namespace waxwright {

namespace {

constexpr std::array<std::string_view, 14> kind_words = {
    "wax",   "oil",   "substance", "additive", "vessel", "wick",      "pot",
    "scale", "extra", "recipe",    "batch",    "stock",  "test-burn", "maker"};

constexpr std::array key_words = {
#define KEY(identifier, text) std::string_view(text),
#include "model/keys.def"
#undef KEY
};
static_assert(std::is_sorted(key_words.begin(), key_words.end()), "keys.def is sorted");

// clang-format off
constexpr VerbInfo verbs[] = {
    {Verb::wipe_vessels, "wipe vessels", "wipe-vessels", Argument::none, "wipe vessels", "clean and dry them"},
    {Verb::set_wick, "set wick", "set-wick", Argument::none, "set wick", "fix the wicks upright in the middle"},
    {Verb::warm_vessels, "warm vessels", "warm-vessels", Argument::to_temperature, "warm vessels to 40 °C", "before hot wax goes into cold glass"},
    {Verb::melt, "melt", "melt", Argument::to_temperature, "melt to 75 °C", "melt the wax and go on to a temperature"},
    {Verb::hold, "hold", "hold", Argument::duration, "hold 10 min", "keep it as it is"},
    {Verb::off_heat, "off heat", "off-heat", Argument::none, "off heat", "take the pot off the heat"},
    {Verb::add, "add", "add", Argument::name_at_temperature, "add scent at 70 °C, stir 2 min", "add the scent, or an additive by its name"},
    {Verb::stir, "stir", "stir", Argument::duration, "stir 2 min", "stir slowly; also behind an add: `, stir 2 min`"},
    {Verb::cool, "cool", "cool", Argument::to_temperature, "cool to 60 °C", "let it come down to a temperature"},
    {Verb::pour, "pour", "pour", Argument::at_temperature, "pour at 60 °C", "the first pour, or the only one"},
    {Verb::leave, "leave", "leave", Argument::duration, "leave 4 h", "let the vessels stand"},
    {Verb::poke_holes, "poke holes", "poke-holes", Argument::none, "poke holes", "open hollows round the wick before the second pour"},
    {Verb::second_pour, "second pour", "second-pour", Argument::at_temperature, "second pour at 62 °C", "fill what shrank with wax kept back"},
    {Verb::smooth_top, "smooth top", "smooth-top", Argument::none, "smooth top", "warm the surface till it is even"},
    {Verb::trim_wick, "trim wick", "trim-wick", Argument::to_length, "trim wick to 6 mm", "cut the wick to a length above the wax"},
    {Verb::lid, "lid", "lid", Argument::none, "lid", "put the lids on"},
    {Verb::label, "label", "label", Argument::none, "label", "put the labels on"},
    {Verb::cure, "cure", "cure", Argument::duration, "cure 14 days", "let it rest before it is burned"},
    {Verb::note, "note", "note", Argument::text, "note \"light the next pot\"", "a line of your own on the sheet"},
};
// clang-format on

/// The language's own words (units, kinds and verbs are reserved besides).
constexpr std::array<std::string_view, 25> language_words = {
    "language", "use",  "let",   "like",   "currency", "allow", "because", "steps", "rest",
    "at",       "to",   "of",    "per",    "for",      "by",    "off",     "over",  "with",
    "across",   "deep", "total", "second", "water",    "part",  "parts"};

} // namespace

std::string_view word(BlockKind kind) {
    return kind == BlockKind::unknown ? "block" : kind_words[static_cast<std::size_t>(kind)];
}

std::string_view with_article(BlockKind kind) {
    constexpr std::array<std::string_view, 15> texts = {
        "a wax",   "an oil",  "a substance", "an additive", "a vessel",
        "a wick",  "a pot",   "a scale",     "an extra",    "a recipe",
        "a batch", "a stock", "a test-burn", "a maker",     "a block"};
    return texts[static_cast<std::size_t>(kind)];
}

BlockKind find_block_kind(std::string_view text) {
    const auto found = std::find(kind_words.begin(), kind_words.end(), text);
    return found == kind_words.end() ? BlockKind::unknown
                                     : static_cast<BlockKind>(found - kind_words.begin());
}

std::span<const std::string_view> block_kind_words() {
    return kind_words;
}

std::string_view word(Key key) {
    return key_words[static_cast<std::size_t>(key)];
}

std::optional<Key> find_key(std::string_view text) {
    const auto found = std::lower_bound(key_words.begin(), key_words.end(), text);
    if (found == key_words.end() || *found != text) return std::nullopt;
    return static_cast<Key>(found - key_words.begin());
}

std::span<const VerbInfo> all_verbs() {
    return verbs;
}

const VerbInfo& info(Verb verb) {
    return verbs[static_cast<std::size_t>(verb)];
}

bool is_reserved(std::string_view text) {
    if (text == "volume") return true;
    if (std::find(kind_words.begin(), kind_words.end(), text) != kind_words.end()) return true;
    if (std::find(language_words.begin(), language_words.end(), text) != language_words.end()) {
        return true;
    }
    for (const VerbInfo& verb : verbs) {
        if (verb.words.substr(0, verb.words.find(' ')) == text) return true;
    }
    return find_unit(text) != no_unit;
}

} // namespace waxwright
