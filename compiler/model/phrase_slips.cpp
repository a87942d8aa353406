#include "model/phrase_slips.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <numeric>

#include <fmt/format.h>

#include "model/phrase_money.hpp"

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
    constexpr std::array answers{
        figure_answer, currency_answer, count_answer, load_answer, code_behind_answer,
        joined_name,   width_of_vessel, price_answer, date_line,   fractions_of_blend};
    for (const auto& each : answers) {
        if (Answer answer = each(book)) return answer;
    }
    return std::nullopt;
}

} // namespace waxwright
