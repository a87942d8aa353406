#include "model/phrase_slips.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <numeric>

#include <fmt/format.h>

namespace waxwright {

Declared declared_in(std::string_view text) {
    Declared declared;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        const std::string_view line = trimmed(text.substr(at, end - at));
        at = end + 1;
        const std::size_t blank = std::min(line.find_first_of(" \t"), line.size());
        const BlockKind kind = find_block_kind(line.substr(0, blank));
        if (kind == BlockKind::unknown) continue;
        const std::string_view rest = trimmed(line.substr(blank));
        const std::string_view name = rest.substr(0, rest.find_first_of(" \t{"));
        if (is_kebab(name)) declared.try_emplace(name, kind);
    }
    return declared;
}

namespace {

using Answer = std::optional<SlipAnswer>;

/// A line's key and value; the key is empty where there is no colon.
struct Parts {
    std::string_view key;
    std::string_view value;
};
Parts parts_of(std::string_view line) {
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos) return {{}, line};
    return {trimmed(line.substr(0, colon)), trimmed(line.substr(colon + 1))};
}

/// `pot: double boiler` where the file has a `pot double-boiler {`; `makes: 6 my jar`, `pour 6 my
/// candle`: with a number before it.
Answer joined_name(const BookLine& book) {
    auto [key, value] = parts_of(book.line);
    BlockKind wanted = BlockKind::recipe;
    std::string before;
    if (key.empty() && value.starts_with("pour ")) {
        before = "pour";
        value = trimmed(value.substr(before.size()));
    } else {
        const std::optional<Key> found = find_key(key);
        const PropertyInfo* info = found ? find_property(book.block.kind, *found) : nullptr;
        if (info == nullptr) return std::nullopt;
        wanted = info->refers;
        before = fmt::format("{}:", key);
    }
    const std::size_t digits = std::min(value.find_first_not_of("0123456789"), value.size());
    const std::string_view words = trimmed(value.substr(digits));
    const std::string name = joined_by_hyphens(words);
    const auto there = book.declared.find(name);
    if (name == words || there == book.declared.end() || there->second != wanted) {
        return std::nullopt;
    }
    const std::string number = digits == 0 ? "" : fmt::format(" {}", value.substr(0, digits));
    std::string line = fmt::format("{}{} {}", before, number, name);
    return SlipAnswer{fmt::format("write `{}`", line), std::move(line), true};
}

/// How wide a vessel is, where it says already how much it holds.
Answer width_of_vessel(const BookLine& book) {
    const auto [key, value] = parts_of(book.line);
    const bool wide = key == "width" || key == "diameter" || key == "across" || key == "wide";
    if (!wide || book.block.kind != BlockKind::vessel || value.empty()) return std::nullopt;
    if (!book.block.has("brimful") && !book.block.has("fill")) return std::nullopt;
    std::string line = neat_line(fmt::format("bore: {}", value));
    return SlipAnswer{fmt::format("inside, where the wax is? that is its `bore`: write `{}`", line),
                      line, false};
}

constexpr std::string_view signs[] = {"$", "€", "£"};

/// True for an amount of money by its sign or its code.
bool is_money(std::string_view text) {
    const bool sign = std::any_of(std::begin(signs), std::end(signs), [&](std::string_view each) {
        return text.starts_with(each) || text.ends_with(each);
    });
    constexpr std::size_t code = 3;
    return sign || (text.size() > code && is_common_currency(text.substr(text.size() - code)));
}

/// `8.90 €` as `€8.90`.
std::string sign_first(std::string_view price) {
    for (const std::string_view sign : signs) {
        if (!price.ends_with(sign)) continue;
        return std::string(sign).append(trimmed(price.substr(0, price.size() - sign.size())));
    }
    return std::string(price);
}

