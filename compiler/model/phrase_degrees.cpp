// Answers to a step whose temperature has no thermometer: `melt to 165`, `pour at 140 degrees`.
#include <algorithm>
#include <array>
#include <charconv>

#include <fmt/format.h>

#include "model/phrase_slips.hpp"

namespace waxwright {

namespace {

// Common practice: no wax for containers is worked hotter, and none is liquid where it is colder.
// The library's waxes have 105 °C as the highest ceiling, and 38 °C as the lowest melting point.
constexpr double hottest_c = 120;
constexpr double coldest_c = 35;

bool takes_temperature(const VerbInfo& verb) {
    return verb.argument == Argument::to_temperature || verb.argument == Argument::at_temperature ||
           verb.argument == Argument::name_at_temperature;
}

/// The verb that a line begins with; the longest of several.
const VerbInfo* verb_of(std::string_view line) {
    const VerbInfo* best = nullptr;
    for (const VerbInfo& verb : all_verbs()) {
        const std::size_t length = verb.words.size();
        const bool begins =
            line.starts_with(verb.words) && (line.size() == length || is_blank(line[length]));
        if (begins && (best == nullptr || length > best->words.size())) best = &verb;
    }
    return best;
}

bool may_be(double celsius, const VerbInfo& verb) {
    return !verb.has(trait::of_wax) || (celsius >= coldest_c && celsius <= hottest_c);
}

} // namespace

std::optional<SlipAnswer> degrees_answer(const BookLine& book) {
    const VerbInfo* verb = verb_of(book.line);
    if (verb == nullptr || !takes_temperature(*verb)) return std::nullopt;
    const std::string_view joint = verb->argument == Argument::to_temperature ? " to " : " at ";
    const std::size_t at = book.line.find(joint);
    if (at == std::string_view::npos) return std::nullopt;
    // Words besides the verb, and the name behind an `add`, have answers of their own.
    const std::string_view name =
        trimmed(book.line.substr(0, at).substr(std::min(verb->words.size(), at)));
    const bool named = verb->argument == Argument::name_at_temperature;
    if (named ? !is_kebab(name) : !name.empty()) return std::nullopt;
    const std::string_view before = book.line.substr(0, at + joint.size());
    std::string_view rest = trimmed(book.line.substr(before.size()));
    double degrees = 0;
    const auto [end, error] =
        std::from_chars(rest.data(), rest.data() + rest.size(), degrees, std::chars_format::fixed);
    if (error != std::errc()) return std::nullopt;
    const std::string_view number = rest.substr(0, static_cast<std::size_t>(end - rest.data()));
    rest = trimmed(rest.substr(number.size()));
    for (const std::string_view word : {"degrees", "degree", "deg.", "deg", "°"}) {
        if (!rest.starts_with(word)) continue;
        rest = trimmed(rest.substr(word.size()));
        break;
    }
    if (!rest.empty() && !rest.starts_with(", ")) return std::nullopt;
    const bool celsius = may_be(degrees, *verb);
    const bool fahrenheit = may_be((degrees - 32) / 1.8, *verb);
    SlipAnswer answer{"of which thermometer? write °C or °F after the number"};
    const auto with = [&](std::string_view sign) {
        return fmt::format("{}{} {}{}", before, number, sign, rest);
    };
    if (celsius) answer.others.push_back(with("°C"));
    if (fahrenheit) answer.others.push_back(with("°F"));
    if (answer.others.size() == 1) {
        answer.hint +=
            fmt::format("; {} {} is {} for any wax: `{}`?", number, celsius ? "°F" : "°C",
                        celsius ? "too cold" : "too hot", answer.others.front());
    }
    return answer;
}

} // namespace waxwright
