#include "model/phrase_money.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <iterator>

#include <fmt/format.h>

#include "units/money.hpp"

namespace waxwright {

namespace {

using Answer = std::optional<SlipAnswer>;

/// Words for currencies, in small letters; the first that a text has. Where one is a part of
/// another, the longer comes first.
struct CurrencyWord {
    std::string_view word;
    std::string_view code;
};
constexpr CurrencyWord currency_words[] = {
    {"swiss", "CHF"},     {"franc", "CHF"},      {"franken", "CHF"},     {"sfr", "CHF"},
    {"canadian", "CAD"},  {"australian", "AUD"}, {"new zealand", "NZD"}, {"swedish", "SEK"},
    {"norwegian", "NOK"}, {"danish", "DKK"},     {"euro", "EUR"},        {"€", "EUR"},
    {"pound", "GBP"},     {"sterling", "GBP"},   {"quid", "GBP"},        {"£", "GBP"},
    {"zloty", "PLN"},     {"yen", "JPY"},        {"rupee", "INR"},       {"rand", "ZAR"},
    {"kronor", "SEK"},    {"kroner", "NOK"},     {"dollar", "USD"},      {"$", "USD"},
};

/// The code of the currency that a text speaks of; empty where it is none.
std::string_view currency_meant(std::string_view text) {
    std::string lower(trimmed(text));
    std::string upper = lower;
    std::transform(lower.begin(), lower.end(), lower.begin(), small);
    std::transform(lower.begin(), lower.end(), upper.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
    if (const Currency code = find_currency(upper); code != no_money) return code_of(code);
    const auto* const found = std::find_if(
        std::begin(currency_words), std::end(currency_words),
        [&](const CurrencyWord& each) { return lower.find(each.word) != std::string::npos; });
    return found == std::end(currency_words) ? std::string_view() : found->code;
}

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

/// An amount of money in the language's way, from whatever is said of it: `CHF 14` is `14 CHF`, `3
/// euros` are `3 EUR`, `30p` is `0.30 GBP`; of `8,90` the currency isn't known. Empty where it is
/// no amount.
struct MoneyMeant {
    std::string text{};
    bool known = false;
};
MoneyMeant money_meant(std::string_view said, std::string_view shown) {
    const std::size_t begin = said.find_first_of("0123456789");
    if (begin == std::string_view::npos) return {};
    const std::size_t end = std::min(said.find_first_not_of("0123456789.,", begin), said.size());
    const std::string_view before = trimmed(said.substr(0, begin));
    const std::string_view behind = trimmed(said.substr(end));
    const bool more = behind.find_first_of("0123456789") != std::string_view::npos;
    if (more || (!before.empty() && !behind.empty())) return {};
    std::string number(said.substr(begin, end - begin));
    if (const std::size_t comma = number.find(','); comma != std::string::npos) {
        if (comma + 4 == number.size() || number.find(',', comma + 1) != std::string::npos)
            return {};
        number[comma] = '.';
    }
    std::string word(before.empty() ? behind : before);
    if (word.empty()) return {number, false};
    if (is_one_of(word, {"$", "€", "£"})) return {word + number, true};
    std::transform(word.begin(), word.end(), word.begin(), small);
    const bool pence = is_one_of(word, {"p", "pence", "penny"});
    if (pence || is_one_of(word, {"cent", "cents", "ct", "cts", "c", "rappen"})) {
        double parts = 0;
        std::from_chars(number.data(), number.data() + number.size(), parts);
        const std::string_view code = pence ? "GBP" : word == "rappen" ? "CHF" : shown;
        const std::string text = fmt::format("{:.2f}", parts / 100);
        return {code.empty() ? text : fmt::format("{} {}", text, code), !code.empty()};
    }
    const std::string_view code = currency_meant(word);
    if (code.empty()) return {};
    return {fmt::format("{} {}", number, code), true};
}

} // namespace

Answer currency_answer(const BookLine& book) {
    constexpr std::string_view word = "currency";
    const std::string_view line = book.line;
    const bool begins =
        line.size() > word.size() && std::equal(word.begin(), word.end(), line.begin(),
                                                [](char a, char b) { return a == small(b); });
    if (!begins || is_letter(line[word.size()])) return std::nullopt;
    std::string_view value = trimmed(line.substr(word.size()));
    while (!value.empty() && (value.front() == ':' || value.front() == '='))
        value = trimmed(value.substr(1));
    const std::string_view code = currency_meant(value);
    if (code.empty()) {
        if (value.find_first_of(" \"") == std::string_view::npos) return std::nullopt;
        return SlipAnswer{"write its code of three capital letters, as `currency EUR`, `currency "
                          "GBP` or `currency CHF`"};
    }
    std::string better = fmt::format("currency {}", code);
    if (better == line) return std::nullopt;
    const bool margin = book.at.begin == 0 || book.text[book.at.begin - 1] == '\n';
    if (!margin) return SlipAnswer{fmt::format("at the head of the file write `{}`", better)};
    // A franc, a crown or a dollar may be another country's.
    const bool sure = value.size() == 3 || code == "EUR";
    return SlipAnswer{fmt::format("write `{}`", better), better, sure};
}

Answer code_behind_answer(const BookLine& book) {
    std::string line(book.line);
    bool any = false;
    constexpr std::size_t code = 3;
    for (std::size_t at = line.find(' '); at != std::string::npos; at = line.find(' ', at + 1)) {
        const std::string_view rest = std::string_view(line).substr(at + 1);
        const bool behind_figure = at > 0 && (is_digit(line[at - 1]) || line[at - 1] == '%');
        if (behind_figure || rest.size() < code + 2 || rest[code] != ' ' ||
            !is_common_currency(rest.substr(0, code)) || !is_digit(rest[code + 1])) {
            continue;
        }
        const std::size_t length =
            std::min(rest.find_first_not_of("0123456789.", code + 1), rest.size());
        if (length < rest.size() && rest[length] != ',') continue; // `18/h` has its own place
        const std::string_view amount = rest.substr(code + 1, length - code - 1);
        line.replace(at + 1, length, fmt::format("{} {}", amount, rest.substr(0, code)));
        any = true;
    }
    if (!any) return std::nullopt;
    return SlipAnswer{fmt::format("a code goes behind its amount: write `{}`", line), line, true};
}

namespace {

/// True for a file in pounds and ounces.
bool in_pounds(std::string_view text) {
    const auto has = [&](std::string_view word) {
        return text.find(word) != std::string_view::npos;
    };
    return (has(" lb") || has(" oz")) && !has(" kg");
}

/// A pack and its price, cut from `8.90 EUR per kg`, `$12 for 4 oz`, `4 oz for $12`, `12 pack $20`.
struct PackText {
    std::string pack{};
    std::string_view price{};
};

/// A pack's figure: `kg` is 1 kg; words for pieces say nothing more.
std::string pack_figure(std::string_view pack, bool by_mass) {
    std::string_view number = pack.substr(0, pack.find_first_not_of("0123456789.,/"));
    std::string_view rest = trimmed(pack.substr(number.size()));
    for (const std::string_view word : {"a ", "an ", "the "})
        if (rest.starts_with(word)) rest = trimmed(rest.substr(word.size()));
    if (rest.starts_with("pack of ")) rest = trimmed(rest.substr(8));
    const bool nothing = is_one_of(
        rest, {"pack", "packs", "pcs", "pieces", "piece", "pc", "each", "one", "of them", "pair"});
    if (nothing) rest = {};
    if (rest.empty() || !by_mass) {
        if (number.empty() && !rest.empty() && is_digit(rest.front())) return std::string(rest);
        return number.empty() ? "1" : std::string(number);
    }
    return fmt::format("{} {}", number.empty() && !is_digit(rest.front()) ? "1" : number, rest);
}

PackText pack_text(std::string_view value, bool by_mass, std::string_view shown) {
    constexpr std::string_view joint = " for ";
    if (const std::size_t at = value.find(joint); at != std::string_view::npos) {
        const std::string_view left = trimmed(value.substr(0, at));
        const std::string_view right = trimmed(value.substr(at + joint.size()));
        const MoneyMeant first = money_meant(left, shown);
        const MoneyMeant second = money_meant(right, shown);
        const bool price_first =
            !second.known && !first.text.empty() && (first.known || second.text.empty());
        return price_first ? PackText{pack_figure(right, by_mass), left}
                           : PackText{pack_figure(left, by_mass), right};
    }
    for (const std::string_view each : {" per ", " an ", " a ", " the ", " each", "/"}) {
        const std::size_t at = value.find(each);
        if (at == std::string_view::npos) continue;
        return {pack_figure(trimmed(value.substr(at + each.size())), by_mass),
                trimmed(value.substr(0, at))};
    }
    if (!money_meant(value, shown).text.empty()) return {{}, value};
    for (std::size_t at = value.rfind(' '); at != std::string_view::npos && at > 0;
         at = value.rfind(' ', at - 1)) { // a pack, and nothing between it and its price
        const std::string_view price = trimmed(value.substr(at));
        if (is_digit(value.front()) && money_meant(price, shown).known)
            return {pack_figure(trimmed(value.substr(0, at)), by_mass), price};
    }
    return {{}, value};
}

} // namespace

Answer price_answer(const BookLine& book) {
    const std::size_t colon = std::min(book.line.find(':'), book.line.size());
    const std::string_view key = trimmed(book.line.substr(0, colon));
    std::string_view value = trimmed(book.line.substr(std::min(colon + 1, book.line.size())));
    const Bought how = bought(book.block.kind);
    const bool known_key = is_one_of(key, {"price", "cost", "costs", "sold"});
    const bool odd = value.find_first_of("\"(){}+*:") != std::string_view::npos;
    if (!known_key || book.block.kind == BlockKind::unknown || how == Bought::never ||
        how == Bought::kept || value.empty() || odd) {
        return std::nullopt;
    }
    // A pack and a price that stand the wrong way round have an answer already.
    if (key == "sold" && value.find(" for ") != std::string_view::npos) return std::nullopt;
    const bool by_mass = how == Bought::by_mass;
    const std::string_view shown = currency_shown(book.text);
    const PackText text = pack_text(value, by_mass, shown);
    const MoneyMeant money = money_meant(text.price, shown);
    if (money.text.empty()) return std::nullopt;
    std::string pack = text.pack;
    if (pack.empty()) pack = !by_mass ? "1" : in_pounds(book.text) ? "1 lb" : "1 kg";
    std::string line = fmt::format("sold: {} for {}", pack, money.text);
    if (!money.known) line += fmt::format(" {}", shown.empty() ? "EUR" : shown);
    line = neat_line(line);
    if (line == squeezed(book.line)) return std::nullopt;
    if (!text.pack.empty()) {
        return SlipAnswer{fmt::format("what is paid for a pack is its `sold`: write `{}`", line),
                          line, false};
    }
    return SlipAnswer{
        fmt::format("for how much of it is that? write the pack and its price, as `{}`", line)};
}

} // namespace waxwright
