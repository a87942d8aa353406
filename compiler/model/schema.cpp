#include "model/schema.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "units/unit.hpp"

namespace waxwright {

namespace {

constexpr std::array kind_words = {
#define KIND(identifier, text, article, bought) std::string_view(text),
#include "model/kinds.def"
#undef KIND
};
constexpr std::array kind_articles = {
#define KIND(identifier, text, article, bought) std::string_view(article),
#include "model/kinds.def"
#undef KIND
    std::string_view("a block")};
constexpr Bought kinds_bought[] = {
#define KIND(identifier, text, article, bought) Bought::bought,
#include "model/kinds.def"
#undef KIND
    Bought::never};

constexpr std::array key_words = {
#define KEY(identifier, text) std::string_view(text),
#include "model/keys.def"
#undef KEY
};
static_assert(std::is_sorted(key_words.begin(), key_words.end()), "keys.def is sorted");

constexpr std::array choice_words = {
    std::string_view(),
#define CHOICE(identifier, text) std::string_view(text),
#include "model/choices.def"
#undef CHOICE
};
static_assert(std::is_sorted(choice_words.begin(), choice_words.end()), "choices.def is sorted");

constexpr ShapeInfo shapes[] = {
#define SHAPE(identifier, text, example) {text, example},
#include "model/shapes.def"
#undef SHAPE
};

using namespace trait;
constexpr Work no_hands{};
constexpr Work as_said{Work::Per::as_said, 0};
constexpr Work each(double seconds) {
    return {Work::Per::vessel, seconds};
}
constexpr Work once(double seconds) {
    return {Work::Per::filling, seconds};
}
constexpr VerbInfo verbs[] = {
#define VERB(identifier, words, slug, argument, traits, rank, work, example, doc, sentence, brief) \
    {Verb::identifier, words, slug, Argument::argument, traits, Rank::rank, work, example, doc,    \
     sentence,         brief},
#include "model/verbs.def"
#undef VERB
};

/// The language's own words (units, kinds and verbs are reserved besides).
constexpr std::array<std::string_view, 26> own_words = {
    "language", "use",  "let",   "like",   "currency", "allow", "because", "steps", "rest",
    "at",       "to",   "of",    "per",    "for",      "by",    "off",     "over",  "with",
    "across",   "deep", "total", "second", "water",    "part",  "parts",   "volume"};

} // namespace

std::string_view word(BlockKind kind) {
    return kind == BlockKind::unknown ? "block" : kind_words[static_cast<std::size_t>(kind)];
}

std::string_view with_article(BlockKind kind) {
    return kind_articles[static_cast<std::size_t>(kind)];
}

Bought bought(BlockKind kind) {
    return kinds_bought[static_cast<std::size_t>(kind)];
}

BlockKind find_block_kind(std::string_view text) {
    const auto found = std::find(kind_words.begin(), kind_words.end(), text);
    return found == kind_words.end() ? BlockKind::unknown
                                     : static_cast<BlockKind>(found - kind_words.begin());
}

BlockKind block_kind_meant(std::string_view text) {
    struct Meant {
        BlockKind kind;
        std::string_view words; // each between two bars
    };
    using enum BlockKind;
    constexpr Meant meanings[] = {
        {vessel, "|tin|tins|jar|jars|glass|container|tumbler|cup|bowl|candle-jar|"},
        {extra, "|label|labels|box|lid|bag|packaging|"},
        {batch, "|market|market-day|day|event|fair|session|order|"},
        {recipe, "|candle|candles|formula|"},
        {oil, "|fragrance|scent|perfume|fragrance-oil|essential-oil|eo|fo|"},
        {leftover, "|scrap|scraps|end|ends|remelt|leftovers|offcuts|"},
        {additive, "|dye|colour|color|pigment|"},
        {pot, "|saucepan|pan|jug|pitcher|melter|boiler|"},
        {scale, "|scales|balance|"},
        {stock, "|inventory|stores|supplies|"},
        {test_burn, "|test|burn|burn-test|"},
        {maker, "|shop|business|studio|me|"},
    };
    const std::string barred = "|" + std::string(text) + "|";
    for (const Meant& each : meanings) {
        if (each.words.find(barred) != std::string_view::npos) return each.kind;
    }
    return unknown;
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

std::string_view word(Choice choice) {
    return choice_words[static_cast<std::size_t>(choice)];
}

Choice find_choice(std::string_view text) {
    const auto found = std::lower_bound(choice_words.begin(), choice_words.end(), text);
    if (found == choice_words.end() || *found != text) return Choice::unsaid;
    return static_cast<Choice>(found - choice_words.begin());
}

std::span<const VerbInfo> all_verbs() {
    return verbs;
}

const VerbInfo& info(Verb verb) {
    return verbs[static_cast<std::size_t>(verb)];
}

const ShapeInfo& info(Shape shape) {
    return shapes[static_cast<std::size_t>(shape)];
}

std::string_view examples_of(const PropertyInfo& property) {
    return property.example.empty() ? info(property.shape).example : property.example;
}

std::span<const std::string_view> language_words() {
    return own_words;
}

bool is_reserved(std::string_view text) {
    if (std::find(kind_words.begin(), kind_words.end(), text) != kind_words.end()) return true;
    if (std::find(own_words.begin(), own_words.end(), text) != own_words.end()) return true;
    for (const VerbInfo& verb : verbs) {
        if (verb.words.substr(0, verb.words.find(' ')) == text) return true;
    }
    return find_unit(text) != no_unit;
}

} // namespace waxwright
