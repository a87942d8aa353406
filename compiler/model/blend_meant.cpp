// A blend as people write it: its names and its figures, in whatever order.
#include <algorithm>
#include <charconv>
#include <numeric>
#include <vector>

#include <fmt/format.h>

#include "model/line_meant.hpp"
#include "model/phrases.hpp"
#include "model/step_words.hpp"

namespace waxwright {

namespace {

bool is_word(std::string_view word, std::string_view words) {
    return fmt::format(" {} ", words).find(fmt::format(" {} ", word)) != std::string::npos;
}
constexpr std::string_view joints = "and with plus n";
constexpr std::string_view fillers =
    "of the a oil oils essential fragrance wax eo fo blend mix each";
constexpr std::string_view vague = "mostly some little bit hint dash touch few mainly lots";
// With one of these it is another thing than a list of names.
constexpr std::string_view others = "no not or to equal dried fresh none without double under over "
                                    "up about between either per half "
                                    "same";
constexpr std::string_view measures = "drop drops tsp tbsp teaspoon teaspoons tablespoon cup cups";
constexpr std::string_view units =
    "% percent part parts g gram grams oz ounce ounces ml kg lb lbs pct";

/// What a blend's words come to: names, and figures with what they count.
struct Taken {
    std::vector<std::string> names{};
    std::vector<std::string> figures{};
    bool percents = true; // all figures
    bool volumes = false; // one of them, in ml
    bool open = false;    // the last name may go on
    bool odd = false;     // something that is neither
};

/// `60/40`, `2:1`: as many figures.
bool cut_ratio(std::string_view& text, Taken& taken) {
    const std::size_t end = std::min(text.find_first_not_of("0123456789/:"), text.size());
    const std::string_view whole = text.substr(0, end);
    if (whole.find_first_of("/:") == std::string_view::npos || !is_digit(whole.back()))
        return false;
    std::string_view rest = whole;
    while (!rest.empty()) {
        const std::size_t stop = std::min(rest.find_first_of("/:"), rest.size());
        taken.figures.emplace_back(rest.substr(0, stop));
        rest.remove_prefix(std::min(stop + 1, rest.size()));
    }
    taken.percents = false;
    taken.open = false;
    text.remove_prefix(end);
    return true;
}

bool cut_number(std::string_view& text, Taken& taken) {
    const NumberBegun number = number_that_begins(text);
    if (number.length == 0) return false;
    taken.figures.emplace_back(number.number);
    text = trimmed(text.substr(number.length));
    const std::size_t end =
        text.starts_with('%') ? 1 : std::min(text.find_first_of(" \t,+&/"), text.size());
    const std::string_view unit = text.substr(0, end);
    const bool known = is_word(unit, units);
    taken.percents = taken.percents && known && (unit == "%" || unit.starts_with('p')) &&
                     !unit.starts_with("part");
    taken.volumes = taken.volumes || unit == "ml";
    taken.open = false;
    if (known) text.remove_prefix(end);
    return true;
}

void take_word(std::string_view word, Taken& taken) {
    if (is_word(word, joints) || is_word(word, vague)) {
        taken.open = false;
    } else if (is_word(word, fillers)) {
        return;
    } else if (!is_kebab(word) || is_word(word, measures) || is_word(word, others)) {
        taken.odd = true;
    } else if (taken.open) {
        taken.names.back() += fmt::format("-{}", word);
    } else {
        taken.names.emplace_back(word);
        taken.open = true;
    }
}

Taken taken_from(std::string_view text) {
    Taken taken;
    for (text = trimmed(text); !text.empty() && !taken.odd; text = trimmed(text)) {
        if (cut_ratio(text, taken) || cut_number(text, taken)) continue;
        if (std::string_view(",+&/").find(text.front()) != std::string_view::npos) {
            taken.open = false;
            text.remove_prefix(1);
            continue;
        }
        const std::size_t end = std::min(text.find_first_of(" \t,+&/"), text.size());
        take_word(text.substr(0, end), taken);
        text.remove_prefix(end);
    }
    // `60/40 lavender rosemary`: two figures for what was read as one name
    if (taken.names.size() == 1 && taken.figures.size() == 2) {
        const std::string both = taken.names.front();
        const std::size_t joint = both.find('-');
        if (joint != std::string::npos)
            taken.names = {both.substr(0, joint), both.substr(joint + 1)};
    }
    return taken;
}

/// True for figures that come to 100.
bool is_hundred(const std::vector<std::string>& figures) {
    double sum = 0;
    for (const std::string& figure : figures) {
        double value = 0;
        std::from_chars(figure.data(), figure.data() + figure.size(), value);
        sum += value;
    }
    return sum == 100;
}

} // namespace

std::string blend_meant(std::string_view value, std::string_view share_unsaid) {
    std::string lower(value);
    std::transform(lower.begin(), lower.end(), lower.begin(), small);
    const Taken taken = taken_from(lower);
    const std::size_t count = taken.names.size();
    const bool ends =
        !value.empty() && std::string_view("+,&/").find(value.back()) != std::string_view::npos;
    if (taken.odd || count == 0 || ends) return {};
    if (count == 1) return taken.names.front();
    const bool figures = taken.figures.size() == count;
    if (!figures && !taken.figures.empty()) return {};
    const bool percents = figures && (taken.percents || is_hundred(taken.figures));
    const std::string& first = figures ? taken.figures.front() : taken.names.front();
    const bool even = figures && !percents &&
                      std::all_of(taken.figures.begin(), taken.figures.end(),
                                  [&](const std::string& figure) { return figure == first; });
    std::string blend;
    for (std::size_t i = 0; i < count; ++i) {
        const std::string share =
            !figures   ? std::string(share_unsaid)
            : percents ? taken.figures[i] + "%"
            : even     ? std::string("1 part")
                   : fmt::format("{} part{}", taken.figures[i], taken.figures[i] == "1" ? "" : "s");
        blend += fmt::format("{}{} {}", blend.empty() ? "" : " + ", share, taken.names[i]);
    }
    return taken.volumes ? blend + " by volume" : blend;
}

} // namespace waxwright
