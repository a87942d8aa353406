// Answers to lines with a number of things: in a stock, in a batch, at a wick.
#include <algorithm>
#include <array>
#include <charconv>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/phrase_slips.hpp"
#include "units/unit.hpp"

namespace waxwright {

namespace {

using Answer = std::optional<SlipAnswer>;

/// The first word of a text, which is cut from it with the blanks behind it.
std::string_view cut_word(std::string_view& text) {
    const std::size_t end = std::min(text.find_first_of(" \t"), text.size());
    const std::string_view word = text.substr(0, end);
    text = trimmed(text.substr(end));
    return word;
}

bool is_number(std::string_view text) {
    return !text.empty() && is_digit(text.front()) && is_digit(text.back()) &&
           text.find_first_not_of("0123456789.") == std::string_view::npos;
}
bool is_whole(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

/// `24` or `5 kg`, cut from the text's beginning; empty, and nothing cut, where it has none.
std::string cut_amount(std::string_view& text) {
    std::string_view rest = text;
    const std::string amount = spaced(cut_word(rest));
    std::string_view behind = amount; // of `5kg`
    const std::string_view number = cut_word(behind);
    if (!is_number(number) || (!behind.empty() && find_unit(behind) == no_unit)) return {};
    std::string_view next = rest;
    const std::string_view unit = cut_word(next);
    text = rest;
    if (!behind.empty() || find_unit(unit) == no_unit) return std::string(amount);
    text = next;
    return fmt::format("{} {}", amount, unit);
}

BlockKind kind_here(const BookLine& book, std::string_view name) {
    const auto found = book.declared.find(name);
    return found == book.declared.end() ? BlockKind::unknown : found->second;
}

/// `24 marsh-jar`, `our-soy: 5 kg` in a stock.
Answer stock_without_have(const BookLine& book) {
    std::string_view rest = book.line;
    if (book.block.kind != BlockKind::stock || rest.starts_with("have")) return std::nullopt;
    std::string amount = cut_amount(rest);
    std::string_view name = cut_word(rest);
    bool certain = true;
    if (amount.empty()) { // the name goes first
        if (name.ends_with(':')) name.remove_suffix(1);
        if (rest.starts_with("= ") || rest.starts_with(": ")) rest = trimmed(rest.substr(1));
        amount = cut_amount(rest);
        certain = kind_here(book, name) != BlockKind::unknown;
        if (find_key(name)) return std::nullopt;
    }
    const bool lot = rest.empty() || rest.starts_with("lot \"");
    if (amount.empty() || !is_kebab(name) || is_reserved(name) || !lot) return std::nullopt;
    if (bought(kind_here(book, name)) == Bought::never && certain)
        certain = kind_here(book, name) == BlockKind::unknown;
    std::string line = fmt::format("have {} {}", amount, name);
    if (!rest.empty()) line += fmt::format(" {}", rest);
    return SlipAnswer{fmt::format("what a stock has is told by `have`: write `{}`", line), line,
                      certain};
}

/// `lot B771`: the lot's text goes in quotes.
Answer lot_without_quotes(const BookLine& book) {
    constexpr std::string_view word = " lot ";
    const std::size_t at = book.line.find(word);
    if (!book.line.starts_with("have ") || at == std::string_view::npos) return std::nullopt;
    const std::string_view lot = trimmed(book.line.substr(at + word.size()));
    if (lot.empty() || lot.find_first_of("\"\\") != std::string_view::npos) return std::nullopt;
    std::string line = fmt::format("{} lot \"{}\"", squeezed(book.line.substr(0, at)), lot);
    return SlipAnswer{fmt::format("write `{}`", line), line,
                      lot.find(' ') == std::string_view::npos};
}

/// `10 salt-tin`, `make 10 salt-tin`: in a batch what it pours; in a recipe what it fills.
Answer number_of_things(const BookLine& book) {
    std::string_view rest = book.line;
    if (rest.starts_with("make ")) cut_word(rest);
    const std::string_view number = cut_word(rest);
    const std::string_view name = rest;
    if (!is_whole(number) || !is_kebab(name) || find_unit(name) != no_unit) return std::nullopt;
    const BlockKind kind = kind_here(book, name);
    if (book.block.kind == BlockKind::recipe && kind == BlockKind::vessel &&
        !book.block.has("makes")) {
        std::string line = fmt::format("makes: {} {}", number, name);
        return SlipAnswer{fmt::format("is that what it makes? write `{}`", line), line};
    }
    const bool may_be = kind == BlockKind::recipe || kind == BlockKind::unknown;
    if (book.block.kind != BlockKind::batch || !may_be) return std::nullopt;
    std::string line = fmt::format("pour {} {}", number, name);
    return SlipAnswer{fmt::format("write `{}`", line), line, kind == BlockKind::recipe};
}

/// `wick: our-wick x2`, `our-wick (2)`, `2x our-wick`: the number goes before the name.
Answer number_behind_name(const BookLine& book) {
    std::string_view rest = book.line;
    const std::string_view key = cut_word(rest);
    if (key != "wick:" && key != "extras:") return std::nullopt;
    std::string_view name = cut_word(rest);
    std::string_view number = rest;
    bool certain = true;
    if (name.ends_with('x') && is_whole(name.substr(0, name.size() - 1))) {
        number = name.substr(0, name.size() - 1);
        name = rest;
    } else if (number.starts_with('(') && number.ends_with(')')) {
        number = number.substr(1, number.size() - 2);
        certain = false; // a size may stand so as well
    } else {
        constexpr std::array<std::string_view, 4> times{"x", "X", "*", "×"};
        const auto* const sign = std::find_if(
            times.begin(), times.end(), [&](std::string_view t) { return number.starts_with(t); });
        if (sign == times.end()) return std::nullopt;
        number = trimmed(number.substr(sign->size()));
    }
    if (!is_whole(number) || !is_kebab(name)) return std::nullopt;
    std::string line = fmt::format("{} {} {}", key, number, name);
    return SlipAnswer{fmt::format("how many goes before the name: write `{}`", line), line,
                      certain};
}

/// The wax of a recipe of the file, where its line names one alone; else a word for it.
std::string_view wax_of(const BookLine& book, std::string_view recipe) {
    constexpr std::string_view any = "WAX";
    const std::size_t head = book.text.find(fmt::format("recipe {} ", recipe));
    if (head == std::string_view::npos) return any;
    constexpr std::string_view key = "\n  wax:";
    const std::string_view lines = book.text.substr(head, book.text.find("\n}", head) - head);
    const std::size_t at = lines.find(key);
    if (at == std::string_view::npos) return any;
    std::string_view value = lines.substr(at + key.size());
    value = trimmed(value.substr(0, value.find_first_of("\r\n#")));
    return is_kebab(value) ? value : any;
}

/// `pour 3 kg tide-line`: a batch says how many candles, and a sheet how many so much is enough
/// for.
Answer mass_of_candles(const BookLine& book) {
    std::string_view rest = book.line;
    if (book.block.kind != BlockKind::batch || cut_word(rest) != "pour") return std::nullopt;
    const std::string amount = cut_amount(rest);
    if (rest.starts_with("of ")) cut_word(rest);
    const std::size_t blank = amount.find(' ');
    const bool known = kind_here(book, rest) == BlockKind::recipe || !book.declared.contains(rest);
    if (blank == std::string::npos || !is_kebab(rest) || !known) return std::nullopt;
    const UnitId id = find_unit(std::string_view(amount).substr(blank + 1));
    if (unit(id).dimension != dimension::mass) return std::nullopt;
    return SlipAnswer{
        fmt::format("a batch says how many candles: `pour 24 {0}`; for how many {1} of wax is "
                    "enough, `waxwright sheet FILE {0} --from \"{1} {2}\"` says",
                    rest, amount, wax_of(book, rest))};
}

/// `load: .08 of wax`: a hundredth is 1%.
Answer fraction_of_load(const BookLine& book) {
    std::string_view rest = book.line;
    std::string_view key = cut_word(rest);
    if (!key.ends_with(':')) return std::nullopt;
    key.remove_suffix(1);
    const std::optional<Key> found = find_key(key);
    const PropertyInfo* info = found ? find_property(book.block.kind, *found) : nullptr;
    const std::string_view number = cut_word(rest);
    if (info == nullptr || info->shape != Shape::load || !number.starts_with('.') ||
        !is_whole(number.substr(1))) {
        return std::nullopt;
    }
    double fraction = 0;
    std::from_chars(number.data(), number.data() + number.size(), fraction);
    const std::string share = fmt::format("{:.6g}%", 100 * fraction);
    const auto with = [&](std::string_view basis) {
        return fmt::format("{}: {} of {}", key, share, basis);
    };
    if (rest == "of wax" || rest == "of the wax" || rest == "of total" || rest == "of the total") {
        std::string line = with(rest.ends_with("wax") ? "wax" : "total");
        return SlipAnswer{fmt::format("a load is in percent: write `{}`", line), line};
    }
    if (!rest.empty()) return std::nullopt;
    SlipAnswer answer{
        fmt::format("a load is in percent, of the wax or of all that is poured: `{}`, "
                    "or `{}`",
                    with("wax"), with("total"))};
    answer.others = {with("wax"), with("total")};
    return answer;
}

/// `load: 120 g per 1500 g of wax`: as many hundredths.
Answer mass_for_mass(const BookLine& book) {
    std::string_view rest = book.line;
    std::string_view key = cut_word(rest);
    if (!key.ends_with(':')) return std::nullopt;
    key.remove_suffix(1);
    const std::optional<Key> found = find_key(key);
    const PropertyInfo* info = found ? find_property(book.block.kind, *found) : nullptr;
    if (info == nullptr || info->shape != Shape::load) return std::nullopt;
    const auto cut_mass = [&rest]() -> double {
        const std::string amount = cut_amount(rest);
        const std::size_t blank = amount.find(' ');
        double number = 0;
        if (blank == std::string::npos || amount.find('/') < blank) return 0;
        std::from_chars(amount.data(), amount.data() + blank, number);
        const UnitId id = find_unit(std::string_view(amount).substr(blank + 1));
        return unit(id).dimension == dimension::mass ? to_inside(number, id) : 0;
    };
    const double scent = cut_mass();
    const std::string_view joint = cut_word(rest);
    if (joint != "per" && joint != "for" && joint != "to" && joint != "in") return std::nullopt;
    const double wax = cut_mass();
    if (!(scent > 0 && wax > scent)) return std::nullopt;
    if (rest != "of wax" && rest != "of the wax" && rest != "wax") return std::nullopt;
    const std::string line = fmt::format("{}: {:.4g}% of wax", key, 100 * scent / wax);
    return SlipAnswer{fmt::format("that is `{}`; for 1 kg it can be said in grams: `{:.4g} g per "
                                  "kg of wax`",
                                  line, 1000 * scent / wax),
                      line};
}

/// `1 prt rapeseed + 3 parts coconut`: `part` misspelt, behind a number and before a name.
Answer misspelt_part(const BookLine& book) {
    const std::size_t colon = book.line.find(':');
    const std::optional<Key> key = find_key(book.line.substr(0, std::min(colon, book.line.size())));
    if (!key || (*key != Key::wax && *key != Key::scent)) return std::nullopt;
    constexpr std::array<std::string_view, 2> parts{"part", "parts"};
    std::string line = fmt::format("{}:", book.line.substr(0, colon));
    std::string_view rest = trimmed(book.line.substr(colon + 1));
    std::string_view number;
    bool any = false;
    bool certain = true;
    while (!rest.empty()) {
        const std::string_view word = cut_word(rest);
        const bool between = is_number(number) && !rest.empty() && is_letter(rest.front());
        const bool misspelt = between && word != parts[0] && word != parts[1] && word.size() > 2 &&
                              find_unit(word) == no_unit && !nearest(word, parts, 1).empty();
        if (misspelt)
            certain = certain && surely_meant(word, nearest(word, parts), parts, Spelling::word);
        any = any || misspelt;
        line += fmt::format(" {}", !misspelt ? word : parts[number == "1" ? 0 : 1]);
        number = word;
    }
    if (!any) return std::nullopt;
    return SlipAnswer{fmt::format("write `{}`", line), line, certain};
}

} // namespace

std::optional<SlipAnswer> count_answer(const BookLine& book) {
    constexpr std::array answers{stock_without_have, lot_without_quotes, number_of_things,
                                 number_behind_name, misspelt_part,      mass_of_candles,
                                 fraction_of_load,   mass_for_mass};
    for (const auto& each : answers) {
        if (Answer answer = each(book)) return answer;
    }
    return std::nullopt;
}

} // namespace waxwright
