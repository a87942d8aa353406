#include "reckon/label/worked.hpp"

#include <cmath>

#include <fmt/format.h>

#include "reckon/label/acute.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// As many decimals as an exact product of written percents has; enough to see 0.999999 beside 1.
constexpr int decimals = 6;

std::string number(double value) {
    return std::isfinite(value) ? show_number(value, decimals) : "no";
}

std::string percent(double fraction) {
    return number(fraction * 100) + " %";
}

std::string too_little(const WorkedTerm& term) {
    return fmt::format("{}: {}, under {}, does not count", term.name, percent(term.fraction),
                       percent(term.from));
}

std::string line_of_sum(const WorkedTerm& term) {
    if (!term.counts) return too_little(term);
    if (term.weight == 1 && !term.m_not_given)
        return fmt::format("{}: {}", term.name, percent(term.fraction));
    return fmt::format("{}: {} × {} = {}{}{}", term.name, percent(term.fraction),
                       number(term.weight), percent(term.value),
                       term.own_limit ? ", by a limit of its own" : "",
                       term.m_not_given ? ", M not given, taken as 1" : "");
}

std::string line_of_one(const WorkedTerm& term) {
    return fmt::format("{}: {}, {} {}{}", term.name, percent(term.fraction),
                       term.counts ? "at least" : "under", percent(term.from),
                       term.own_limit ? ", a limit of its own" : "");
}

std::string line_of_acute(const WorkedTerm& term, std::string_view unit) {
    if (!term.counts) return too_little(term);
    return fmt::format("{}: {} / {} {}{} = {}", term.name, number(term.fraction * 100),
                       number(term.weight), unit, term.is_point ? " (point of its category)" : "",
                       number(term.value * 100));
}

std::string_view words(TestOutcome outcome) {
    switch (outcome) {
    case TestOutcome::reached:
        return "reached";
    case TestOutcome::not_reached:
        return "not reached";
    case TestOutcome::not_needed:
        return "not needed, a graver class is reached";
    case TestOutcome::for_liquids:
        return "reached, but it is for liquids and the candle is solid";
    case TestOutcome::too_thick:
        return "reached, but it is too thick to be breathed in";
    }
    return {};
}

std::string end_of_acute(const Worked& worked) {
    const AcuteSum& acute = *worked.acute;
    const RouteFacts& route = facts(acute.route);
    return fmt::format("({} - {}) / {} = {} {}; {} from {} {} down: {}", 100,
                       number(acute.unknown * 100), number(acute.sum * 100), number(acute.estimate),
                       route.unit, abbreviation(worked.gives), number(worked.limit), route.unit,
                       words(worked.outcome));
}

std::string end_of(const Worked& worked) {
    if (worked.acute) return end_of_acute(worked);
    if (!worked.adds_up)
        return fmt::format("{}: {}", abbreviation(worked.gives), words(worked.outcome));
    return fmt::format("sum {}; {} from {}: {}", percent(worked.sum), abbreviation(worked.gives),
                       percent(worked.limit), words(worked.outcome));
}

} // namespace

std::vector<std::string> lines_of(const Worked& worked) {
    std::vector<std::string> lines{std::string(worked.test)};
    for (const WorkedTerm& term : worked.terms) {
        if (worked.acute)
            lines.push_back(line_of_acute(term, facts(worked.acute->route).unit));
        else
            lines.push_back(worked.adds_up ? line_of_sum(term) : line_of_one(term));
    }
    lines.push_back(end_of(worked));
    lines.push_back(fmt::format(
        "{}{}", worked.evidence == Evidence::memory ? "from memory of " : "", worked.source));
    return lines;
}

} // namespace waxwright
