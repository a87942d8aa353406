// Appends to a Markdown sheet. What the user wrote goes through `user` and nothing else, so that no
// name or note can turn into markup.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "plan/plan.hpp"

namespace waxwright {

class SheetWriter {
public:
    SheetWriter(const Plan& of, bool us) : plan(of), us_units(us) {}

    const Plan& plan;
    const bool us_units;

    /// Our own words, as they are.
    SheetWriter& say(std::string_view words) {
        text_ += words;
        return *this;
    }
    /// The user's words within a line: Markdown's signs escaped, a line break made a space, a
    /// control character U+FFFD. It may not be the first thing in a block, but for a heading.
    SheetWriter& user(std::string_view words);
    /// The same at the beginning of a block (a task's box does not count), where more is markup.
    SheetWriter& user_first(std::string_view words);
    /// A finding's words within a line, without the backticks of what it quotes: whoever stands at
    /// the stove reads no code.
    SheetWriter& message(std::string_view words);
    /// A paragraph of the user's, behind a word of ours: its lines stay lines.
    SheetWriter& paragraph(std::string_view label, std::string_view words);
    SheetWriter& number(std::int64_t number);
    SheetWriter& percent(double fraction);
    /// In both scales: "75 °C (167 °F)".
    SheetWriter& temperature(double celsius);
    /// "65 to 75 °C (149 to 167 °F)"; a single one as such.
    SheetWriter& temperatures(const TemperatureRange& range);
    /// An interval in both scales: "3 C° (5.4 F°)".
    SheetWriter& interval(double celsius);
    SheetWriter& volume(double ml);
    SheetWriter& length(double mm);
    SheetWriter& weight(double grams, double division_g, const ScalePlan& scale);
    /// What goes into one vessel.
    SheetWriter& pour(double grams, const ScalePlan& scale);
    SheetWriter& duration(double minutes);

    /// "## Steps" with a blank line before and after.
    SheetWriter& heading(std::string_view words);
    /// Begins a heading of the third order; `end_heading` ends it.
    SheetWriter& begin_heading() { return say("\n### "); }
    SheetWriter& end_heading() { return say("\n\n"); }

    /// What was written so far; the writer begins anew.
    std::string take() { return std::exchange(text_, {}); }

private:
    void append(std::string_view words, bool escaped);

    std::string text_;
};

/// True if the batch has more than one recipe, so that each part must say whose it is.
inline bool is_mixed(const Plan& plan) {
    return plan.recipes.size() > 1;
}

} // namespace waxwright
