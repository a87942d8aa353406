// Steps: a clause's words against the schema's verbs, then what stands behind them.
#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/phrase_text.hpp"
#include "model/step_reader.hpp"
#include "syntax/parse.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// The first word of a verb's words, and the rest of them.
std::pair<std::string_view, std::string_view> split(std::string_view words) {
    const std::size_t blank = words.find(' ');
    if (blank == std::string_view::npos) return {words, {}};
    return {words.substr(0, blank), words.substr(blank + 1)};
}

/// True for a line in inches, or in °F by its letter or by a number that is none of °C in a pot.
bool in_us_units(std::string_view line, bool length) {
    constexpr double hottest = 110; // °C: no wax is melted above that
    for (std::size_t i = 0; i < line.size(); ++i) {
        const bool alone =
            i + 1 == line.size() || (small(line[i + 1]) < 'a' || small(line[i + 1]) > 'z');
        if (!length && line[i] == 'F' && alone) return true;
        if (i > 0 && (is_digit(line[i - 1]) || line[i - 1] == '.')) continue;
        const std::size_t end = std::min(line.find_first_not_of("0123456789.", i), line.size());
        if (!length && read_number(line.substr(i, end - i)).value_or(0) > hottest) return true;
    }
    if (!length) return false;
    const auto has = [&](std::string_view mark) {
        return line.find(mark) != std::string_view::npos;
    };
    return has("inch") || has(" in") || has("\"") || has("1/");
}

/// The verb's example, in °F or inches where the line is.
std::string example_for(const VerbInfo& verb, std::string_view line) {
    std::string example(verb.example);
    if (verb.argument == Argument::to_length && in_us_units(line, true)) {
        return fmt::format("{} to 1/4 in", verb.words);
    }
    constexpr std::string_view celsius = " °C";
    const std::size_t end = example.find(celsius);
    if (end == std::string::npos || !in_us_units(line, false)) return example;
    const std::size_t begin = example.rfind(' ', end - 1) + 1;
    const double degrees =
        read_number(std::string_view(example).substr(begin, end - begin)).value_or(0);
    constexpr double step = 5; // people read no finer
    const double fahrenheit = std::round((degrees * 9 / 5 + 32) / step) * step;
    return example.replace(begin, end + celsius.size() - begin,
                           fmt::format("{} °F", show_number(fahrenheit, 0)));
}

} // namespace

void StepReader::read_step(BlockId id, NodeId node, FileId file, std::vector<Step>& steps) {
    const std::size_t first = steps.size();
    std::string_view because;
    for (const NodeId child : tree(file).children(node)) {
        const At part{file, child};
        if (kind(part) == Kind::because) {
            because = values_.stored_text({file, tree(file).last_child(child)});
            continue;
        }
        std::optional<Step> step = read_clause(id, part);
        if (!step) {
            model_.blocks[id].steps_broken = true;
            continue;
        }
        if (steps.size() > first && step->verb != Verb::stir) {
            findings_.report(Rule::syntax, span(part), "only `stir` can follow the comma of a step",
                             "write it on a line of its own");
            continue;
        }
        steps.push_back(*step);
    }
    for (std::size_t i = first; i < steps.size(); ++i) {
        steps[i].because = because;
    }
}

std::optional<Step> StepReader::read_clause(BlockId id, At clause) {
    const Children parts = children(clause);
    const std::string_view first = text({clause.file, parts[0]});
    const std::string_view second = parts.size() > 1 && kind({clause.file, parts[1]}) == Kind::name
                                        ? text({clause.file, parts[1]})
                                        : std::string_view{};
    const VerbInfo* near = nullptr;
    for (const VerbInfo& verb : all_verbs()) {
        if (verb.words.front() != first.front()) continue; // most of them, at no cost
        const auto [head, rest] = split(verb.words);
        if (head != first) continue;
        near = &verb;
        if (!rest.empty() && rest != second) continue;
        Step step{.verb = verb.verb, .at = span(clause)};
        if (read_argument(id, verb, clause, parts, rest.empty() ? 1 : 2, step)) return step;
        return std::nullopt;
    }
    if (near != nullptr) {
        ill_formed(*near, clause);
    } else {
        unknown_verb(clause, first);
    }
    return std::nullopt;
}

/// True if what stands behind the verb's first word is of the kind that this verb wants there, so
/// that with the verb put right the line could be that step.
bool StepReader::could_be(const VerbInfo& verb, At clause) {
    const Children parts = children(clause);
    const auto [head, rest] = split(verb.words);
    std::size_t from = 1;
    if (!rest.empty()) {
        if (parts.size() < 2 || text({clause.file, parts[1]}) != rest) return false;
        from = 2;
    }
    const std::size_t count = parts.size() - from;
    const Kind last = count > 0 ? kind({clause.file, parts[parts.size() - 1]}) : Kind::name;
    switch (verb.argument) {
    case Argument::none:
        return count == 0;
    case Argument::to_temperature:
    case Argument::to_length:
        return count == 1 && last == Kind::to;
    case Argument::at_temperature:
        return count == 1 && last == Kind::at;
    case Argument::name_at_temperature:
        return count == 2 && last == Kind::at;
    case Argument::duration:
        return count == 1 && last != Kind::to && last != Kind::at && last != Kind::text;
    case Argument::text:
        return count == 1 && last == Kind::text;
    }
    return false;
}

