// Where a figure begins: what it looks like. Its numbers are places to fill in.
#include <algorithm>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"
#include "model/phrase_text.hpp"

namespace waxwright {

namespace {

constexpr std::string_view hole = "…";

/// What a file in pounds and inches has for a unit of the examples.
struct OtherUnit {
    std::string_view metric, us;
};
constexpr OtherUnit other_units[] = {
    {"g", "oz"},  {"kg", "lb"},    {"ml", "fl oz"}, {"l", "quarts"}, {"mm", "in"},
    {"cm", "in"}, {"g/h", "oz/h"}, {"C°", "F°"},    {"°C", "°F"},    {"g/ml", "lb/gallon"}};

std::size_t number_length(std::string_view text) {
    return std::min(text.find_first_not_of("0123456789./"), text.size());
}

/// With `…` for each of its numbers.
std::string with_holes(std::string_view example) {
    std::string out;
    while (!example.empty()) {
        const std::size_t length = is_digit(example[0]) ? number_length(example) : 0;
        out += length > 0 ? hole : example.substr(0, 1);
        example.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return out;
}

/// With the units of a file in pounds and inches, and no numbers: those would be other ones.
std::string in_us_units(std::string_view example) {
    const std::string holes = with_holes(example);
    std::string out;
    for (std::size_t at = 0; at < holes.size();) {
        const std::size_t end = std::min(holes.find_first_of(" ,", at), holes.size());
        const std::string_view word = std::string_view(holes).substr(at, end - at);
        const auto* const other = std::ranges::find(other_units, word, &OtherUnit::metric);
        out += other == std::end(other_units) ? word : other->us;
        if (end < holes.size()) out += holes[end];
        at = end + 1;
    }
    return out == holes ? std::string(example) : out;
}

/// A supplier says these, or they were seen at a burn: no number of ours may slip into the file.
bool is_measured_elsewhere(BlockKind kind) {
    return is_matter(kind) || kind == BlockKind::substance || kind == BlockKind::wick ||
           kind == BlockKind::test_burn;
}

/// `$41.50`, `€41.50`, `41.50 CHF`; `dollar` is what `$` stands for in the file.
std::string in_sign_or_code(std::string_view amount, std::string_view code,
                            std::string_view dollar) {
    if (code == "EUR") return fmt::format("€{}", amount);
    if (code == "GBP") return fmt::format("£{}", amount);
    return code == dollar ? fmt::format("${}", amount) : fmt::format("{} {}", amount, code);
}

/// In the money that the file's prices are in.
std::string in_money_of(const Completing& c, std::string_view example) {
    constexpr std::string_view signs[] = {"£", "$"}; // that the table's examples have
    constexpr std::string_view dollars = "USD";      // and their code
    const std::string_view dollar =
        code_of(c.asked.look().notebook.loaded.files[c.asked.file].dollar);
    const std::string_view shown = currency_shown(c.text());
    const std::string_view here = shown.empty() ? dollar : shown;
    std::string out(example);
    for (const std::string_view sign : signs) {
        for (std::size_t at = out.find(sign); at != std::string::npos;) {
            const std::size_t length =
                number_length(std::string_view(out).substr(at + sign.size()));
            const std::string amount =
                in_sign_or_code(out.substr(at + sign.size(), length), here, dollar);
            out.replace(at, sign.size() + length, amount);
            at = out.find(sign, at + amount.size());
        }
    }
    if (const std::size_t at = out.find(dollars); at != std::string::npos) {
        out.replace(at, dollars.size(), here);
    }
    return out;
}

std::string as_this_file_has_it(const Completing& c, const PropertyInfo& info,
                                std::string_view example) {
    const std::string money = in_money_of(c, example);
    const std::string shown = is_in_us_units(c.asked) ? in_us_units(money) : money;
    const bool own = info.shape == Shape::packs || info.shape == Shape::date;
    return is_measured_elsewhere(c.place.kind) && !own ? with_holes(shown) : shown;
}

} // namespace

void add_example(Completing& c, Group group, std::string_view example, std::string_view words) {
    const bool holes = example.find(hole) != std::string_view::npos;
    std::string text;
    if (c.snippets()) {
        text = holes ? with_places(example, true) : example_with_places(example, true);
    } else {
        text = holes ? with_places(example, false) : std::string(example);
    }
    if (text.empty()) return; // begins with a number that only the maker knows
    c.add(group, {.label = std::string(example),
                  .kind = ProposalKind::value,
                  .detail = std::string(words),
                  .text = std::move(text),
                  .snippet = true});
}

void add_examples(Completing& c, const PropertyInfo& info) {
    const auto add = [&](std::string_view example) {
        add_example(c, Group::first, as_this_file_has_it(c, info, example),
                    "for example; put your own figure");
    };
    std::string_view all = examples_of(info);
    if (info.shape == Shape::packs) {
        // The table's own is two packs of things by the piece.
        if (is_matter(c.place.kind)) return add("5 kg for $38.00");
        add(all.substr(0, all.find(", ")));
    }
    const bool us = is_in_us_units(c.asked);
    while (!all.empty()) {
        const std::size_t end = std::min(all.find("; "), all.size());
        // A load has one of either system.
        const bool other = all.substr(0, end).find(us ? " per kg" : " per lb") != all.npos;
        if (info.shape != Shape::load || !other) add(all.substr(0, end));
        all.remove_prefix(std::min(end + 2, all.size()));
    }
}

} // namespace waxwright
