// The page of every rule, compiled into the binary from docs/rules/*.md (see source/embed.cmake).
#pragma once

#include <span>
#include <string_view>

#include "findings/registry.hpp"

namespace waxwright {

struct RulePage {
    std::string_view name; // of the rule
    std::string_view text; // Markdown, to be read as it is
};

/// In alphabetical order.
std::span<const RulePage> rule_pages();
/// The text of a rule's page; empty if it has none, which tests/pages.py doesn't let be.
std::string_view page_of(Rule rule);

} // namespace waxwright
