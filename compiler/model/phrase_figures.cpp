// Answers to lines whose figures are written in a way that the language has another for: `60° C`,
// `70 - 75 °C`, `about 250 ml`, `1 night`; and to words that stand round a step.
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "model/line_fault.hpp"
#include "model/market.hpp"
#include "model/phrase_slips.hpp"
#include "model/step_meant.hpp"
#include "units/unit.hpp"

namespace waxwright {

namespace {

using Answer = std::optional<SlipAnswer>;

SlipAnswer written(std::string line, bool certain) {
    return {fmt::format("write `{}`", line), line, certain};
}

/// What people write behind a number for a thermometer's degrees, in small letters.
struct DegreeWord {
    std::string_view word;
    std::string_view sign;
};
constexpr DegreeWord degree_words[] = {
    {"° c", "°C"},
    {"° f", "°F"},
    {"º c", "°C"},
    {"º f", "°F"},
    {"degrees celcius", "°C"},
    {"celcius", "°C"},
    {"degrees celsuis", "°C"},
    {"celsuis", "°C"},
    {"degrees farenheit", "°F"},
    {"farenheit", "°F"},
    {"degrees fahrenheight", "°F"},
    {"fahrenheight", "°F"},
};

/// `pour at 60° C`, `pour at 60 celcius`.
Answer degrees_in_words(const BookLine& book) {
    if (book.line.find('"') != std::string_view::npos) return std::nullopt;
    std::string line;
    bool any = false;
    for (std::size_t i = 0; i < book.line.size();) {
        line += book.line[i++];
        if (!is_digit(line.back())) continue;
        const std::string_view rest = trimmed(book.line.substr(i));
        const auto begins = [&](const DegreeWord& each) {
            const std::size_t length = each.word.size();
            return rest.size() >= length && (rest.size() == length || !is_letter(rest[length])) &&
                   std::equal(each.word.begin(), each.word.end(), rest.begin(),
                              [](char a, char b) { return a == small(b); });
        };
        const auto* const found =
            std::find_if(std::begin(degree_words), std::end(degree_words), begins);
        if (found == std::end(degree_words)) continue;
        line += fmt::format(" {}", found->sign);
        i = static_cast<std::size_t>(rest.data() - book.line.data()) + found->word.size();
        any = true;
    }
    if (!any) return std::nullopt;
    return written(std::move(line), true);
}

/// `1. melt to 75 °C`: a list's number before a step.
Answer numbered_step(const BookLine& book) {
    const std::size_t end = book.line.find_first_not_of("0123456789");
    if (end == 0 || end == std::string_view::npos || end > 2) return std::nullopt;
    const bool sign = book.line[end] == '.' || book.line[end] == ')';
    const std::string_view rest = trimmed(book.line.substr(end + 1));
    if (!sign || rest.empty() || !is_letter(rest.front()) ||
        !steps_above(book.text, book.at.begin).has_value()) {
        return std::nullopt;
    }
    return SlipAnswer{fmt::format("steps have no numbers: write `{}`", rest), std::string(rest),
                      true};
}

/// `leave 1 night`: a night has no length of its own.
Answer nights(const BookLine& book) {
    const std::size_t at = book.line.find(" night");
    if (at == std::string_view::npos || !steps_above(book.text, book.at.begin).has_value())
        return std::nullopt;
    const std::string_view behind = book.line.substr(at + 6);
    std::string_view before = book.line.substr(0, at);
    const std::size_t digits = before.find_first_of("0123456789");
    const bool plain = digits != std::string_view::npos && digits > 0 &&
                       before.find_first_not_of("0123456789", digits) == std::string_view::npos;
    if (!plain || !(behind.empty() || behind == "s")) return std::nullopt;
    const bool one = before.substr(digits) == "1";
    const std::string length = one ? "12 h" : fmt::format("{} days", before.substr(digits));
    std::string line = fmt::format("{}{}", before.substr(0, digits), length);
    return SlipAnswer{fmt::format("how long is that at least? write `{}`, for example", line),
                      line};
}

/// `add 0.5 g blue dye at 80 °C`: a dye is no scent.
Answer dye_step(const BookLine& book) {
    std::string_view line = book.line;
    if (!line.starts_with("add ") || !steps_above(book.text, book.at.begin).has_value())
        return std::nullopt;
    const std::size_t at = line.find(" at ");
    std::string_view thing = trimmed(line.substr(4, at == std::string_view::npos ? at : at - 4));
    bool dye = false;
    for (const std::string_view word : {"dye", "colour", "color", "colourant", "colorant", "mica"})
        dye = dye || thing == word || thing.ends_with(fmt::format(" {}", word));
    if (!dye) return std::nullopt;
    const std::size_t letter =
        thing.find_first_of("0123456789") == 0 ? thing.find(' ') : std::string_view::npos;
    if (letter != std::string_view::npos) { // `0.5 g of blue dye`
        thing = trimmed(thing.substr(letter));
        const std::string_view unit = thing.substr(0, thing.find(' '));
        if (find_unit(unit) != no_unit) thing = trimmed(thing.substr(unit.size()));
        if (thing.starts_with("of ")) thing = trimmed(thing.substr(3));
    }
    std::string name = joined_by_hyphens(thing);
    if (!is_kebab(name)) name = "my-dye";
    if (kind_of_name(book, name) == BlockKind::unknown && name == "dye") name = "my-dye";
    const std::string_view heat = at == std::string_view::npos ? " at … °C" : line.substr(at);
    return SlipAnswer{
        fmt::format("a dye is an additive, and how much of it is a share of the wax: above the "
                    "steps `additives: 0.1% {0}`, a block `additive {0} {{`, and here `add {0}{1}`",
                    name, heat)};
}

/// `scent-at: 70 - 75 °C` of a property that takes a range.
Answer range_of(const PropertyInfo& property, std::string_view key, std::string_view value) {
    if (property.shape != Shape::range) return std::nullopt;
    for (const std::string_view joint : {" - ", " – ", "–", "-"}) {
        const std::size_t at = value.find(joint);
        if (at == std::string_view::npos || at == 0) continue;
        const std::string_view low = trimmed(value.substr(0, at));
        const std::string_view high = trimmed(value.substr(at + joint.size()));
        const bool number = low.find_first_not_of("0123456789.") == std::string_view::npos;
        if (high.empty() || low.empty() || !number || !is_digit(high.front())) return std::nullopt;
        return written(neat_line(fmt::format("{}: {} to {}", key, low, high)), joint != "-");
    }
    return std::nullopt;
}

/// `inside: 2 1/2 in across 3 1/4 in deep`: the comma between.
Answer comma_of_inside(std::string_view key, std::string_view value) {
    constexpr std::string_view across = " across ";
    const std::size_t at = value.find(across);
    if (key != "inside" || at == std::string_view::npos || !value.ends_with(" deep"))
        return std::nullopt;
    std::string_view deep = trimmed(value.substr(at + across.size()));
    if (deep.starts_with("and ")) deep = trimmed(deep.substr(4));
    if (deep.empty() || !is_digit(deep.front())) return std::nullopt;
    return written(neat_line(fmt::format("{}: {} across, {}", key, value.substr(0, at), deep)),
                   true);
}

/// `brimful: about 250 ml`
Answer about_figure(std::string_view key, std::string_view value) {
    for (const std::string_view word : {"about ", "around ", "roughly ", "approximately ",
                                        "approx. ", "approx ", "ca. ", "ca ", "circa ", "~"}) {
        if (!value.starts_with(word)) continue;
        const std::string_view figure = trimmed(value.substr(word.size()));
        if (figure.empty() || !is_digit(figure.front())) return std::nullopt;
        std::string line = neat_line(fmt::format("{}: {}", key, figure));
        return SlipAnswer{fmt::format("write the figure alone, `{}`; how far it may be off goes "
                                      "behind it, as `+- 5%`",
                                      line),
                          line};
    }
    return std::nullopt;
}

/// `holds 8 fluid ounces to the brim` in a vessel, with or without a colon.
Answer holds_to_brim(const BookLine& book) {
    std::string_view line = book.line;
    if (book.block.kind != BlockKind::vessel || !line.starts_with("holds")) return std::nullopt;
    line = trimmed(line.substr(5));
    if (line.starts_with(":")) line = trimmed(line.substr(1));
    for (const std::string_view end : {" to the brim", " to the rim", " brimful", " full"}) {
        if (!line.ends_with(end)) continue;
        const std::string figure = neat_line(trimmed(line.substr(0, line.size() - end.size())));
        std::string better = fmt::format("brimful: {}", figure);
        if (!is_digit(figure.front()) || fault_of_line(better, book)) return std::nullopt;
        return written(std::move(better), false);
    }
    return std::nullopt;
}

/// `weighs to 1 g` of a scale is the least that it shows.
Answer scale_reads(const BookLine& book) {
    if (book.block.kind != BlockKind::scale) return std::nullopt;
    for (const std::string_view words : {"weighs to ", "accurate to ", "weighs in ", "shows "}) {
        if (!book.line.starts_with(words)) continue;
        const std::string_view figure = trimmed(book.line.substr(words.size()));
        if (figure.empty() || !is_digit(figure.front())) return std::nullopt;
        return written(neat_line(fmt::format("reads: {}", figure)), false);
    }
    return std::nullopt;
}

/// `country: Switzerland` of a maker: a label is for a market.
Answer country(std::string_view key, std::string_view value) {
    if (key != "country" && key != "market" && key != "sells-in") return std::nullopt;
    constexpr std::string_view of_union = // its member states, from memory
        "|austria|belgium|bulgaria|croatia|cyprus|czechia|denmark|estonia|finland|france|germany|"
        "greece|hungary|ireland|italy|latvia|lithuania|luxembourg|malta|netherlands|"
        "the netherlands|poland|portugal|romania|slovakia|slovenia|spain|sweden|";
    std::string lower(trimmed(value));
    std::transform(lower.begin(), lower.end(), lower.begin(), small);
    if (lower.empty() || lower.find_first_of("|,\"") != std::string::npos) return std::nullopt;
    std::optional<Market> market = market_meant(joined_by_hyphens(lower));
    if (of_union.find(fmt::format("|{}|", lower)) != std::string_view::npos) market = Market::eu;
    std::vector<std::string> all;
    for (const Market each : all_markets())
        all.push_back(fmt::format("`{}` ({})", word(each), name(each)));
    if (!market) {
        if (key == "sells-in") return std::nullopt;
        return SlipAnswer{fmt::format("where it is sold is its `sells-in`: {}; there is no label "
                                      "for other countries",
                                      fmt::join(all, ", "))};
    }
    std::string line = fmt::format("sells-in: {}", word(*market));
    return SlipAnswer{fmt::format("is that where it is sold? write `{}`", line), line};
}

Answer of_property(const BookLine& book) {
    const std::size_t colon = book.line.find(':');
    if (colon == std::string_view::npos) return std::nullopt;
    const std::string key = joined_by_hyphens(book.line.substr(0, colon));
    const std::string_view value = trimmed(book.line.substr(colon + 1));
    if (value.empty() || value.front() == '"') return std::nullopt;
    if (book.block.kind == BlockKind::maker) return country(key, value);
    const std::optional<Key> found = find_key(key);
    const PropertyInfo* property = found ? find_property(book.block.kind, *found) : nullptr;
    if (property == nullptr) return std::nullopt;
    if (Answer answer = range_of(*property, key, value)) return answer;
    if (Answer answer = comma_of_inside(key, value)) return answer;
    return about_figure(key, value);
}

} // namespace

std::optional<SlipAnswer> figure_answer(const BookLine& book) {
    constexpr std::array answers{degrees_in_words, numbered_step, nights,     dye_step,
                                 scale_reads,      holds_to_brim, of_property};
    for (const auto& each : answers) {
        if (Answer answer = each(book)) return answer;
    }
    return std::nullopt;
}

} // namespace waxwright
