#include "reckon/label/less_scent.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "reckon/label/acute.hpp"
#include "reckon/label/highest_load.hpp"
#include "reckon/label/net_quantity.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// A load just under a limit, and just over it, by far more than what counts as equal.
constexpr double hair = 1e-6;

struct Scented {
    std::span<const Ingredient> oil, rest; // the rest as fractions of all but the oil
    const std::function<std::string(double)>& load_words;
    LoadLimits limits{oil, rest};
};

std::vector<std::string> codes_at(const Scented& in, double load) {
    std::vector<Ingredient> candle;
    double wax = 1 - load;
    const auto add = [&](std::span<const Ingredient> ingredients, double share) {
        for (Ingredient one : ingredients) {
            one.fraction *= share;
            candle.push_back(std::move(one));
        }
    };
    add(in.oil, load);
    for (const Ingredient& one : in.rest)
        wax -= one.fraction * (1 - load);
    add(in.rest, 1 - load);
    Ingredient waxes;
    waxes.name = "wax";
    waxes.fraction = std::max(wax, 0.0);
    candle.push_back(std::move(waxes));
    return codes_for(candle);
}

/// Statements of one kind have the same number: milder ones come in the place of graver ones. On a
/// label H314 stands for H318 too, and H410 for H400, so skin and eyes are one kind, and water is;
/// "H335 or H336" may be either of the two.
int kind_of(std::string_view statement) {
    for (const HazardTest& test : hazard_tests()) {
        if (code(facts(test.gives).statement) != statement) continue;
        if (test.group == TestGroup::eye) return static_cast<int>(TestGroup::skin);
        if (test.group == TestGroup::stot_se_3_h336)
            return static_cast<int>(TestGroup::stot_se_3_h335);
        if (test.group == TestGroup::aquatic_acute)
            return static_cast<int>(TestGroup::aquatic_chronic);
        return static_cast<int>(test.group);
    }
    for (const RouteFacts& route : all_routes())
        for (int milder = 0; milder < 4; ++milder) {
            const int hazard = static_cast<int>(route.gravest) + milder;
            if (code(facts(static_cast<HazardClass>(hazard)).statement) == statement)
                return -1 - static_cast<int>(route.gravest);
        }
    return std::numeric_limits<int>::max();
}

bool may_replace(const std::string& milder, const std::string& graver) {
    const int kind = kind_of(graver);
    if (milder == "EUH208")
        return kind == static_cast<int>(TestGroup::skin_sens) ||
               kind == static_cast<int>(TestGroup::resp_sens);
    return kind_of(milder) == kind;
}

/// What a label has of the same kind below a statement's limit and not above it.
std::vector<std::string> in_place(const Scented& in, const std::string& code, double limit) {
    const auto above = codes_at(in, std::min(limit * (1 + hair), 1.0));
    std::vector<std::string> below = codes_at(in, limit * (1 - hair));
    std::erase_if(below, [&](const std::string& one) {
        return std::ranges::find(above, one) != above.end() || !may_replace(one, code);
    });
    return below;
}

std::string both(const std::vector<std::string>& codes) {
    return fmt::format("{}", fmt::join(codes, " and "));
}

/// What comes after the first thing that came in place of another, down to nothing. `more`:
/// statements that have sentences of their own.
std::string further(const Scented& in, const std::string& first, std::vector<std::string>& more) {
    std::string words, code = first;
    const char* none = "neither";
    while (const auto limit = in.limits.without(code)) {
        if (limit->load == 0) return words + ", which the additives have enough for at any load";
        const auto next = in_place(in, code, limit->load);
        words += fmt::format(", below {} {}", in.load_words(limit->load),
                             next.empty() ? none : both(next));
        none = "none of them";
        if (next.size() != 1) {
            more.insert(more.end(), next.begin(), next.end());
            break;
        }
        code = next[0];
    }
    return words;
}

std::string sentence(const Scented& in, const std::string& code, std::vector<std::string>& more) {
    const auto limit = in.limits.without(code);
    if (!limit) return {};
    if (limit->load == 0)
        return fmt::format("no load is without {}, what the additives have is enough for it", code);
    const std::string below = "below " + in.load_words(limit->load);
    const auto next = in_place(in, code, limit->load);
    if (next.empty()) return fmt::format("{} no {}", below, code);
    std::string words = fmt::format("{} {} {} in place of {}", below, both(next),
                                    next.size() == 1 ? "comes" : "come", code);
    if (next.size() == 1) return words + further(in, next[0], more);
    more.insert(more.end(), next.begin(), next.end());
    return words;
}

} // namespace

std::string percent_cut(double fraction, int decimals) {
    const double percent = fraction * 100;
    if (percent > 0)
        decimals = std::max(decimals, static_cast<int>(std::ceil(-std::log10(percent))) + 1);
    return show_number(cut_down(percent, decimals), decimals) + " %";
}

std::vector<std::string> less_scent(std::vector<std::string> codes, bool some_unknown,
                                    std::span<const Ingredient> oil,
                                    std::span<const Ingredient> rest,
                                    const std::function<std::string(double)>& load_words) {
    if (oil.empty()) return {};
    const Scented in{.oil = oil, .rest = rest, .load_words = load_words};
    std::vector<std::string> sentences;
    for (std::size_t i = 0; i < codes.size(); ++i) { // it grows by what comes in the place of one
        const auto here = codes.begin() + static_cast<std::ptrdiff_t>(i);
        if (std::find(codes.begin(), here, *here) != here) continue;
        std::string words = sentence(in, std::string(*here), codes);
        if (words.empty()) continue;
        if (some_unknown) words += ", of what is known";
        sentences.push_back(std::move(words));
    }
    return sentences;
}

} // namespace waxwright
