#include <vector>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "findings/nearest.hpp"
#include "findings/pages.hpp"

namespace waxwright {

namespace {

/// Every rule under its family, with how grave it is and what it finds.
std::string all_rules_listed() {
    std::string text;
    std::string_view family;
    for (const RuleInfo& rule : all_rules()) {
        if (word(rule.family) != family) {
            if (!family.empty()) text += "\n";
            family = word(rule.family);
            text += fmt::format("{}\n", family);
        }
        text += fmt::format("  {:<25} {:<8} {}\n", rule.name, word(rule.severity), rule.about);
    }
    return text + "\nwaxwright why RULE prints a rule's page: why it matters, what to do, and an "
                  "example.\n";
}

std::vector<std::string_view> rule_names() {
    std::vector<std::string_view> names;
    for (const RuleInfo& rule : all_rules())
        names.push_back(rule.name);
    return names;
}

} // namespace

int run_why(const Options& options) {
    std::string text;
    if (options.word.empty()) {
        text = all_rules_listed();
    } else if (const auto rule = find_rule(options.word)) {
        text = page_of(*rule);
    } else {
        const std::string hint = did_you_mean(options.word, rule_names());
        write_error(fmt::format("waxwright: there is no rule `{}`; {}\n", options.word,
                                hint.empty() ? "`waxwright why` lists them all" : hint));
        return 2;
    }
    const std::string problem = write_out(text);
    if (problem.empty()) return 0;
    write_error(fmt::format("waxwright: standard output: {}\n", problem));
    return 2;
}

} // namespace waxwright