/// `sold: 50 for GBP 6.00`: a currency's code before its amount.
Answer code_behind(const BookLine& book) {
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

/// True for a file in pounds and ounces.
bool in_pounds(std::string_view text) {
    const auto has = [&](std::string_view word) {
        return text.find(word) != std::string_view::npos;
    };
    return (has(" lb") || has(" oz")) && !has(" kg");
}

/// A pack and its price, cut from `8.90 EUR per kg`, `$12 for 4 oz`, `4 oz for $12`.
struct PackText {
    std::string_view pack{};
    std::string_view price{};
    bool of_one = false; // the pack is one of a unit
};
PackText pack_text(std::string_view value) {
    constexpr std::string_view joint = " for ";
    if (const std::size_t at = value.find(joint); at != std::string_view::npos) {
        const std::string_view left = trimmed(value.substr(0, at));
        const std::string_view right = trimmed(value.substr(at + joint.size()));
        const bool bare = left.find_first_not_of("0123456789.,") == std::string_view::npos;
        const bool price_first = is_money(left) || (bare && !is_money(right));
        return price_first ? PackText{right, left} : PackText{left, right};
    }
    for (const std::string_view each : {" per ", " a ", " each", "/"}) {
        const std::size_t at = value.find(each);
        if (at == std::string_view::npos) continue;
        return {trimmed(value.substr(at + each.size())), trimmed(value.substr(0, at)), true};
    }
    return {{}, value};
}

/// `price: 8.90` of a thing that is bought: its `sold`, with the figures that are there.
Answer price_of_thing(const BookLine& book) {
    const auto [key, value] = parts_of(book.line);
    const Bought how = bought(book.block.kind);
    const bool price = key == "price" || key == "cost" || key == "costs";
    if (!price || book.block.kind == BlockKind::unknown || how == Bought::never ||
        how == Bought::kept || value.empty()) {
        return std::nullopt;
    }
    const PackText text = pack_text(value);
    const bool figure = text.price.find_first_of("0123456789") != std::string_view::npos;
    const std::size_t comma = text.price.find(',');
    const bool thousands = comma != std::string_view::npos && comma + 4 == text.price.size();
    if (!figure || thousands || text.price.find_first_of("\"(){}+*:") != std::string_view::npos) {
        return std::nullopt;
    }
    std::string pack(text.pack);
    const bool known = !pack.empty() || text.of_one;
    if (text.of_one) pack = pack.empty() || how != Bought::by_mass ? "1" : "1 " + pack;
    if (!known) pack = how != Bought::by_mass ? "1" : in_pounds(book.text) ? "1 lb" : "1 kg";
    std::string line = fmt::format("sold: {} for {}", pack, sign_first(text.price));
    const std::string_view shown = currency_shown(book.text);
    if (!is_money(text.price)) line += fmt::format(" {}", (shown.empty() ? "EUR" : shown));
    line = neat_line(line);
    if (known) {
        return SlipAnswer{fmt::format("what is paid for a pack is its `sold`: write `{}`", line),
                          line, false};
    }
    return SlipAnswer{
        fmt::format("for how much of it is that? write the pack and its price, as `{}`", line)};
}

/// `starts: 12 December 2026 9:00`
Answer date_line(const BookLine& book) {
    auto [key, value] = parts_of(book.line);
    const std::string_view written = key;
    const bool batch = book.block.kind == BlockKind::batch;
    if (key == "start" || (batch && (key == "date" || key == "day"))) key = "starts";
    if (key != "starts" && key != "on") return std::nullopt;
    const DatesMeant meant = dates_meant(value);
    if (meant.dates.empty()) return std::nullopt;
    std::string line = fmt::format("{}: {}", key, meant.dates.front());
    if (line == squeezed(book.line)) return std::nullopt;
    if (meant.certain) return SlipAnswer{fmt::format("write `{}`", line), line, key == written};
    if (meant.dates.size() == 1) {
        return SlipAnswer{fmt::format("the year goes first, then month and day: write `{}`", line),
                          line, false};
    }
    return SlipAnswer{fmt::format("which number is the day? write `{}`, or `{}: {}`", line, key,
                                  meant.dates.back())};
}

/// One `3/4 rapeseed` of a blend.
struct Part {
    int over = 0;
    int under = 1;
    std::string_view name{};
};

/// The fraction that a term begins with, and its name; `under` is 0 where it has none.
Part part_of(std::string_view term) {
    struct Word {
        std::string_view text;
        int over, under;
    };
    constexpr Word words[] = {{"three quarters ", 3, 4}, {"one quarter ", 1, 4},
                              {"a quarter ", 1, 4},      {"quarter ", 1, 4},
                              {"one half ", 1, 2},       {"a half ", 1, 2},
                              {"half ", 1, 2},           {"two thirds ", 2, 3},
                              {"one third ", 1, 3},      {"a third ", 1, 3}};
    std::string lower(term);
    std::transform(lower.begin(), lower.end(), lower.begin(), small);
    for (const Word& word : words) {
        if (lower.starts_with(word.text)) {
            return {word.over, word.under, trimmed(term.substr(word.text.size()))};
        }
    }
    if (term.size() < 5 || !is_digit(term[0]) || term[1] != '/' || !is_digit(term[2]) ||
        !is_blank(term[3])) {
        return {0, 0};
    }
    return {term[0] - '0', term[2] - '0', trimmed(term.substr(4))};
}

/// The terms of a sum: between `+`, `and` or commas.
std::vector<Part> parts_of_blend(std::string_view value) {
    std::vector<Part> parts;
    while (!value.empty()) {
        std::size_t end = value.size();
        std::size_t next = value.size();
        for (const std::string_view joint : {"+", " and ", ",", "&"}) {
            const std::size_t at = value.find(joint);
            if (at >= end) continue;
            end = at;
            next = at + joint.size();
        }
        parts.push_back(part_of(trimmed(value.substr(0, end))));
        value.remove_prefix(next);
    }
    return parts;
}

/// `wax: 3/4 rapeseed + 1/4 beeswax`: in percents, or in parts where those are not whole.
Answer fractions_of_blend(const BookLine& book) {
    const auto [key, value] = parts_of(book.line);
    if (key != "wax" && key != "scent") return std::nullopt;
    const std::vector<Part> parts = parts_of_blend(value);
    int whole = 1; // what all can be divided into
    for (const Part& part : parts) {
        std::string_view name = part.name;
        if (name.ends_with(" wax")) name.remove_suffix(4);
        if (part.under == 0 || !is_kebab(name)) return std::nullopt;
        whole = std::lcm(whole, part.under);
    }
    const int sum = std::accumulate(parts.begin(), parts.end(), 0, [&](int so_far, const Part& p) {
        return so_far + p.over * whole / p.under;
    });
    // Two halves of a scent, in words, have rows of their own.
    const bool halves = key == "scent" && value.starts_with("half");
    if (parts.size() < 2 || sum != whole || halves) return std::nullopt;
    std::string line = fmt::format("{}:", key);
    for (const Part& part : parts) {
        const int share = part.over * whole / part.under;
        const std::string_view name = part.name.substr(0, part.name.find(' '));
        line += line.back() == ':' ? " " : " + ";
        line += 100 % whole == 0 ? fmt::format("{}% {}", share * 100 / whole, name)
                                 : fmt::format("{} part{} {}", share, share == 1 ? "" : "s", name);
    }
    return SlipAnswer{fmt::format("write `{}`", line), line, false};
}

} // namespace

std::optional<SlipAnswer> slip_answer(const BookLine& book) {
    constexpr std::array answers{count_answer,   code_behind, joined_name,       width_of_vessel,
                                 price_of_thing, date_line,   fractions_of_blend};
    for (const auto& each : answers) {
        if (Answer answer = each(book)) return answer;
    }
    return std::nullopt;
}

} // namespace waxwright
