// Shapes of a substance's figures that may be one for all its classes, or one for each: limits of
// its own, M-factors.
#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "findings/spelling.hpp"
#include "model/value_reader.hpp"

namespace waxwright {

namespace {

constexpr const char* class_behind =
    "write the class behind each, as in `hazards`: 0.01% skin-sens-1a, 5% eye-irrit-2";

constexpr std::string_view acute_word = "acute", chronic_word = "chronic";

bool is_hazard_word(std::string_view text) {
    return text == acute_word || text == chronic_word;
}

} // namespace

Value ValueReader::read_limits(const PropertyInfo& info, At value) {
    const Children phrases = children(value);
    const Children parts = children({value.file, phrases[0]});
    const At first{value.file, parts[0]};
    const bool class_alone = kind(first) == Kind::name && find_hazard_class(text(first));
    const bool has_class = class_alone || kind(first) == Kind::item ||
                           (parts.size() > 1 && kind({value.file, parts[1]}) == Kind::of_) ||
                           (kind(first) == Kind::measure && children(first).size() > 1 &&
                            find_unit(text({value.file, children(first)[1]})) == no_unit);
    if (phrases.size() == 1 && !has_class) return read_figure(info, value);
    std::vector<ClassLimit> limits;
    bool good = true;
    for (const NodeId phrase : phrases)
        good = read_limit(info, {value.file, phrase}, limits) && good;
    if (!good) return {};
    const Slice slice{static_cast<std::uint32_t>(model_.class_limits.size()),
                      static_cast<std::uint32_t>(limits.size())};
    model_.class_limits.insert(model_.class_limits.end(), limits.begin(), limits.end());
    return ClassLimits{slice};
}

/// `5% eye-irrit-2`; false, with the finding reported, where it isn't that.
bool ValueReader::read_limit(const PropertyInfo& info, At phrase, std::vector<ClassLimit>& into) {
    const Children parts = children(phrase);
    if (parts.size() > 1) { // `5% of eye-irrit-2`
        const At tail{phrase.file, parts[1]};
        findings_.report(Rule::syntax, span(tail),
                         fmt::format("`{}` does not belong behind a limit", text(tail)),
                         class_behind);
        return false;
    }
    const At operand{phrase.file, parts[0]};
    const Children inside = children(operand);
    if (kind(operand) == Kind::name && find_hazard_class(text(operand))) {
        findings_.report(Rule::syntax, span(operand),
                         fmt::format("`{}` has no percent before it", text(operand)), class_behind);
        return false;
    }
    if (kind(operand) == Kind::measure && inside.size() > 1 &&
        find_unit(text({operand.file, inside[1]})) == no_unit) {
        // `5 eye-irrit-2`: the grammar takes the word behind a number for its unit
        const std::string meant =
            fmt::format("{}% {}", text({operand.file, inside[0]}), text({operand.file, inside[1]}));
        findings_
            .report(Rule::missing_unit, span(operand),
                    fmt::format("{} is no percent", text(operand)), fmt::format("write {}", meant))
            .fixes.push_back(put(span(operand), meant, false));
        return false;
    }
    if (kind(operand) != Kind::item) {
        findings_.report(Rule::syntax, span(operand),
                         fmt::format("{} doesn't say for which class it is", text(operand)),
                         class_behind);
        return false;
    }
    const At amount{operand.file, inside[0]}, name{operand.file, inside[1]};
    context_.wanted = info.dimension;
    const std::optional<Quantity> limit = evaluator_.wanted(amount, info.dimension, info.least);
    const std::optional<HazardClass> hazard = hazard_named(name);
    if (!limit || !hazard || !within(info, *limit, amount)) return false;
    if (std::ranges::count(into, *hazard, &ClassLimit::hazard) != 0) {
        findings_.report(Rule::defined_twice, span(phrase),
                         fmt::format("`{}` has two limits", word(*hazard)), "take one out");
        return false;
    }
    into.push_back({*hazard, limit->value});
    return true;
}

/// 1, 10, 100 and so on; told otherwise.
bool ValueReader::is_tenfold(const PropertyInfo& info, double value, At at) {
    double power = 1;
    while (power < value)
        power *= 10;
    if (power == value) return true; // both are whole numbers
    add_use(findings_.report(Rule::out_of_range, span(at),
                             fmt::format("{} is no `{}`", text(at), waxwright::word(info.key)),
                             "it is 1, 10, 100, 1000 and so on"));
    return false;
}

Value ValueReader::read_factors(const PropertyInfo& info, At value) {
    const Children phrases = children(value);
    const At first{value.file, children({value.file, phrases[0]})[0]};
    const bool each = kind(first) == Kind::item || kind(first) == Kind::compound ||
                      (kind(first) == Kind::measure && children(first).size() > 1) ||
                      is_hazard_word(text(first));
    if (phrases.size() == 1 && !each) return read_bare_number(info, value);
    MFactors factors;
    bool good = true;
    for (const NodeId phrase : phrases)
        good = read_factor(info, {value.file, phrase}, factors) && good;
    if (!good) return {};
    return factors;
}

/// `10 acute`; false, with the finding reported, where it isn't that.
bool ValueReader::read_factor(const PropertyInfo& info, At phrase, MFactors& into) {
    const Children parts = children(phrase);
    if (parts.size() > 1) {
        evaluator_.not_expected({phrase.file, parts[1]});
        return false;
    }
    const At operand{phrase.file, parts[0]};
    const Children inside = children(operand);
    const bool has_word =
        kind(operand) == Kind::item || (kind(operand) == Kind::measure && inside.size() > 1);
    if (!has_word) {
        findings_.report(Rule::syntax, span(operand),
                         is_hazard_word(text(operand))
                             ? fmt::format("`{}` has no number before it", text(operand))
                         : kind(operand) == Kind::compound
                             ? fmt::format("{} has no comma between two factors", text(operand))
                             : fmt::format("{} doesn't say for which hazard it is", text(operand)),
                         "write one for both, `m-factor: 10`, or which behind each: 10 acute, 1 "
                         "chronic");
        return false;
    }
    const At number{operand.file, inside[0]}, which{operand.file, inside[1]};
    const std::string_view written = text(which);
    if (!is_hazard_word(written)) {
        constexpr std::string_view words[] = {acute_word, chronic_word};
        Finding& finding =
            findings_.report(Rule::unknown_name, span(which),
                             fmt::format("an M-factor is acute or chronic, not `{}`", written),
                             "write which behind each: 10 acute, 1 chronic");
        offer_nearest(finding, span(which), written, words, Spelling::word);
        return false;
    }
    std::optional<double>& factor = written == acute_word ? into.acute : into.chronic;
    if (factor) {
        findings_.report(Rule::defined_twice, span(phrase),
                         fmt::format("it is {} already", written), "take one out");
        return false;
    }
    double value = 0;
    if (kind(operand) == Kind::measure) {
        value = read_number(text(number)).value_or(0);
    } else {
        const auto figure = evaluator_.wanted(number, dimension::count, info.least);
        if (!figure) return false;
        value = figure->value;
    }
    if (!is_tenfold(info, value, number)) return false;
    factor = value;
    return true;
}

} // namespace waxwright