void StepReader::unknown_verb(At clause, std::string_view first) {
    std::vector<std::string_view> firsts;
    std::vector<std::string_view> fitting;
    for (const VerbInfo& verb : all_verbs()) {
        firsts.push_back(split(verb.words).first);
        const bool begins = (firsts.back().front() | ' ') == (first.front() | ' '); // `Melt`
        if (begins && could_be(verb, clause)) fitting.push_back(firsts.back());
    }
    std::string small(first); // `MELT`
    for (char& c : small)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool only_capitals =
        std::find(fitting.begin(), fitting.end(), small) != fitting.end() && small != first;
    std::string hint = only_capitals ? fmt::format("write `{}`, in small letters", small)
                                     : did_you_mean(first, fitting);
    // `pore at 60 °C`: two letters off, but nothing else begins so and wants that.
    if (hint.empty() && fitting.size() == 1 && fitting.front().size() == first.size() &&
        fitting.front().substr(0, 2) == first.substr(0, 2)) {
        hint = fmt::format("did you mean `{}`?", fitting.front());
    }
    if (hint.empty()) hint = fmt::format("the steps begin with {}", fmt::join(firsts, ", "));
    Span at = span(clause);
    at.end = at.begin + static_cast<std::uint32_t>(first.size());
    Finding& finding = findings_.report(Rule::unknown_verb, at,
                                        fmt::format("`{}` is no step", first), std::move(hint));
    if (only_capitals) {
        finding.fixes.push_back(put(at, std::move(small), true));
    } else {
        offer_nearest(finding, at, first, fitting, Spelling::word);
    }
}

void StepReader::ill_formed(const VerbInfo& verb, At clause) {
    findings_.report(Rule::syntax, span(clause),
                     fmt::format("`{}` is not how this step is written", text(clause)),
                     fmt::format("it is written like this: `{}`", example_for(verb, text(clause))));
}

/// What stands behind the verb's own words: parts[from] and on.
bool StepReader::read_argument(BlockId id, const VerbInfo& verb, At clause, const Children& parts,
                               std::size_t from, Step& step) {
    const auto part = [&](std::size_t i) { return At{clause.file, parts[from + i]}; };
    const std::size_t count = parts.size() - from;
    const auto tail = [&](std::size_t i, Kind wanted_kind) -> std::optional<At> {
        if (count != i + 1 || kind(part(i)) != wanted_kind) return std::nullopt;
        return At{clause.file, tree(clause.file).last_child(part(i).node)};
    };
    const auto figure_of = [&](std::optional<At> operand, Dimension dimension, Least least,
                               std::optional<Figure>& into) {
        if (!operand) {
            ill_formed(verb, clause);
            return false;
        }
        const std::optional<Quantity> quantity = evaluator_.wanted(*operand, dimension, least);
        if (quantity) into = Figure{*quantity, span(*operand)};
        return quantity.has_value();
    };
    switch (verb.argument) {
    case Argument::none:
        if (count > 0) ill_formed(verb, clause);
        return count == 0;
    case Argument::to_temperature:
        return figure_of(tail(0, Kind::to), dimension::point, Least::any, step.figure);
    case Argument::at_temperature:
        return figure_of(tail(0, Kind::at), dimension::point, Least::any, step.figure);
    case Argument::to_length:
        return figure_of(tail(0, Kind::to), dimension::length, Least::above_zero, step.figure);
    case Argument::duration: {
        const bool one = count == 1 && kind(part(0)) != Kind::to && kind(part(0)) != Kind::at &&
                         kind(part(0)) != Kind::for_;
        // `stir well`: a word there is no duration, unless it is the name of a let.
        if (one && kind(part(0)) == Kind::name &&
            names_.find(clause.file, text(part(0))) == nullptr) {
            ill_formed(verb, clause);
            return false;
        }
        return figure_of(one ? std::optional(part(0)) : std::nullopt, dimension::time,
                         Least::above_zero, step.figure);
    }
    case Argument::name_at_temperature: {
        if (count != 2 || kind(part(0)) != Kind::name) {
            ill_formed(verb, clause);
            return false;
        }
        const bool good = figure_of(tail(1, Kind::at), dimension::point, Least::any, step.figure);
        return read_added(id, part(0), step) && good;
    }
    case Argument::text:
        if (count != 1 || kind(part(0)) != Kind::text) {
            ill_formed(verb, clause);
            return false;
        }
        step.text = values_.stored_text(part(0));
        return true;
    }
    return false;
}

/// `add scent`, or the name of one of the recipe's additives.
bool StepReader::read_added(BlockId, At name, Step& step) {
    if (text(name) == "scent") {
        step.adds_scent = true;
        return true;
    }
    const Symbol* symbol = names_.find(name.file, text(name));
    if (symbol == nullptr) {
        lookup_.unknown_name(name.file, text(name), span(name), BlockKind::additive, "scent");
        return false;
    }
    if (symbol->what == Symbol::What::block && model_.blocks[symbol->id].kind == BlockKind::oil) {
        findings_.report(Rule::wrong_kind, span(name),
                         fmt::format("`{}` is an oil, and all oils go in together", text(name)),
                         "write `add scent at …`");
        return false;
    }
    const auto block = counts_.block_named(name.file, text(name), span(name), BlockKind::additive);
    if (!block) return false;
    step.material = *block;
    return true;
}

} // namespace waxwright
