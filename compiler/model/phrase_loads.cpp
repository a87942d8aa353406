// Answers to a load in figures that it doesn't take: a fraction, a mass for a mass.
#include <array>
#include <charconv>

#include <fmt/format.h>

#include "model/phrase_slips.hpp"
#include "units/unit.hpp"

namespace waxwright {

namespace {

using Answer = std::optional<SlipAnswer>;

/// The key of a load, cut from the line with its colon; empty where it is none of the block's.
std::string_view cut_load_key(BlockKind kind, std::string_view& line) {
    std::string_view key = cut_word(line);
    if (!key.ends_with(':')) return {};
    key.remove_suffix(1);
    const std::optional<Key> found = find_key(key);
    const PropertyInfo* info = found ? find_property(kind, *found) : nullptr;
    return info != nullptr && info->shape == Shape::load ? key : std::string_view();
}

/// `load: .08 of wax`: a hundredth is 1%.
Answer fraction_of_load(const BookLine& book) {
    std::string_view rest = book.line;
    const std::string_view key = cut_load_key(book.block.kind, rest);
    if (key.empty()) return std::nullopt;
    const std::string_view number = cut_word(rest);
    if (!number.starts_with('.') || !is_whole(number.substr(1))) return std::nullopt;
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
    const std::string_view key = cut_load_key(book.block.kind, rest);
    if (key.empty()) return std::nullopt;
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

} // namespace

std::optional<SlipAnswer> load_answer(const BookLine& book) {
    Answer answer = fraction_of_load(book);
    return answer ? answer : mass_for_mass(book);
}

} // namespace waxwright
