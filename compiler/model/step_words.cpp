#include "model/step_words.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "model/phrase_text.hpp"
#include "model/phrases.hpp"
#include "units/unit.hpp"

namespace waxwright {

namespace {

struct CueWords {
    Cue cue;
    std::string_view words;
};
constexpr CueWords cues[] = {
#define CUE(what, words) {Cue::what, words},
#include "model/step_words.def"
};

bool is_one_of(std::string_view word, std::string_view words) {
    for (std::size_t at = words.find(word); at != std::string_view::npos;
         at = words.find(word, at + 1)) {
        const std::size_t end = at + word.size();
        const bool begins = at == 0 || words[at - 1] == ' ';
        if (begins && (end == words.size() || words[end] == ' ')) return true;
    }
    return false;
}

/// Marks what the word speaks of; false where it is none of the table's.
bool mark(std::string_view word, StepWords& seen) {
    bool known = false;
    for (const CueWords& each : cues) {
        if (!is_one_of(word, each.words)) continue;
        known = true;
        if (!seen.has(each.cue)) seen.in_order.push_back(each.cue);
        seen.said[static_cast<std::size_t>(each.cue)] = true;
    }
    return known;
}

void skip(std::string_view& text, std::string_view what) {
    text.remove_prefix(std::min(text.find_first_not_of(what), text.size()));
}

/// The word that a text begins with: up to a blank or a mark.
std::string_view word_of(std::string_view text) {
    return text.substr(0, std::min(text.find_first_of(" \t,:!?()"), text.size()));
}

/// A number's unit in the language's own spelling, and where it belongs.
struct UnitBehind {
    std::size_t length = 0;
    std::string unit{};
    std::vector<std::string> StepWords::*kind = &StepWords::numbers;
};

std::optional<UnitBehind> unit_of_word(std::string_view word) {
    UnitId id = find_unit(word);
    if (id == no_unit) {
        const UnitMeant meant = unit_meant(word, {});
        if (!meant.surely) return std::nullopt;
        id = find_unit(meant.unit);
        if (id == no_unit) return std::nullopt;
    }
    const Dimension dimension = unit(id).dimension;
    UnitBehind behind{word.size(), std::string(find_unit(word) == id ? word : unit(id).symbol)};
    if (dimension == dimension::time) behind.kind = &StepWords::times;
    if (dimension == dimension::length) behind.kind = &StepWords::lengths;
    if (dimension == dimension::ratio) behind.kind = &StepWords::shares;
    if (dimension == dimension::mass || dimension == dimension::volume)
        behind.kind = &StepWords::amounts;
    if (behind.kind == &StepWords::numbers) return std::nullopt;
    return behind;
}

UnitBehind unit_behind(std::string_view text) {
    if (const DegreesBegun degrees = degrees_that_begin(text); degrees.length > 0)
        return {degrees.length, std::string(degrees.sign), &StepWords::temperatures};
    for (const std::string_view bare : {"degrees", "degree", "deg.", "deg", "°", "º"})
        if (text.starts_with(bare)) return {bare.size(), {}, &StepWords::numbers};
    for (const std::string_view inch : {"\"", "″", "”", "''"})
        if (text.starts_with(inch)) return {inch.size(), "in", &StepWords::lengths};
    if (text.starts_with("%")) return {1, "%", &StepWords::shares};
    std::string_view word = word_of(text);
    if (word.ends_with('.')) word.remove_suffix(1);
    return unit_of_word(word).value_or(UnitBehind{});
}

/// Length of ` 1/2` behind a whole number.
std::size_t fraction_behind(std::string_view text) {
    constexpr std::size_t length = 4;
    const bool whole = text.size() >= length && text[0] == ' ' && is_digit(text[1]) &&
                       text[2] == '/' && is_digit(text[3]);
    return whole && (text.size() == length || !is_digit(text[length])) ? length : 0;
}

/// Cuts `70 °C`, `two weeks`, `60-65 °C`, `half an inch`; false, and nothing is cut, where the
/// text begins with no number.
bool cut_figure(std::string_view& text, bool behind_time, StepWords& seen) {
    const NumberBegun number = number_that_begins(text);
    if (number.length == 0) return false;
    std::string_view rest = text.substr(number.length);
    std::string figure(number.number);
    if (const std::size_t length = fraction_behind(rest); length > 0) { // `1 1/2`
        figure += rest.substr(0, length);
        rest.remove_prefix(length);
    }
    for (const std::string_view joint : {"-", "–", " - ", " to "}) { // the first of a range
        if (!rest.starts_with(joint)) continue;
        const NumberBegun last = number_that_begins(rest.substr(joint.size()));
        if (last.length == 0) continue;
        rest.remove_prefix(joint.size() + last.length);
        seen.range = true;
        break;
    }
    const bool close = !rest.empty() && is_letter(rest.front());
    skip(rest, " \t");
    const UnitBehind unit = unit_behind(rest);
    // `burn one` and `2nd` have no figure.
    if (unit.length == 0 && (close || !is_digit(text.front()))) return false;
    rest.remove_prefix(unit.length);
    const bool blank = !unit.unit.empty() && unit.unit != "%";
    figure += fmt::format("{}{}", blank ? " " : "", unit.unit);
    std::vector<std::string>& figures = seen.*unit.kind;
    const bool goes_on = behind_time && unit.kind == &StepWords::times; // `1 h 30 min`
    if (goes_on) {
        figures.back() += " " + figure;
    } else {
        figures.push_back(std::move(figure));
    }
    text = rest;
    return true;
}

/// `an hour`, `a week`, `overnight`.
bool cut_time_in_words(std::string_view& text, StepWords& seen) {
    const std::string_view word = word_of(text);
    if (word == "overnight") {
        seen.times.emplace_back("12 h");
        seen.overnight = true;
        return false; // it is a word of waiting too
    }
    if (word != "a" && word != "an") return false;
    std::string_view rest = text.substr(word.size());
    skip(rest, " \t");
    const std::string_view next = word_of(rest);
    const auto unit = unit_of_word(next);
    if (!unit || unit->kind != &StepWords::times) return false;
    if (next.size() < 3 || next == "second") return false; // `a second pour`
    seen.times.push_back(fmt::format("1 {}", unit->unit));
    text = rest.substr(next.size());
    return true;
}

} // namespace

bool StepWords::any(std::initializer_list<Cue> wanted) const {
    return std::any_of(wanted.begin(), wanted.end(), [this](Cue cue) { return has(cue); });
}

bool StepWords::before(Cue one, Cue other) const {
    const auto first = std::find(in_order.begin(), in_order.end(), one);
    return first < std::find(in_order.begin(), in_order.end(), other);
}

namespace {

constexpr std::string_view marks = " \t,:!?()";

/// `.5`, `;`, `"wait`: what other findings speak of.
bool is_odd(std::string_view word) {
    const bool figure = word.size() > 1 && !is_letter(word[0]) && is_digit(word[1]);
    return figure || word.find_first_of(";\"{}[]=") != std::string_view::npos;
}

} // namespace

StepWords step_words(std::string_view line) {
    std::string lower(line);
    std::transform(lower.begin(), lower.end(), lower.begin(), small);
    std::string_view rest = lower;
    StepWords seen;
    bool behind_time = false;
    for (skip(rest, marks); !rest.empty(); skip(rest, marks)) {
        const std::size_t times = seen.times.size();
        if (cut_figure(rest, behind_time, seen) || cut_time_in_words(rest, seen)) {
            behind_time = seen.times.size() > times || behind_time;
            continue;
        }
        behind_time = false;
        std::string_view word = word_of(rest);
        rest.remove_prefix(word.size());
        if (word.ends_with('.')) word.remove_suffix(1);
        seen.odd = seen.odd || is_odd(word);
        if (!mark(word, seen)) seen.others.emplace_back(word);
    }
    return seen;
}

} // namespace waxwright
