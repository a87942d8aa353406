// Answers to lines with a number of things: in a stock, in a batch, at a wick.
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/line_fault.hpp"
#include "model/phrase_slips.hpp"
#include "model/phrases.hpp"
#include "units/unit.hpp"

namespace waxwright {

namespace {

using Answer = std::optional<SlipAnswer>;

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

/// The number that a text begins with, also as `2 dozen` or `half a dozen`, cut from it; empty, and
/// nothing cut, where it has none.
std::string cut_number(std::string_view& text) {
    const NumberBegun begun = number_that_begins(text);
    if (begun.length == 0 || begun.number.find('/') != std::string_view::npos) return {};
    std::string number(begun.number);
    std::string_view rest = trimmed(text.substr(begun.length));
    constexpr std::string_view dozen = "dozen ";
    if (rest.starts_with(dozen) && is_whole(number)) {
        number = std::to_string(std::min(std::stol(number.substr(0, 6)), 99999L) * 12);
        rest = trimmed(rest.substr(dozen.size()));
    }
    text = rest;
    return number;
}

/// The name of the file, or of the library, that some words say: `jam jars` is a `jam-jar`, `bees
/// wax` is `beeswax`, `soy wax` is `soy`. Empty where there is none of that kind (any, where it is
/// unknown).
std::string name_said(const BookLine& book, std::string_view words, BlockKind kind) {
    words = trimmed(words.substr(0, words.find('(')));
    std::string hyphens = joined_by_hyphens(words);
    std::vector<std::string> tries{hyphens};
    for (const std::string_view end : {"-wax", "-oil", "-essential-oil", "-flakes", "-eo", "s"})
        if (hyphens.ends_with(end)) tries.push_back(hyphens.substr(0, hyphens.size() - end.size()));
    std::string close = hyphens;
    close.erase(std::remove(close.begin(), close.end(), '-'), close.end());
    tries.insert(tries.begin() + 1, std::move(close));
    for (std::string& each : tries) {
        const BlockKind found = kind_of_name(book, each);
        if (found != BlockKind::unknown && (kind == BlockKind::unknown || found == kind))
            return std::move(each);
    }
    return {};
}

bool is_same_or_plural(std::string_view name, std::string_view words) {
    const std::string joined = joined_by_hyphens(words);
    return joined == name || joined == fmt::format("{}s", name);
}

/// Those of a kind that the file has, in backticks: "`jam-jar` or `tin`".
std::string own_of_kind(const BookLine& book, BlockKind kind) {
    std::vector<std::string_view> own;
    for (const auto& [name, its] : book.declared)
        if (its == kind) own.push_back(name);
    constexpr std::size_t most = 4;
    if (own.size() > most) own.resize(most);
    return own.empty() ? "" : fmt::format("`{}`", fmt::join(own, "` or `"));
}

/// `makes 6 of jam-jar`, `makes: 2 dozen jam-jar`, `makes: 6 × jam-jar`.
Answer counted_vessels(const BookLine& book) {
    std::string_view rest = book.line;
    const std::string_view key = cut_word(rest);
    if ((key != "makes" && key != "makes:") || book.block.kind != BlockKind::recipe)
        return std::nullopt;
    const std::string number = cut_number(rest);
    if (number.empty()) return std::nullopt;
    for (const std::string_view joint : {"× ", "x ", "* ", "of the ", "of "})
        if (rest.starts_with(joint)) rest = trimmed(rest.substr(joint.size()));
    const std::string name = name_said(book, rest, BlockKind::vessel);
    if (name.empty()) return std::nullopt;
    std::string line = fmt::format("makes: {} {}", number, name);
    if (line == squeezed(book.line)) return std::nullopt;
    return SlipAnswer{fmt::format("write `{}`", line), line, is_same_or_plural(name, rest)};
}

/// `have: 5 kg soy`, `have about 5 kg of soy wax`, `have a dozen jar`, `have 30 jars`.
Answer stock_in_words(const BookLine& book) {
    std::string_view rest = book.line;
    constexpr std::string_view verb = "have";
    if (book.block.kind != BlockKind::stock || !rest.starts_with(verb)) return std::nullopt;
    rest = rest.substr(verb.size());
    if (rest.empty() || is_letter(rest.front())) return std::nullopt;
    if (rest.front() == ':') rest = rest.substr(1);
    rest = trimmed(rest);
    bool sure = true;
    for (const std::string_view word : {"about ", "around ", "roughly ", "approx. ", "approx "}) {
        if (!rest.starts_with(word)) continue;
        rest = trimmed(rest.substr(word.size()));
        sure = false;
    }
    std::string amount = cut_amount(rest);
    if (amount.empty() || rest.starts_with("dozen ")) {
        rest = trimmed(book.line.substr(book.line.find(' ')));
        amount = cut_number(rest);
    }
    const std::size_t lot = std::min(rest.find(" lot "), rest.size());
    std::string_view words = trimmed(rest.substr(0, lot));
    if (words.starts_with("of ")) words = trimmed(words.substr(3));
    if (amount.empty() || words.empty()) return std::nullopt;
    const std::string name = name_said(book, words, BlockKind::unknown);
    if (name.empty()) {
        const bool vessels =
            block_kind_meant(words) == BlockKind::vessel || words == "jars" || words == "tins";
        const std::string own = own_of_kind(book, BlockKind::vessel);
        if (!vessels || !is_whole(amount)) return std::nullopt;
        return SlipAnswer{
            fmt::format("of which vessel? write its block's name: {}",
                        own.empty() ? fmt::format("`have {} jam-jar`, for example", amount) : own)};
    }
    std::string behind(rest.substr(lot));
    if (!behind.empty() && behind.find('"') == std::string::npos)
        behind = fmt::format(" lot \"{}\"", trimmed(behind.substr(5)));
    std::string line = fmt::format("have {} {}{}", amount, name, behind);
    if (line == squeezed(book.line)) return std::nullopt;
    return SlipAnswer{fmt::format("write `{}`", line), line,
                      sure && is_same_or_plural(name, words)};
}

/// `wax: bees wax`, `wax: soya wax`, `scent: orange (sweet)`: one name in several words.
Answer name_in_words(const BookLine& book) {
    std::string_view words = book.line;
    std::string key = joined_by_hyphens(cut_word(words));
    if (key.ends_with(':')) key.pop_back();
    const std::optional<Key> found = find_key(key);
    const PropertyInfo* info = found ? find_property(book.block.kind, *found) : nullptr;
    const bool one = words.find_first_of("0123456789+,&%\"") == std::string_view::npos;
    const bool blend = key == "wax" || key == "scent";
    if (info == nullptr || !blend || !one || words.find(' ') == std::string_view::npos)
        return std::nullopt;
    const BlockKind kind = key == "wax" ? BlockKind::wax : BlockKind::oil;
    const bool brackets = words.find('(') != std::string_view::npos;
    const std::string name = name_said(book, words, kind);
    if (!name.empty()) {
        std::string line = fmt::format("{}: {}", key, name);
        const bool rows =
            !brackets && name.find('-') == std::string::npos && words.starts_with(name + " ");
        if (rows) return std::nullopt; // `soy wax` has rows of its own
        return SlipAnswer{fmt::format("write `{}`", line), line, !brackets};
    }
    const std::size_t last = words.rfind(' ');
    if (words.substr(last) != " wax" || kind != BlockKind::wax) return std::nullopt;
    const std::string wrong = joined_by_hyphens(words.substr(0, last));
    const std::string near(maybe_meant(wrong, names_of(book, kind)));
    if (near.empty()) {
        return SlipAnswer{fmt::format("nothing here is called `{}`: `waxwright materials wax` "
                                      "lists what the library has; one of your own is a block, "
                                      "`wax my-wax {{`",
                                      wrong)};
    }
    std::string line = fmt::format("{}: {}", key, near);
    return SlipAnswer{fmt::format("is it `{}`? write `{}`", near, line), line};
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
    constexpr std::array answers{counted_vessels,    stock_in_words,     name_in_words,
                                 stock_without_have, lot_without_quotes, number_of_things,
                                 number_behind_name, misspelt_part,      mass_of_candles};
    for (const auto& each : answers) {
        if (Answer answer = each(book)) return answer;
    }
    return std::nullopt;
}

} // namespace waxwright
