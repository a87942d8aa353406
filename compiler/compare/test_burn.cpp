#include "compare/test_burn.hpp"

#include <string_view>

#include <fmt/format.h>

#include "plan/wording.hpp"
#include "units/date.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

void add(std::string& words, std::string_view what, const std::string& figure) {
    words += fmt::format(", {} {}", what, figure);
}

void add(std::string& words, std::string_view what, Choice said) {
    if (said != Choice::unsaid) add(words, what, std::string(word(said)));
}

} // namespace

std::string test_burn_words(const TestPlan& test, bool us_units) {
    const auto length = [&](double mm) { return show_length(mm, us_units); };
    std::string words = test.name;
    words += test.verdict == Choice::unsaid
                 ? ", without a verdict"
                 : fmt::format(", the verdict was {}", word(test.verdict));
    if (test.on) {
        Date day = *test.on;
        day.has_time = false;
        words += ", on " + show(day);
    }
    if (test.samples) add(words, "candles", show_number(*test.samples, 0));
    if (!test.make.empty()) words += ", " + test.make;
    if (test.flame_mm) add(words, "tallest flame", length(*test.flame_mm));
    if (test.glass_c) add(words, "vessel", show_temperature(*test.glass_c, us_units));
    if (test.pool_mm) add(words, "pool", length(*test.pool_mm));
    if (test.pool_minutes) add(words, "after", show_duration(*test.pool_minutes * 60));
    if (test.left_mm) add(words, "left", length(*test.left_mm));
    if (test.left_g) add(words, "left", show_number(*test.left_g, 1) + " g");
    add(words, "cracked", test.cracked);
    add(words, "relit", test.relit);
    add(words, "soot", test.soot);
    if (!test.notes.empty()) words += ": " + test.notes;
    return words;
}

} // namespace waxwright
