#include "model/line_meant.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "model/phrases.hpp"
#include "model/step_meant.hpp"
#include "model/step_words.hpp"
#include "units/unit.hpp"

namespace waxwright {

namespace {

using Answer = std::optional<SlipAnswer>;

struct KeyWords {
    BlockKind in;
    std::optional<Key> key; // nothing where it is only said what to do
    std::string_view words;
    std::string_view asked;
};
constexpr KeyWords key_words[] = {
#define KEY_MEANT(kind, key, words, asked) {BlockKind::kind, Key::key, words, asked},
#define KEY_ASKS(kind, words, said) {BlockKind::kind, std::nullopt, words, said},
#include "model/key_words.def"
};

/// True if each word of the key, whatever stands between them, is one of the words, and not all of
/// them are small ones.
bool are_among(std::string_view key, std::string_view words) {
    const std::string all = fmt::format(" {} ", words);
    constexpr std::string_view small_words = " a an the at of to in for is on by with it up made ";
    bool any = false;
    while (!key.empty()) {
        const std::size_t end = std::min(key.find_first_of(" \t-_/"), key.size());
        const std::string_view word = key.substr(0, end);
        key.remove_prefix(std::min(end + 1, key.size()));
        if (word.empty()) continue;
        if (all.find(fmt::format(" {} ", word)) == std::string::npos) return false;
        any = any || small_words.find(fmt::format(" {} ", word)) == std::string_view::npos;
    }
    return any;
}

SlipAnswer is_it(std::string line) {
    return {fmt::format("is it this? write `{}`", line), line};
}

/// `6 tin-8oz` of `6 tins`, where the file has a `tin`; empty where it says no vessel of the file.
std::string counted_vessel(std::string_view value, const Declared& declared) {
    const NumberBegun number = number_that_begins(value);
    if (number.length == 0) return {};
    std::string name = joined_by_hyphens(value.substr(number.length));
    if (declared.find(name) == declared.end() && name.ends_with('s')) name.pop_back();
    const auto found = declared.find(name);
    if (found == declared.end() || found->second != BlockKind::vessel) return {};
    return fmt::format("{} {}", number.number, name);
}

/// The vessel that is asked about, with what is known of it: `8 candles` is 8 of which?
Answer makes_meant(std::string_view value, std::string_view asked, const Declared& declared) {
    if (std::string counted = counted_vessel(value, declared); !counted.empty())
        return is_it("makes: " + counted);
    const NumberBegun number = number_that_begins(value);
    const std::string_view name = trimmed(value.substr(number.length));
    if (number.length > 0 && is_kebab(name) && name.find('-') != std::string_view::npos)
        return is_it(fmt::format("makes: {} {}", number.number, name));
    if (number.length > 0 && (name.empty() || is_kebab(name))) {
        return SlipAnswer{fmt::format("of which vessel? write `makes: {} jam-jar`, with a `vessel` "
                                      "block for it",
                                      number.number)};
    }
    const auto found = declared.find(value);
    if (found != declared.end() && found->second == BlockKind::vessel)
        return SlipAnswer{fmt::format("how many of it? write `makes: 6 {}`", value)};
    return SlipAnswer{std::string(asked)};
}

/// `6% by weight`, `6-8% of wax`, `6% of total weight`: the share and its basis.
Answer load_meant(std::string_view value) {
    const StepWords words = step_words(value);
    if (words.shares.size() != 1 || !words.times.empty()) return std::nullopt;
    std::string lower(value);
    std::transform(lower.begin(), lower.end(), lower.begin(), small);
    const auto has = [&](std::initializer_list<std::string_view> any) {
        return std::any_of(any.begin(), any.end(), [&](std::string_view word) {
            return lower.find(word) != std::string::npos;
        });
    };
    const bool total = has({"total", "whole", "finished", "candle", "mixture", "everything"});
    const bool wax = has({"wax"});
    const std::string& share = words.shares.front();
    const std::string_view range = words.range ? "of a range write one figure; " : "";
    if (wax != total) {
        std::string line = fmt::format("load: {} of {}", share, wax ? "wax" : "total");
        return SlipAnswer{fmt::format("{}write `{}`", range, line), line};
    }
    return SlipAnswer{
        fmt::format("{}of what? write `load: {} of wax`, or `load: {} of total`", range, share,
                    share),
        {},
        false,
        {fmt::format("load: {} of wax", share), fmt::format("load: {} of total", share)}};
}

bool has_figure(std::string_view value) {
    return value.find_first_of("0123456789") != std::string_view::npos;
}

/// A blend's line; of one name with a figure, how much it is belongs elsewhere.
Answer blend_line(std::string_view key, std::string_view value) {
    const std::string_view unsaid = key == "scent" ? "… parts" : "…%";
    const std::string blend = blend_meant(value, unsaid);
    if (blend.empty()) return std::nullopt;
    std::string line = fmt::format("{}: {}", key, blend);
    if (blend.find("…") != std::string::npos)
        return SlipAnswer{fmt::format("how much of each? write `{}`", line)};
    if (is_kebab(blend) && has_figure(value)) {
        return SlipAnswer{
            key == "scent"
                ? fmt::format("which scent, is `{}`; how much, is its `load: 6% of wax`", line)
                : fmt::format("write `{}`: how much is worked out from the vessels", line),
            line};
    }
    if (line.ends_with("by volume"))
        return SlipAnswer{fmt::format("by volume that is `{}`; weighed is better", line), line};
    const bool weights = !step_words(value).amounts.empty();
    if (weights)
        return SlipAnswer{fmt::format("for so much of each, write as many parts: `{}`", line),
                          line};
    return is_it(line);
}

Answer text_line(std::string_view key, std::string_view value) {
    if (value.find_first_of("\"\\") != std::string_view::npos) return std::nullopt;
    return is_it(fmt::format("{}: \"{}\"", key, value));
}

/// `smell: strong` as a note keeps what it speaks of; `note: hurry` doesn't need to.
std::string own_text(std::string_view name, std::string_view said, std::string_view value) {
    constexpr std::size_t enough = 4;
    if (said.starts_with(name.substr(0, enough)) || name == "title" || name == "lot" ||
        said.starts_with("desc"))
        return std::string(value);
    const bool its_own = name != "notes" && name != "about"; // `supplier: x` is the source
    return its_own ? std::string(value) : fmt::format("{}: {}", said, value);
}

Answer date_meant(std::string_view name, std::string_view value) {
    const DatesMeant meant = dates_meant(value);
    if (meant.dates.size() != 1) return std::nullopt;
    return is_it(fmt::format("{}: {}", name, meant.dates.front()));
}

/// What a certificate's limit is of, and a density's unit, where only the figure is given.
std::string_view what_lacks(Key key, std::string_view value) {
    const bool of_total = key == Key::ifra_cat_12 || key == Key::limit;
    if (of_total && value.ends_with('%')) return " of total";
    if (key == Key::max_load && value.ends_with('%')) return " of wax";
    const bool bare = is_digit(value.back());
    if ((key == Key::density || key == Key::liquid_density) && bare) return " g/ml";
    return "";
}

/// `50-54 °C` of a property that takes a range.
Answer range_meant(const PropertyInfo& property, std::string_view value) {
    const std::size_t hyphen = value.find('-');
    const bool between = hyphen != std::string_view::npos && hyphen > 0 &&
                         hyphen + 1 < value.size() && is_digit(value[hyphen - 1]) &&
                         is_digit(value[hyphen + 1]);
    if (!between || property.shape != Shape::range) return std::nullopt;
    return is_it(neat_line(fmt::format("{}: {} to {}", word(property.key), value.substr(0, hyphen),
                                       value.substr(hyphen + 1))));
}

/// Of a vessel's water, or of what it holds in a unit that is none of volume.
Answer brimful_meant(std::string_view key, std::string_view value, std::string_view asked) {
    const StepWords words = step_words(value);
    if (words.amounts.size() != 1) return SlipAnswer{std::string(asked)};
    const std::string& amount = words.amounts.front();
    const UnitId unit = find_unit(amount.substr(amount.find(' ') + 1));
    const bool weight = unit != no_unit && waxwright::unit(unit).dimension == dimension::mass;
    const bool water = fmt::format("{} {}", key, value).find("water") != std::string::npos;
    if (!weight) return is_it("brimful: " + amount);
    return water ? is_it(fmt::format("brimful: {} of water", amount))
                 : SlipAnswer{std::string(asked)};
}

/// The line with this key; what is asked where the value doesn't fit it.
Answer value_meant(Key key, std::string_view said, std::string_view value, std::string_view asked,
                   const BookLine& book) {
    const std::string_view name = word(key);
    const PropertyInfo* property = find_property(book.block.kind, key);
    Answer answer;
    if (value.empty() || property == nullptr) return SlipAnswer{std::string(asked)};
    if (key == Key::makes) return makes_meant(value, asked, book.declared);
    if (key == Key::brimful) return brimful_meant(said, value, asked);
    if (key == Key::load) answer = load_meant(value);
    if (key == Key::wax || key == Key::scent || key == Key::additives)
        answer = blend_line(name, value);
    if (key == Key::starts || key == Key::on) answer = date_meant(name, value);
    if (property->shape == Shape::text) answer = text_line(name, own_text(name, said, value));
    const bool figure = property->dimension != dimension::count && is_digit(value.front());
    const bool choice =
        fmt::format(" {} ", property->words).find(fmt::format(" {} ", value)) != std::string::npos;
    if (!answer && (figure || choice || key == Key::wick))
        answer = is_it(neat_line(fmt::format("{}: {}{}", name, value, what_lacks(key, value))));
    return answer ? answer : SlipAnswer{std::string(asked)};
}

/// `one cotton-braid-large`
Answer wicks_meant(std::string_view value) {
    const NumberBegun number = number_that_begins(value);
    const std::string_view name = trimmed(value.substr(number.length));
    if (number.length == 0 || is_digit(value.front()) || !is_kebab(name)) return std::nullopt;
    return is_it(fmt::format("wick: {} {}", number.number, name));
}

/// `melt: 75 °C`, `cure time: 2 weeks`: a step that stands outside of them.
Answer step_outside(std::string_view key, std::string_view value) {
    const StepWords words = step_words(value);
    const bool measured = words.temperatures.size() + words.times.size() + words.lengths.size() > 0;
    const auto meant = step_meant(fmt::format("{} {}", key, value), StepsAbove{});
    if (!meant || meant->line.empty() || !measured || !words.others.empty()) return std::nullopt;
    return SlipAnswer{fmt::format("that is a step: write `{}` inside `steps {{`", meant->line)};
}

} // namespace

namespace {

/// `4 x fete` in a batch; `have soy 5 kg` and `5kg of soy` in a stock.
Answer thing_meant(const BookLine& book) {
    std::string_view line = book.line;
    const bool stock = book.block.kind == BlockKind::stock;
    for (const std::string_view verb : {"have ", "pour ", "make "})
        if (line.starts_with(verb)) line = trimmed(line.substr(verb.size()));
    const StepWords words = step_words(line);
    if (stock && words.amounts.size() == 1 && words.numbers.empty()) {
        std::string_view name = line; // without its figure and without words in between
        while (!name.empty() && is_digit(name.front()))
            name = trimmed(name.substr(std::min(name.find(' '), name.size())));
        const std::size_t digit = name.find_first_of("0123456789");
        if (digit != std::string_view::npos && digit > 0 && name[digit - 1] == ' ')
            name = trimmed(name.substr(0, digit));
        const std::size_t of = name.rfind("of ");
        if (of != std::string_view::npos) name = name.substr(of + 3);
        if (!is_kebab(name) || find_unit(name) != no_unit) return std::nullopt;
        return is_it(fmt::format("have {} {}", words.amounts.front(), name));
    }
    const NumberBegun number = number_that_begins(line);
    std::string_view name = trimmed(line.substr(number.length));
    for (const std::string_view joint : {"x ", "× ", "of "})
        if (name.starts_with(joint)) name = trimmed(name.substr(joint.size()));
    if (number.length == 0 || !is_kebab(name) || stock) return std::nullopt;
    return is_it(fmt::format("pour {} {}", number.number, name));
}

/// A line's key in small letters, and its value: before and behind the colon, or, without one, the
/// first figure. The key is empty where there is neither.
struct KeyAndValue {
    std::string key{};
    std::string_view value{};
};
KeyAndValue key_and_value(std::string_view line) {
    const std::size_t colon = line.find(':');
    const bool bare = colon == std::string_view::npos;
    const std::size_t end = bare ? line.find_first_of("0123456789") : colon;
    if (end == std::string_view::npos || end == 0) return {};
    std::string key(trimmed(line.substr(0, end)));
    std::transform(key.begin(), key.end(), key.begin(), small);
    return {std::move(key), trimmed(line.substr(bare ? end : colon + 1))};
}

} // namespace

Answer line_meant(const BookLine& book) {
    const BlockKind kind = book.block.kind;
    const bool things = kind == BlockKind::stock || kind == BlockKind::batch;
    const bool colon = book.line.find(':') != std::string_view::npos;
    if (things && !colon) {
        Answer answer = thing_meant(book);
        if (answer) return answer->line == squeezed(book.line) ? std::nullopt : answer;
    }
    const auto [key, value] = key_and_value(book.line);
    if (key.empty() || book.line.find_first_of("{}") != std::string_view::npos) return std::nullopt;
    const std::optional<Key> known = find_key(key);
    if (known && find_property(book.block.kind, *known) != nullptr) {
        Answer answer = key == "load"                    ? load_meant(value)
                        : key == "wick"                  ? wicks_meant(value)
                        : key == "wax" || key == "scent" ? blend_line(key, value)
                                                         : std::nullopt;
        const PropertyInfo& property = *find_property(kind, *known);
        if (!answer) answer = range_meant(property, value);
        const bool words = property.shape == Shape::text && value.find(' ') != std::string::npos;
        if (!answer && words) answer = text_line(key, value);
        return answer && answer->line != squeezed(book.line) ? answer : std::nullopt;
    }
    for (const KeyWords& each : key_words) {
        if (each.in != book.block.kind || !are_among(key, each.words)) continue;
        const bool scent_load = each.key == Key::load && !has_figure(value);
        const PropertyInfo* property = each.key ? find_property(kind, *each.key) : nullptr;
        const bool degrees = property != nullptr && (property->dimension == dimension::point);
        if (scent_load) continue;                      // `fragrance oil: lavender`
        if (degrees && value.ends_with('%')) continue; // `max: 4%` is no temperature
        return each.key ? value_meant(*each.key, key, value, each.asked, book)
                        : SlipAnswer{std::string(each.asked)};
    }
    return book.block.kind == BlockKind::recipe ? step_outside(key, value) : std::nullopt;
}

} // namespace waxwright
