// How facts are put into a list.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compare/facts.hpp"

namespace waxwright {

/// Puts facts into a list; what is not known, and words that are empty, are no facts.
class Facts {
public:
    explicit Facts(std::vector<Fact>& into) : into_(into) {}

    void put(Aspect aspect, SheetValue value, std::string of = {}, std::string filling = {}) {
        into_.push_back({aspect, std::move(of), std::move(filling), std::move(value)});
    }
    void put(Aspect aspect, ValueKind kind, const std::optional<double>& figure) {
        if (figure) put(aspect, figure_value(kind, *figure));
    }
    void put_text(Aspect aspect, std::string_view words) {
        if (!words.empty()) put(aspect, text_value(std::string(words)));
    }

private:
    std::vector<Fact>& into_;
};

/// What the maker of a test burn wrote down.
void put_test_burn(Facts& facts, const TestPlan& test);

} // namespace waxwright
