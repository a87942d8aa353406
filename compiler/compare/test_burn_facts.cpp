#include <fmt/format.h>

#include "compare/fact_list.hpp"
#include "units/date.hpp"

namespace waxwright {

namespace {

std::string verdict_words(const TestPlan& test) {
    std::string words = test.name;
    words += test.verdict == Choice::unsaid
                 ? ", without a verdict"
                 : fmt::format(", the verdict was {}", word(test.verdict));
    if (test.on) {
        Date day = *test.on;
        day.has_time = false;
        words += ", on " + show(day);
    }
    return words;
}

} // namespace

void put_test_burn(Facts& facts, const TestPlan& test) {
    facts.put_text(Aspect::test_burn, verdict_words(test));
    const auto seen = [&](const char* what, ValueKind kind, const std::optional<double>& figure) {
        if (figure) facts.put(Aspect::test_seen, figure_value(kind, *figure), what);
    };
    const auto said = [&](const char* what, std::string_view words) {
        if (!words.empty()) facts.put(Aspect::test_seen, text_value(std::string(words)), what);
    };
    said("what burned", test.make);
    seen("candles", ValueKind::count, test.samples);
    seen("tallest flame", ValueKind::length, test.flame_mm);
    seen("vessel outside", ValueKind::temperature, test.glass_c);
    seen("melt pool", ValueKind::length, test.pool_mm);
    seen("melt pool after", ValueKind::minutes, test.pool_minutes);
    seen("left", ValueKind::length, test.left_mm);
    if (test.left_g) facts.put(Aspect::test_seen, weight_value(*test.left_g, 0.1, no_unit), "left");
    said("cracked", word(test.cracked));
    said("relit", word(test.relit));
    said("soot", word(test.soot));
    said("notes", test.notes);
    facts.put_text(Aspect::test_other, fmt::format("{}", fmt::join(test.other, "; ")));
}

} // namespace waxwright
